#pragma once

#include "guide/block.h"

#include <string>
#include <vector>

// What differs between two makings of one document.

namespace leafwright::guide {

struct StepChange {
  enum class How { Changed, Added, Gone };
  How how = How::Changed;
  std::string section;               // "card-trees"
  std::string card;                  // its title
  std::string number_before, number; // as printed
  std::string title_before, title;
  std::string anchor_before, anchor;
  bool words = false, drawing = false; // what changed
  std::vector<Inlines> text_before, text;
};

// Steps of card chapters: paired by what they are called, the rest in order.
std::vector<StepChange> step_changes(const Document& before, const Document& after);

// Full-size drawings that are new or look different, by their titles.
std::vector<std::string> full_size_changes(const Document& before, const Document& after);

// Sets `changed` on the blocks, steps and rows of `now` that are not in `before`.
void mark_changes(Document& now, const Document& before);

} // namespace leafwright::guide
