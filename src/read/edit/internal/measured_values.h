#pragma once

#include "measure/parse_length.h"
#include "read/edit/spans.h"
#include "read/read.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Numbers of a project file that are lengths, as they were typed.

namespace leafwright::edit {

struct TypedLength {
  std::size_t at = 0, length = 0; // bytes of the number alone, within the value
  std::size_t end = 0;            // behind its unit; equal to at + length without one
  Length value;
  std::optional<Unit> unit; // as written: cm counts as Millimetre
};

// How the reader takes a value to pieces.
enum class TypedAs {
  Length,     // "1/8", "base.width - 1/4 in"
  Size,       // "4 x 5 1/2", "mat.width - 1 x 3 in"
  Position,   // "centre, 3/8 from top"
  Points,     // "3/8, 1/2; 1 1/4, 2"
  Expression, // between the braces of a sentence; a name alone is no length
  Amount,     // "22 in", "2 of 6 x 12", "4 sheets"
};

// The lengths among a value's numbers, in order: in `flap.width - ring.width * 3 / 5 + 1` only the
// 1. What cannot be taken to pieces has none. A size whose unit stands at its end gives it to both
// sides.
std::vector<TypedLength> typed_lengths(std::string_view text, TypedAs how, Unit bare);

// Which attributes of a project are measures, and who chose them.

struct MeasuredAttribute {
  TypedAs as = TypedAs::Length;
  // A die, a sheet, a reel is as it was bought: no ruler chooses it. All else is the maker's
  // choice.
  bool bought = false;
  enum class Names { None, Sheets, Cards, Envelopes } names = Names::None; // that may stand for it
};

// By what the vocabulary says that it holds; nothing when that is no measure. `in_supplies`: the
// element stands there.
std::optional<MeasuredAttribute> measured(std::string_view element, std::string_view attribute,
                                          bool in_supplies);

// The measures of a project file one by one, and how they are written again.

struct MeasuredValue {
  std::string card, thing; // ids; empty outside of cards, of things without one
  std::string element;     // "panel"
  std::string attribute;   // "size"; empty: between braces of a sentence
  std::string where;       // for people
  std::size_t at = 0;      // bytes of the file
  std::string text;        // as written
  char quote = '"';
  std::optional<MeasuredAttribute> measured; // nothing between braces
  std::vector<TypedLength> lengths;
  std::vector<Length> now;            // one for each of `lengths`
  std::optional<std::string> instead; // takes the place of the whole value
  std::size_t name_at = 0;            // bytes of the attribute's name
  std::string renamed;                // the attribute takes this name
  bool named = false;                 // it was a name; `lengths` are what that meant
  std::string why;
  bool bought() const { return measured && measured->bought; }
};

struct MeasuredValues {
  std::vector<MeasuredValue> values; // in the order of the file
  struct Words {                     // of names and sentences, without what is between braces
    std::size_t at = 0;
    std::string_view text;
  };
  std::vector<Words> words;
  std::vector<Words> unclear; // measures written with entities, which are left alone
};
// `root` of `text`; `bare` is the unit of bare numbers.
MeasuredValues measured_values(std::string_view text, const ElementSpan& root, Unit bare);

// The value with its lengths as in `now`. A number that was written with a unit gets the new one.
std::string written_anew(const MeasuredValue& value, Unit unit, Length mark);
// The value as it is, with the unit `bare` beside each number that had none.
std::string with_unit(const MeasuredValue& value, Unit bare);
// A length as a project file writes it, without its unit: "4 1/4", "108".
std::string file_number(Length length, Unit unit, Length mark);
std::string_view unit_word(Unit unit); // "in", "mm"

// Named sizes and what is bought in their place in the other system.

// Nothing when the name is unknown, has no counterpart or belongs to that system already.
std::optional<std::string_view> usual_counterpart(MeasuredAttribute::Names among,
                                                  std::string_view name, Unit to);
std::optional<Size> named_size(MeasuredAttribute::Names among, std::string_view name);

// What single numbers cannot know: how the pieces of the new edition lie on each other.

inline bool on_mark(Length a, Length mark) { return a.nm % mark.nm == 0; }

struct Settling {
  const Project& before;
  Unit unit = Unit::Inch;
  Length mark{};
  // The project with the values as they are now.
  std::function<Reading(const std::vector<MeasuredValue>&)> read;
};
// Changes `values` until nothing is left to better, each piece after what carries it. Answers the
// project that they make.
Reading settle(const Settling& how, std::vector<MeasuredValue>& values);

} // namespace leafwright::edit
