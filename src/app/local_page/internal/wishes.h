#pragma once

#include "app/local_page/internal/keyed_text.h"
#include "app/system/json_value.h"

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

// What a page asks to be changed, made into a patch of the file's bytes. Nothing is known here of
// any one element or attribute: the vocabulary says what may stand where.

namespace leafwright::local_page {

// Why something is not done, for the maker.
struct Refusal {
  std::string error, fix;
  int status = 422; // of HTTP (RFC 9110)
};

// An element to come, with what it may not be without.
struct NewElement {
  std::string tag, words;
  std::vector<std::pair<std::string, std::string>> attributes;
  std::vector<NewElement> children;
};

struct Wish {
  enum class What { Set, Text, Add, Duplicate, Remove, Move, Fix, Bytes };
  What what = What::Set;
  Key key = 0;                    // of the element that is meant; Add: of its parent
  std::optional<Key> before;      // Add, Move: of the element that it comes in front of
  std::string name;               // Set: of the attribute
  std::string words;              // Set, Text
  bool remove = false;            // Set: takes the attribute out
  NewElement element;             // Add
  std::size_t finding = 0;        // Fix
  std::size_t at = 0, length = 0; // Bytes: what `words` come in place of, within the element
};
std::variant<Wish, Refusal> wish_of(const app::JsonValue& said);

struct Change {
  Patch patch;
  std::string words; // "size of panel mat"
  edit::Written written;
};
// Never a Fix, which its finding turns into another wish. Bytes are no page's wish.
std::variant<Change, Refusal> change_of(const KeyedText& text, const Wish& wish);

// The first fault that would make a text no XML any more, in words.
std::optional<Refusal> broken(const std::string& bytes);

} // namespace leafwright::local_page
