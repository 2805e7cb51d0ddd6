#pragma once

#include "guide/block.h"
#include "measure/print_length.h"
#include "plan/change/compare.h"

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace leafwright::guide {

// Which entries of two lists are the same, in order: the longest common run (dynamic programming).
// For each entry of `b` its partner in `a`, or nothing.
std::vector<std::optional<std::size_t>> aligned(const std::vector<std::string>& a,
                                                const std::vector<std::string>& b);

// What differs between two makings of one document.

struct StepChange {
  enum class How { Changed, Added, Gone };
  How how = How::Changed;
  std::string section;               // "card-trees"
  std::string card;                  // its title
  std::string number_before, number; // as printed
  std::string title_before, title;
  std::string anchor_before, anchor;
  bool words = false, drawing = false; // what changed
  bool shape = false;                  // the drawing is another one even without its colors
  std::vector<Inlines> text_before, text;
  std::optional<Figure> figure; // as it is drawn now
};

// Steps of card chapters: paired by what they are called, the rest in order.
std::vector<StepChange> step_changes(const Document& before, const Document& after);

// What is new in a section that is no card: rows of its tables, cut diagrams with their order.
struct SectionChange {
  std::string title;         // "How to cut it"
  std::string anchor_before; // of its heading in the older document; empty = it had none
  std::vector<Block> blocks; // of the newer one, each after its own heading
};
// Sections that a buyer works from: what to have, cut diagrams, envelopes of parts.
std::vector<SectionChange> section_changes(const Document& before, const Document& after);

// Full-size drawings that are new or look different, by their titles.
std::vector<std::string> full_size_changes(const Document& before, const Document& after);

// Sets `changed` on the blocks, steps and rows of `now` that are not in `before`.
void mark_changes(Document& now, const Document& before);

// What changes between two editions: for the maker, and for the buyer who holds the older one.

// What a person wrote otherwise, as it stands in the file.
struct SourceChange {
  std::string where, before, after;
};

// Pages of the tutorial, by their printed numbers.
struct PageChanges {
  std::size_t before = 0, after = 0; // how many
  std::vector<std::string> changed;  // pages of the new one that are in the old one nowhere
  // Pages of the old one that are in the new one nowhere, of those that one works from: not its
  // cover and contents.
  std::vector<std::string> dropped;
};

struct ChangeStory {
  const Project& before;
  const Project& after;
  const change::Comparison& comparison;
  std::string label_before,
      label_after; // "edition 3", "edition 4"; file names where they are alike
  std::vector<SourceChange> written;
  std::vector<StepChange> steps;
  std::vector<SectionChange> sections;
  std::vector<std::string> full_size; // titles of full-size drawings that changed
  std::optional<PageChanges> pages;
  std::map<std::string, std::string> pages_before, pages_after; // anchor to printed page
};

// A fact as a report prints it: lengths as the project prints them where that is exact, else
// without rounding; "–" for none.
std::string fact_words(const std::optional<change::FactValue>& worth, const Printing& how);

// Sections: change-summary, change-table (pieces on the table, what to cut again), change-details,
// change-rest.
Document change_report(const ChangeStory& story);
// For buyers: replacements, sizes, supplies, cut diagrams, steps and full-size drawings, and every
// page of the older edition that no longer holds; no prices of ours. Sections: errata. Nothing to
// say: a sentence that says so.
Document errata_sheet(const ChangeStory& story);
// Whether a buyer must know anything.
bool concerns_buyers(const ChangeStory& story);
// One object; lengths in millimetres.
std::string change_json(const ChangeStory& story);

} // namespace leafwright::guide
