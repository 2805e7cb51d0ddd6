#pragma once

#include "model/item.h"

#include <cstdint>
#include <string_view>
#include <vector>

// How much adhesive a piece takes when the author does not say.

namespace leafwright::supply {

// Exactly one is filled, as the adhesive is measured.
struct Consumption {
  std::int64_t count = 0; // squares or dots
  Length length{};        // of tape
  Mass mass{};            // of glue
  Area area{};            // of adhesive sheet
};

// A strip is too narrow for two squares side by side.
bool is_strip(Size piece, const Adhesive& adhesive);

// For one copy of a piece of that size, all its layers. The author's own count or length in
// `attach` comes first. Otherwise:
//   tape     along all four edges, 1/4 in less at each corner; once along the middle of a strip
//   squares  one for every spacing x spacing begun, at least 4; on a strip one for every spacing
//            begun, at least 2
//   glue     spread x area
Consumption consumption_of(const Adhesive& adhesive, const Attach& attach, Size piece);
// The same where only a part of its back is stuck: a half as if it were the piece; edges as long as
// they are, tape 1/4 in less where two meet and at both ends of one alone; the middle third.
// Nothing of what is not stuck.
Consumption consumption_of(const Project& project, const Card& card, const Piece& piece);

// For the ends of a ribbon: tape as long as the overlap (at least 1/2 in), two squares, or glue
// under the overlap.
Consumption consumption_of(const Adhesive& adhesive, const RibbonUse& use, Length ribbon_width);

// What a card, a set or a kit takes: computed from the cards, never typed twice.

struct CuttingPlan;

using leafwright::Group;
using leafwright::group_of;
std::string_view group_words(Group group); // "Ribbon and embellishments"

// How much of one thing is taken. Which of the fields are filled depends on the kind of thing:
//   Stock          count rectangles cut, their area, parts by size; sheets after add_sheets()
//   Ribbon         count cuts, length of all, parts by length
//   Embellishment, Envelope   count
//   Adhesive       length (tape), count (foam squares, dots), mass (glue) or area (sheets)
//   Die            count of times it cuts
//   StampSet       count of impressions, parts by image
//   Ink            count of times something is inked
//   Tool           count 0: it is there to be used
struct Need {
  ItemRef item;
  Group group = Group::Cardstock;
  bool consumed = true; // used up; otherwise owned and used
  std::int64_t count = 0;
  Area area{};
  Length length{};
  Mass mass{};
  std::int64_t sheets = 0;
  std::vector<int> cards; // which cards take it, ascending; empty: not known (of some tools)
  struct Part {
    Size size{};     // Stock: width and height as held, pattern upright
    Length length{}; // Ribbon: one cut
    int image = -1;  // StampSet: index into its images
    std::int64_t count = 0;
    friend bool operator==(const Part&, const Part&) = default;
  };
  std::vector<Part> parts; // largest first; images in the order of their set
  friend bool operator==(const Need&, const Need&) = default;
};

// Group after group, each in the order of the project's own lists.
using Needs = std::vector<Need>;

Needs needs_of(const Project& project, int card); // one card
Needs needs_of_set(const Project& project);       // one of each card
// `kits` kits: run.of_each of each card in every one.
Needs needs_of_kit(const Project& project, int kits = 1);

// Fills Need::sheets of every stock from a layout of the same cards.
void add_sheets(Needs& needs, const CuttingPlan& layout);

// The need of one item, or nullptr.
const Need* find(const Needs& needs, ItemRef item);

// What the consumed things weigh. Paper by area and grammage, ribbon and tape by their share of a
// spool, glue as it is used, the rest piece by piece.
struct KitMass {
  Mass known{};
  std::vector<ItemRef> unknown;   // no mass or grammage is given for these
  bool estimated = false;         // an envelope's mass was worked out from its grammage
  bool envelopes_unknown = false; // it has lettered envelopes, and the run does not say their mass
  bool complete() const { return unknown.empty() && !envelopes_unknown; }
};
KitMass mass_of_needs(const Project& project, const Needs& needs);

// What is done to the parts of a tier before their buyer opens the envelope.

struct PartsReady {
  bool cut = false;     // to the rectangles of the cut list
  bool die_cut = false; // ... and shapes and windows with their dies
  bool stamped = false; // ... and the images of the pieces
};
// The parts of one card of a kit of this tier; nothing is done to parts that do not come cut.
PartsReady parts_ready(const Tier& tier, int card);

// Whether any piece or window is cut with a die.
bool cuts_with_a_die(const Project& project);

// What one kit takes once its parts have come: the dies that only cut what comes cut are not among
// it, nor the machine that presses nothing else, nor the trimmer when all paper comes cut. Amounts
// of the rest are those of needs_of_kit().
Needs needs_beside_parts(const Project& project, const Tier& tier);

// Papers of which a tier hands over some, and less than one kit is cut from.

struct Shortfall {
  int stock = -1;
  std::int64_t sheets = 0; // of the first size of the stock, beside what the tier holds
  bool in_pieces = false;  // the tier holds pieces of sheets, not only whole ones
};

// By straight cuts of the sheets and pieces handed over and as few whole sheets more as will do.
// Papers of which the tier holds nothing are not among them, nor parts that come cut.
std::vector<Shortfall> shortfalls_of(const Project& project, const Tier& tier);

// Whether the tier hands over pieces of sheets for its buyer to cut.
bool gives_pieces_of_sheets(const Project& project, const Tier& tier);

} // namespace leafwright::supply
