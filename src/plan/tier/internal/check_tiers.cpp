#include "plan/tier/check_tiers.h"

#include "language/agreement.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "plan/supply/buying.h"
#include "plan/tier/account.h"
#include "plan/tier/internal/tier_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

namespace leafwright::tiers {

namespace {

using enum Severity;

struct Entry {
  fit::Rule rule;
  void (*speak)(const Facts&, Reporter&);
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
    Entry{{"tier-as-needed-nothing", Warning,
           "a tier holds as much of a thing as is needed, and no card needs any"},
          as_needed_nothing},
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

Findings check(const Project& project, const supply::CuttingPlan* sheets) {
  Findings findings;
  const Facts facts{project, sheets};
  for (const Entry& entry : entries) {
    Reporter report(entry.rule, findings);
    entry.speak(facts, report);
  }
  leave_out_accepted(project, findings);
  return findings;
}

namespace {

// When nobody is expected yet, a tier is looked at with this many kits.
constexpr int supposed_kits = 10;

struct Earning {
  int kits = 0;
  bool supposed = false;
  Money with, without; // margin of the tier with and without its gifts
  bool gifts = false;
};

class Earnings {
 public:
  explicit Earnings(const Facts& facts)
      : facts_(facts), reference_(facts.sheets ? *facts.sheets : supply::CuttingPlan{}),
        cost_(facts.project, reference_), planned_(supply::planned_kits(facts.project)) {}

  Earning of(int tier) const {
    const auto index = as_index(tier);
    std::vector<int> kits = planned_;
    Earning earning;
    earning.supposed = kits.at(index) == 0;
    if (earning.supposed) {
      std::fill(kits.begin(), kits.end(), 0);
      kits[index] = supposed_kits;
    }
    earning.kits = kits[index];
    const Money brought = terms_of(facts_.project, tier).brought() * earning.kits;
    earning.with = brought - goods(cost_, kits, index);
    earning.without = earning.with;
    const Tier& is = facts_.project.tiers.at(index);
    earning.gifts = std::any_of(is.includes.begin(), is.includes.end(),
                                [](const Inclusion& one) { return one.gift; });
    if (!earning.gifts || earning.with.minor >= 0) return earning;
    Project plain = facts_.project;
    plain.pictures.clear();
    std::erase_if(plain.tiers.at(index).includes, [](const Inclusion& one) { return one.gift; });
    earning.without = terms_of(plain, tier).brought() * earning.kits -
                      goods(supply::RunCost(plain, reference_), kits, index);
    return earning;
  }

 private:
  // What the tier adds to the cost of the run.
  static Money goods(const supply::RunCost& cost, std::vector<int> kits, std::size_t tier) {
    const Money all = cost(kits);
    kits[tier] = 0;
    return all - cost(kits);
  }

  const Facts& facts_;
  supply::CuttingPlan reference_;
  supply::RunCost cost_;
  std::vector<int> planned_;
};

std::string kits_words(const Earning& earning) {
  return fmt::format("{}{} {}", earning.supposed ? "supposed " : "", earning.kits,
                     words::noun_for(earning.kits, "kit"));
}

Money off(const Money& margin) { return {-margin.minor, margin.currency}; }

// What the price must rise by to bring nothing less, its own fee included.
Money dearer_by(const Project& project, const Earning& earning) {
  constexpr std::int64_t million = 1'000'000;
  const std::int64_t each = (-earning.with.minor + earning.kits - 1) / earning.kits;
  const std::int64_t kept = std::max<std::int64_t>(1, million - project.selling.fee_ppm);
  return {(each * million + kept - 1) / kept, earning.with.currency};
}

} // namespace

void gift_loss(const Facts& facts, Reporter& report) {
  const bool any =
      std::any_of(facts.project.tiers.begin(), facts.project.tiers.end(), [](const Tier& tier) {
        return tier.price && std::any_of(tier.includes.begin(), tier.includes.end(),
                                         [](const Inclusion& one) { return one.gift; });
      });
  if (!any) return;
  const Earnings earnings(facts);
  for (std::size_t i = 0; i < facts.project.tiers.size(); ++i) {
    const Tier& tier = facts.project.tiers[i];
    if (!tier.price) continue;
    const Earning earning = earnings.of(static_cast<int>(i));
    if (earning.with.minor >= 0 || earning.without.minor < 0) continue;
    report(tier.place,
           fmt::format("with {} of {} the gift turns a margin of {} into a loss of {}",
                       kits_words(earning), tier.name, earning.without, off(earning.with)),
           "a gift that the tier can bear",
           fmt::format("ask at least {}, or make the gift smaller",
                       *tier.price + dearer_by(facts.project, earning)));
  }
}

void loss(const Facts& facts, Reporter& report) {
  if (std::none_of(facts.project.tiers.begin(), facts.project.tiers.end(),
                   [](const Tier& tier) { return tier.price.has_value(); }))
    return;
  const Earnings earnings(facts);
  for (std::size_t i = 0; i < facts.project.tiers.size(); ++i) {
    const Tier& tier = facts.project.tiers[i];
    if (!tier.price) continue;
    const Earning earning = earnings.of(static_cast<int>(i));
    if (earning.without.minor >= 0) continue; // a gift alone is told by its own rule
    report(tier.place,
           fmt::format("{} of {} bring {} less than they cost", kits_words(earning), tier.name,
                       off(earning.with)),
           "a tier that bears its cost, unless it is meant so",
           fmt::format("from {} on it bears it", *tier.price + dearer_by(facts.project, earning)));
  }
}

} // namespace leafwright::tiers
