#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"

#include <string>
#include <string_view>
#include <vector>

// What a teacher says and shows when she tells of her class, in a talk or before a camera. It tells
// what the offer tells: amounts, prices and dates of the project, no measure of a card, no cost.
//
//   const Rundown talk = rundown(project, needs, Tier::Audience::Anyone);
//   const Document page = rundown_page(project, talk);
//   const std::string text = prompter_text(project, talk);

namespace leafwright::guide {

// One thing after the other: what is held up, and what is said meanwhile.
struct RundownPart {
  std::string title;
  std::string show;               // to hold up, beside what is pictured
  std::vector<Figure> figures;    // of what is held up
  bool swatches = false;          // see FigureRow
  std::vector<std::string> say{}; // paragraphs
  Place place{};
};

struct Rundown {
  Tier::Audience audience = Tier::Audience::Anyone;
  std::vector<RundownPart> parts;
};

// Welcome; stamps with all their images; dies and what they cut; papers; trims; each card with its
// inks and greetings; each option; swaps; whom it suits; dates; close. What the project does not
// have is left out. Needs are those of a kit, with sheets where they are known.
Rundown rundown(const Project& project, const supply::Needs& needs, Tier::Audience audience);

// How long it takes to say at 150 words a minute, which is what a calm speaker says (common
// practice). Figures count as one word each.
constexpr int words_a_minute = 150;
int spoken_words(std::string_view text);
int spoken_words(const RundownPart& part);
int milliseconds_for(int spoken_words);

struct RundownOptions {
  bool draft = false;
};
// What to show beside what to say, with the time of each. Section: rundown.
Document rundown_page(const Project& project, const Rundown& told,
                      const RundownOptions& options = {});

// A sentence a line, for a prompter; what to show stands in brackets.
std::string prompter_text(const Project& project, const Rundown& told);
// The same words as cues with their times (WebVTT, W3C), of at most two lines of 42 characters.
std::string cues_text(const Rundown& told);

} // namespace leafwright::guide
