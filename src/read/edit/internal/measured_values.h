#pragma once

#include "measure/parse_length.h"
#include "read/edit/internal/spans.h"
#include "read/edit/internal/typed_lengths.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Which attributes of a project are measures, and who chose them. Inside this room.

namespace leafwright::edit {

struct MeasuredAttribute {
  std::string_view element; // "panel"; "spool" for a ribbon or twine among the supplies
  std::string_view attribute;
  TypedAs as = TypedAs::Length;
  // A die, a sheet, a reel is as it was bought: no ruler chooses it. All else is the maker's
  // choice.
  bool bought = false;
  enum class Names { None, Sheets, Cards, Envelopes } names = Names::None; // that may stand for it
};

// Nothing when the attribute is no measure. `in_supplies`: the element stands there.
const MeasuredAttribute* measured(std::string_view element, std::string_view attribute,
                                  bool in_supplies);

// The measures of a project file one by one, and how they are written again. Inside this room.

struct MeasuredValue {
  std::string card, thing; // ids; empty outside of cards, of things without one
  std::string element;     // "panel"
  std::string attribute;   // "size"; empty: between braces of a sentence
  std::string where;       // for people
  std::size_t at = 0;      // bytes of the file
  std::string text;        // as written
  char quote = '"';
  const MeasuredAttribute* measured = nullptr; // nullptr between braces
  std::vector<TypedLength> lengths;
  std::vector<Length> now;            // one for each of `lengths`
  std::optional<std::string> instead; // takes the place of the whole value
  std::size_t name_at = 0;            // bytes of the attribute's name
  std::string renamed;                // the attribute takes this name
  bool named = false;                 // it was a name; `lengths` are what that meant
  std::string why;
  bool bought() const { return measured != nullptr && measured->bought; }
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

// Named sizes and what is bought in their place in the other system. Inside this room.

// Nothing when the name is unknown, has no counterpart or belongs to that system already.
std::optional<std::string_view> usual_counterpart(MeasuredAttribute::Names among,
                                                  std::string_view name, Unit to);
std::optional<Size> named_size(MeasuredAttribute::Names among, std::string_view name);

} // namespace leafwright::edit
