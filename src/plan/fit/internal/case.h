#pragma once

#include "measure/length.h"
#include "model/project.h"
#include "plan/fit/check.h"
#include "plan/fit/internal/thickness.h"

#include <string>
#include <string_view>

// What every rule is given, and how it speaks. For this room only.

namespace leafwright::fit {

// The closed card as an envelope meets it.
struct ClosedCard {
  Size outer; // of everything, seen from the front
  // Half the length of a thread round it each way: see half_girth().
  Length girth_across{}, girth_down{};
  Thickness thickness;
};
ClosedCard closed_card(const Project& project, const Card& card);

struct Case {
  const Project& project;
  const Card& card;
  const ClosedCard& closed;
};

// Adds findings of one rule.
class Reporter {
 public:
  Reporter(const Rule& rule, const Project& project, Findings& findings)
      : rule_(rule), project_(project), findings_(findings) {}

  Finding& operator()(Place place, std::string found, std::string expected, std::string fix);

  // Lengths as the project prints them, never rounded.
  std::string unrounded(Length length) const;
  std::string unrounded(Size size) const;

 private:
  const Rule& rule_;
  const Project& project_;
  Findings& findings_;
};

using CardRule = void (*)(const Case&, Reporter&);
using ProjectRule = void (*)(const Project&, const supply::CuttingPlan*, Reporter&);

// The name of a piece with its article: "the dotted mat".
std::string the(const Piece& piece);
// "the dotted mat of “Under the trees”".
std::string the(const Piece& piece, const Card& card);
// What carries something: "the front", "the tree panel", "the envelope".
std::string carrier_words(const Card& card, Carrier carrier);
Place carrier_place(const Card& card, Carrier carrier);

// The first of several places that is known.
Place known(Place first, Place second);

// How far `inner` reaches past the edges of `outer`; 0 where it does not.
struct Past {
  Length left{}, right{}, top{}, bottom{};
  bool any() const;
};
Past past(Rect inner, Rect outer);
// "1/4 in past the right edge and 1/8 in past the top edge"
std::string past_words(const Past& over, const Reporter& speaker);
// "move it 1/4 in to the left and 1/8 in down"; for something no larger than what carries it.
std::string move_words(const Past& over, const Reporter& speaker);

// A thickness to a tenth of a millimetre and a hundredth of an inch, rounded up, the project's unit
// first: "5.2 mm (0.21 in)", "0.21 in (5.2 mm)".
std::string thickness_text(Length thickness, Unit first);

// The least multiple of `step` that is not smaller, and the largest that is not larger.
Length up_to_step(Length length, Length step);
Length down_to_step(Length length, Length step);
Size up_to_step(Size size, Length step);

} // namespace leafwright::fit
