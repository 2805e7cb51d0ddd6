#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Where the elements of a well-formed XML text begin and end, for whoever changes bytes of it. The
// reader has checked the text before (read/document.h).

namespace leafwright::edit {

struct AttributeSpan {
  std::string_view name;
  std::size_t begin = 0; // of its name
  std::size_t value = 0, length = 0;
  char quote = '"';
  std::size_t end() const { return value + length + 1; } // behind the closing quote
};

struct ElementSpan {
  std::string_view name;
  std::size_t begin = 0, end = 0;             // from < to behind the last >
  std::size_t inner_begin = 0, inner_end = 0; // equal when there is nothing inside
  bool empty_tag = false;                     // <x/>
  std::vector<AttributeSpan> attributes;
  std::vector<ElementSpan> children;

  const AttributeSpan* find(std::string_view attribute) const;
  // Where one more attribute can be put: behind the last, or behind the name.
  std::size_t attributes_end() const;
};

// The root element; nothing when the text is not as it should be.
std::optional<ElementSpan> spans_of(std::string_view text);

} // namespace leafwright::edit
