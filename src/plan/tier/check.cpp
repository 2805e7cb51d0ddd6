#include "plan/tier/check.h"

#include "plan/tier/rules.h"

#include <array>
#include <cstddef>

namespace leafwright::tiers {

namespace {

using enum Severity;

struct Entry {
  fit::Rule rule;
  void (*speak)(const Facts&, Speaker&);
};

constexpr std::array entries{
    Entry{{"tier-owns-included", Warning, "a tier holds what it asks the buyer to own"},
          owns_included},
    Entry{{"tier-die-for-ready", Warning,
           "a tier whose parts come die-cut asks the buyer to own a die"},
          dies_for_ready},
    Entry{{"tier-paper-short", Note, "a share of a paper is less than one kit is cut from"},
          paper_short},
    Entry{{"tier-parts-missing", Warning,
           "the parts of a tier need a thing that it neither holds nor asks for"},
          parts_missing},
    Entry{{"tier-shop-beats", Warning,
           "a cheaper tier and a purchase in a shop cost less than a dearer one"},
          shop_beats},
    Entry{{"tier-gift-loss", Warning, "a gift turns what a tier earns into a loss"}, gift_loss},
    Entry{{"tier-loss", Note, "a tier costs more than it brings"}, loss},
    Entry{{"tier-choice-unpriced", Warning, "something to swap for has no price and no value"},
          choice_unpriced},
};

constexpr auto table = [] {
  std::array<fit::Rule, entries.size()> all{};
  for (std::size_t i = 0; i < entries.size(); ++i) all[i] = entries[i].rule;
  return all;
}();

} // namespace

std::span<const fit::Rule> rules() { return table; }

Findings check(const Project& project, const supply::KitSheets* sheets) {
  Findings findings;
  const Facts facts{project, sheets};
  for (const Entry& entry : entries) {
    Speaker say(entry.rule, findings);
    entry.speak(facts, say);
  }
  return findings;
}

} // namespace leafwright::tiers
