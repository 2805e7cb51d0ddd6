#include "guide/internal/section/chapters.h"

#include "guide/prose.h"
#include "guide/sections.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/words.h"

#include <utility>

namespace leafwright::guide {
namespace {

std::string whole_or_some(const Project& project, const Inclusion& one) {
  std::string noun = words::with_the(item_noun(project, one.item));
  const Amount& amount = one.amount;
  switch (amount.kind) {
  case Amount::Kind::Share:
    return words::share_words(amount.numerator, amount.denominator) + " of " + noun;
  case Amount::Kind::Whole:
    if (amount.count == 1) return noun;
    break;
  case Amount::Kind::AsNeeded: return noun;
  case Amount::Kind::Length:
  case Amount::Kind::Count:
  case Amount::Kind::Sheets: break;
  }
  return included_words(project, one.item, amount, nullptr) + " of " + noun;
}

std::string owned_words(const Project& project, const Tier& tier) {
  std::vector<std::string> groups;
  for (const Requirement& one : tier.requires_owned) {
    std::vector<std::string> names;
    for (const ItemRef item : one.any_of)
      names.push_back(words::with_the(item_noun(project, item)));
    if (names.empty()) continue;
    groups.push_back(names.size() == 1 ? names.front() : "either " + words::listed(names, "or"));
  }
  return words::listed(groups);
}

std::string gift_words(const Project& project, const Tier& tier) {
  std::vector<std::string> gifts;
  for (const Inclusion& one : tier.includes)
    if (one.gift) gifts.push_back(whole_or_some(project, one));
  return words::listed(gifts);
}

std::string swap_words(const SubstitutionRule& rule) {
  std::string words = "Own something in the kit already? Tell us when you order, and swap ";
  words += rule.most_swaps == 1  ? std::string("one item")
           : rule.most_swaps > 1 ? "up to " + words::counted(rule.most_swaps, "item")
                                 : std::string("anything");
  if (rule.items_over) words += " worth more than " + money_text(*rule.items_over);
  words += ". Pick anything on our swap list that is worth as much or less";
  words += rule.top_up ? ", or pay the difference." : ".";
  return words;
}

// What an owner gets who takes nothing instead; it follows the words on swaps, where there are any.
std::string if_owned_words(const Tier& tier) {
  const SubstitutionRule& rule = tier.substitution;
  const bool swaps = rule.allowed;
  const std::string tell =
      "Own something in the kit already? Tell us when you order, and we leave it out";
  switch (tier.if_owned) {
  case Tier::IfOwned::Unsaid: break;
  case Tier::IfOwned::AsItIs:
    return swaps ? "Pick nothing, and your kit comes complete."
                 : "Every kit comes complete, even if you own part of it.";
  case Tier::IfOwned::NothingInstead:
    return swaps ? "Pick nothing, and we just leave it out. The price stays the same."
                 : tell + ". The price stays the same.";
  case Tier::IfOwned::Credit: {
    if (swaps) return "What you don't spend comes off your price.";
    std::string limits = rule.items_over
                             ? " if it is worth more than " + money_text(*rule.items_over)
                             : std::string();
    return tell + limits + ". Its shop price comes off yours.";
  }
  }
  return {};
}

std::string dates_words(const Project& project, const Tier& tier) {
  std::string words;
  if (tier.open == Tier::Open::Anytime) {
    words = "Available anytime.";
  } else if (project.run.reply_by) {
    words = "Order by " + words::long_day_text(project.language, project.run.reply_by->date) + ".";
  }
  const bool posted = tier.shipping != Tier::Shipping::None && tier.open != Tier::Open::Anytime;
  if (posted && project.run.ship_by)
    words += std::string(words.empty() ? "" : " ") + "Your kit " +
             std::string(words::terms(project.language).ships) + " by " +
             words::long_day_text(project.language, project.run.ship_by->date) + ".";
  return words;
}

std::string parts_words(const Project& project, const Tier& tier, const Inclusion& parts) {
  std::string words = tier.parts_cut ? "We cut your paper for you and label every piece"
                                     : "Your paper comes in full sheets, for you to cut";
  if (tier.die_cut && tier.stamped)
    words += ", with all shapes die cut and all images stamped";
  else if (tier.die_cut || tier.stamped)
    words += tier.die_cut ? ", with all shapes die cut" : ", with all images stamped";
  if (!parts.cards.empty() && parts.cards.size() < project.cards.size()) {
    std::vector<std::string> numbers;
    for (const int card : parts.cards) numbers.push_back(std::to_string(card + 1));
    words += ", for " + words::noun_for(std::ssize(numbers), "card") + " " + words::listed(numbers);
  }
  return words + ".";
}

} // namespace

List tier_conditions(const Project& project, const Tier& tier, const TierTelling& context) {
  List list;
  const auto say = [&](const std::string& words) {
    if (!words.empty()) list.items.push_back(plain(words));
  };
  for (const Inclusion& one : tier.includes)
    if (one.item.kind == ItemKind::Parts) say(parts_words(project, tier, one));
  if (const std::string owned = owned_words(project, tier); !owned.empty())
    say("You'll need to have " + owned + ".");
  if (const std::string gift = gift_words(project, tier); !gift.empty())
    say("Free with this kit: " + gift +
        (context.gifts_worth ? ", worth " + money_text(*context.gifts_worth) : "") + ".");
  if (tier.audience == Tier::Audience::Team) say("For team members only.");
  if (context.dates) say(dates_words(project, tier));
  if (context.swaps)
    for (Inlines& one : swap_conditions(tier).items) list.items.push_back(std::move(one));
  return list;
}

List swap_conditions(const Tier& tier) {
  List list;
  if (tier.substitution.allowed) list.items.push_back(plain(swap_words(tier.substitution)));
  if (const std::string words = if_owned_words(tier); !words.empty())
    list.items.push_back(plain(words));
  return list;
}

} // namespace leafwright::guide
