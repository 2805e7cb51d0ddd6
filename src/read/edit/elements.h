#pragma once

#include "read/edit/edit.h"
#include "read/edit/spans.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// One element of a project file changed, added, moved or taken out, the rest byte for byte as it
// was: each function gives the edits of one such change. What is new stands on a line of its own
// where its neighbours do, as far in as they are.
//
//   const auto root = spans_of(text);
//   text = applied(text, with_attribute(root->children.at(2), "size", "4 x 5"));

namespace leafwright::edit {

// As an attribute's value between those quotes (XML 1.0, 3.1 and 3.3.3), or as words between tags
// when there is no quote.
std::string escaped(std::string_view value, char quote);

// An attribute that is there gets another value between its own quotes; one that is not is added
// behind the last.
std::vector<Edit> with_attribute(const ElementSpan& element, std::string_view name,
                                 std::string_view value);
// With the blanks in front of it; nothing when it is not there.
std::vector<Edit> without_attribute(std::string_view text, const ElementSpan& element,
                                    std::string_view name);

// The element's own words, without those of elements in it. Comments and the blanks around stay.
std::vector<Edit> with_words(std::string_view text, const ElementSpan& element,
                             std::string_view words);

// An element to be put into a file.
std::string written_element(std::string_view tag,
                            const std::vector<std::pair<std::string, std::string>>& attributes,
                            std::string_view words = {});

// Line end and indentation in front of a child to come.
std::string lead_for_child(std::string_view text, const ElementSpan& parent);
// `bytes` of an element as the child number `at` of the parent; the number of its children, or
// more, means behind the last.
std::vector<Edit> with_child(std::string_view text, const ElementSpan& parent, std::size_t at,
                             std::string_view bytes);
// The element with its line.
std::vector<Edit> without_element(std::string_view text, const ElementSpan& element);
// The element becomes the child number `at` of `parent`, which may be the one it is in: then the
// number counts the element itself, too. In the order of their places.
std::vector<Edit> moved_element(std::string_view text, const ElementSpan& element,
                                const ElementSpan& parent, std::size_t at);

} // namespace leafwright::edit
