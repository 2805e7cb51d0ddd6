#pragma once

#include "read/edit/measured_attributes.h"
#include "read/edit/spans.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The measures of a project file one by one, and how they are written again. Inside this room.

namespace leafwright::edit {

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

} // namespace leafwright::edit
