#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/buying.h"
#include "plan/supply/kits.h"
#include "plan/supply/needs.h"
#include "plan/tier/account.h"
#include "plan/tier/ledger.h"
#include "plan/tier/outlook.h"

#include <string>
#include <vector>

// What is posted or handed out to sell the class, and what it earns.

namespace leafwright::guide {

struct BusinessOptions {
  bool draft = false;
};

// One or two pages for those who may buy: finished cards, what each tier holds with amounts, prices
// and conditions in plain words, dates, what may be taken in exchange. Of the team's tiers only
// the team's own offer tells. Sections: offer, offer-tiers, offer-terms, offer-holds, offer-swaps.
Document offer(const Project& project, const supply::Needs& needs, Tier::Audience audience,
               const BusinessOptions& options = {});
// Whether there is anything for that audience alone.
bool has_offer(const Project& project, Tier::Audience audience);

// The offer as plain text of at most 76 columns, for a letter or a message, signed by the maker.
std::string offer_letter(const Document& offer, const Project& project);

// For the maker alone. Everything that the money report is made of.
struct MoneyBook {
  tiers::Account account;
  tiers::Outlook outlook;
  tiers::Ledger ledger;
  supply::CuttingPlan sheets;
  std::vector<tiers::TierValue> values; // by tier
  std::vector<tiers::TierDifference> ladder;
};
// Of a project that outlives it.
MoneyBook money_book(const Project& project, const std::vector<supply::KitKind>& kinds,
                     const supply::Buying& buying);

// What each tier and the run bring and cost, what more or fewer orders change, what one tier adds
// over another. Sections: money, money-order, money-outlook, money-ladder.
Document money_report(const Project& project, const MoneyBook& book,
                      const BusinessOptions& options = {});
std::string money_csv(const Project& project, const MoneyBook& book);
std::string money_json(const Project& project, const MoneyBook& book);

} // namespace leafwright::guide
