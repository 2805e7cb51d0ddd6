#pragma once

#include "guide/block.h"

#include <string>
#include <string_view>

namespace leafwright::guide {

// A paragraph while it is being written. Words run on as they are said; letters, ink chips and page
// numbers stand between them.
class Prose {
 public:
  Prose& say(std::string_view words) { return add(words, Words::Style::Plain); }
  Prose& strong(std::string_view words) { return add(words, Words::Style::Strong); }
  Prose& quiet(std::string_view words) { return add(words, Words::Style::Quiet); }
  // Set off by commas: ", 4 × 5 1/4 in," ; the second comma comes only when the sentence goes on.
  Prose& aside(std::string_view words);
  // A blank between sentences, none at the beginning of the paragraph.
  Prose& next();
  Prose& letter(std::string_view letter); // tied to the word before it
  Prose& ink(int ink);                    // followed by the ink's name, which is said next
  Prose& page_of(std::string_view anchor);
  Prose& go(std::string_view target, std::string_view text);
  Prose& append(const Inlines& inlines);
  Prose& append(const Prose& other);

  bool empty() const { return inlines_.empty(); }
  // Taken with its first letter in capitals.
  Inlines sentence() const;
  // Taken as it is.
  Inlines fragment() const { return inlines_; }

 private:
  Prose& add(std::string_view words, Words::Style style);
  void settle(std::string_view what_follows);

  Inlines inlines_;
  bool open_aside_ = false;
};

Inlines plain(std::string_view words);
Inlines strong(std::string_view words);
Inlines quiet(std::string_view words);
// What is read when the document is read aloud; letters in brackets: "the dotted mat (C)".
std::string spoken(const Inlines& inlines);

} // namespace leafwright::guide
