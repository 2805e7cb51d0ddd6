#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"

#include <string>
#include <string_view>
#include <vector>

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

// Whose making is being told, and what was done to its parts beforehand.
struct StepContext {
  const Project& project;
  const Card& card;
  bool guides_apart = false; // full-size outlines stand in no page of this document
  supply::PartsReady ready{};
  bool drawn = true; // each step stands beside its drawing
};

// The author's own words with measures and names filled in. A name of a thing gets its article when
// the author left it out: "Tape {mat}" -> "Tape the dotted mat (C)"; "the stamped {mat}" stays.
Inlines author_text(const StepContext& context, const AuthorText& text);
// The same where no card is meant (the project's introduction).
Inlines author_text(const Project& project, const AuthorText& text);

// How things are called inside a sentence. Names are written by the author as they stand in a list
// ("Kraft", "Circle die, 2 3/4 in"); in a sentence they lose the capital and the detail changes its
// place ("kraft", "2 3/4 in circle die").

std::string in_sentence(std::string_view listed_name);

std::string stock_noun(const Project& project, int stock); // "kraft"; patterns keep their capital
std::string item_noun(const Project& project, ItemRef item);
// "moss", "moss and rust"
std::string ink_nouns(const Project& project, const std::vector<int>& inks);
// A greeting is called by its words, in quotes; a picture by its name: "the small tree".
std::string image_with_the(const Project& project, int set, int image);
// As one of many: "small tree", "“come on in” greeting".
std::string image_noun(const Project& project, int set, int image);
bool is_greeting(const StampImage& image);

std::string piece_noun(const Piece& piece); // "dotted mat"
std::string face_words(const Card& card, int face);
// The stock (for a face: of the base) that is seen of what a thing lies on.
std::string carrier_surface(const Project& project, const Card& card, const Carrier& on);
// What it lies on, with its letter: "the front", "the dotted mat (C)", "the front of the envelope".
void say_carrier(Prose& prose, const Card& card, const Carrier& on);

// "3 1/4 in square", "2 in across" for a circle, "4 × 5 1/4 in".
std::string piece_size_words(const Project& project, const Shape& shape, Size size);

// The first tool of the project for a work: "the bone folder"; empty when none is.
std::string tool_with_the(const Project& project, Work work);

const Piece* piece_at(const Card& card, int index);

// The making of one card, step by step, each with its drawing. Anchors are `anchor`-step-1 ...
Steps steps_of(const StepContext& context, const std::string& anchor);

} // namespace leafwright::guide
