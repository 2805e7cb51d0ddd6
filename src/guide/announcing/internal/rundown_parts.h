#pragma once

#include "guide/announcing/rundown.h"

#include <string>
#include <vector>

namespace leafwright::guide {

// What is laid on the table, one after the other.
void add_stamps(std::vector<RundownPart>& parts, const Project& project);
void add_dies(std::vector<RundownPart>& parts, const Project& project);
void add_papers(std::vector<RundownPart>& parts, const Project& project);
void add_trims(std::vector<RundownPart>& parts, const Project& project);
void add_cards(std::vector<RundownPart>& parts, const Project& project);

// What can be ordered. `tiers` are those told of.
void add_options(std::vector<RundownPart>& parts, const Project& project,
                 const supply::Needs& needs, const std::vector<int>& tiers);
void add_swaps(std::vector<RundownPart>& parts, const Project& project,
               const std::vector<int>& tiers);
void add_whom_it_suits(std::vector<RundownPart>& parts, const Project& project,
                       const std::vector<int>& tiers);
void add_dates(std::vector<RundownPart>& parts, const Project& project,
               const std::vector<int>& tiers);

// What an option holds of one thing, in a sentence: "36 in of rust grosgrain ribbon", "nine cream
// A2 envelopes", "half of the Windfall paper pack".
std::string held_words(const Project& project, const Tier& tier, const Inclusion& one,
                       const supply::Needs& needs);

// "$29.00 plus $6.50 shipping", "$9.50, by e-mail"; empty where no price is said.
std::string price_in_words(const Project& project, const Tier& tier);

// The paragraphs as one, for what is short.
std::vector<std::string> in_one_paragraph(const std::vector<std::string>& paragraphs);

// Each item of a list as a sentence of its own, run together.
std::string run_together(const List& list);

// The words parted where a full stop, a question mark or an exclamation mark ends a sentence.
std::vector<std::string> sentences_of(const std::string& text);

} // namespace leafwright::guide
