#pragma once

#include "read/edit/edit.h"
#include "read/edit/spans.h"
#include "read/vocabulary.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The project file as bytes, which are the one truth, with a key for each element by which a page
// means it however often the bytes around it change. A change is a patch of bytes, and so is what
// takes it back: neither costs more than what it changes.
//
//   KeyedText text = keyed(bytes);
//   const Patch back = apply(text, {edit::with_attribute(span, "size", "4 x 5"), {}});
//   apply(text, back); // the very bytes, the very keys

namespace leafwright::local_page {

using Key = std::int64_t; // from 1

struct KeyedText {
  std::string bytes;
  std::vector<std::size_t> begins; // of each element, in the order of the file; none: no XML
  std::vector<Key> keys;           // of the same
  Key next = 1;

  std::optional<std::size_t> number_of(Key key) const; // of its element in that order
};
KeyedText keyed(std::string bytes);

struct Patch {
  std::vector<edit::Edit> edits; // in order, none overlaps
  std::vector<Key> keys;         // of elements that begin in the new bytes; the rest get new ones
};
// Elements that begin outside the patch keep their keys. Answers what takes it back.
Patch apply(KeyedText& text, const Patch& patch);

std::string key_words(Key key); // "k12"
std::optional<Key> key_of(std::string_view words);

// By what it holds, not by when it was written: 32 hexadecimal digits.
std::string revision_of(std::string_view bytes);

// The elements of a text, flat, each with what the vocabulary says of it. Points into the text.
struct ElementTree {
  struct Node {
    const edit::ElementSpan* span = nullptr;
    int parent = -1;                            // into nodes; -1: the root
    std::size_t index = 0;                      // among the parent's children
    const reading::ElementRule* rule = nullptr; // nullptr: none that we know
  };
  explicit ElementTree(std::string_view text);
  ElementTree(const ElementTree&) = delete;
  ElementTree& operator=(const ElementTree&) = delete;

  std::optional<edit::ElementSpan> root;
  std::vector<Node> nodes; // in the order of the file

 private:
  void add(const edit::ElementSpan& span, int parent, std::size_t index,
           const reading::ElementRule* rule);
};

// "panel mat", "card trees / panel mat".
std::string short_path(const ElementTree& tree, std::size_t node, std::string_view text);
std::string whole_path(const ElementTree& tree, std::size_t node, std::string_view text);

} // namespace leafwright::local_page
