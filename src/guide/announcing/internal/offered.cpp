#include "guide/announcing/internal/rundown_parts.h"

#include "guide/business/offer_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/item.h"

#include <algorithm>
#include <utility>

namespace leafwright::guide {

std::string run_together(const List& list) {
  std::string words;
  for (const Inlines& one : list.items) words += (words.empty() ? "" : " ") + spoken(one);
  return words;
}

std::vector<std::string> in_one_paragraph(const std::vector<std::string>& paragraphs) {
  std::string all;
  for (const std::string& one : paragraphs)
    if (!one.empty()) all += (all.empty() ? "" : " ") + one;
  return all.empty() ? std::vector<std::string>{} : std::vector{all};
}

namespace {

// An amount that is not counted in whole packs.
std::string part_words(const Project& project, const Inclusion& one, const supply::Needs& needs) {
  const supply::Need* need = supply::find(needs, one.item);
  const std::string noun = item_noun(project, one.item);
  const bool as_needed = one.amount.kind == Amount::Kind::AsNeeded;
  const KindRow::Counted counted = kind_row(one.item.kind).counted;
  if (counted == KindRow::Counted::Things) return words::with_the(noun);
  if (counted == KindRow::Counted::Pieces) {
    if (!as_needed) return words::counted(one.amount.count, noun);
    if (need != nullptr) return words::counted(need->count, noun);
  }
  const bool known = !as_needed || (need != nullptr && need->item.kind != ItemKind::Adhesive);
  if (!known) return words::with_the(noun);
  return included_words(project, one.item, one.amount, need) + " of " + noun;
}

} // namespace

std::string held_words(const Project& project, const Tier& tier, const Inclusion& one,
                       const supply::Needs& needs) {
  if (one.item.kind == ItemKind::Tutorial) return "the tutorial";
  if (one.item.kind == ItemKind::Parts)
    return tier.parts_cut ? "the pre-cut pieces" : "the paper for the cards";
  const std::string noun = item_noun(project, one.item);
  const Amount& amount = one.amount;
  if (amount.kind == Amount::Kind::Share)
    return words::share_words(amount.numerator, amount.denominator) + " of " +
           words::with_the(noun);
  if (amount.kind == Amount::Kind::Whole) {
    const std::string_view whole = words::sold_as(project.language, one.item.kind);
    if (kind_row(one.item.kind).counted == KindRow::Counted::Things || whole.empty())
      return amount.count == 1 ? words::with_the(noun) : words::counted(amount.count, noun);
    if (one.item.kind == ItemKind::Pack)
      return amount.count == 1 ? words::with_the(noun) : words::counted(amount.count, noun);
    return (amount.count == 1 ? "a whole " + std::string(whole)
                              : words::counted(amount.count, whole)) +
           " of " +
           (one.item.kind == ItemKind::Embellishment || one.item.kind == ItemKind::Envelope
                ? words::plural(noun)
                : noun);
  }
  return part_words(project, one, needs);
}

std::string price_in_words(const Project& project, const Tier& tier) {
  if (!tier.price) return {};
  std::string words = money_text(*tier.price);
  const std::string shipping(words::terms(project.language).shipping);
  switch (tier.shipping) {
  case Tier::Shipping::None: return words + ", by e-mail";
  case Tier::Shipping::Included: return words + ", with free " + shipping;
  case Tier::Shipping::Charged: break;
  }
  if (tier.shipping_charge) words += " plus " + money_text(*tier.shipping_charge);
  return words + (tier.shipping_charge ? " " : " plus ") + shipping;
}

namespace {

std::string price_said(const Project& project, const Tier& tier) {
  const std::string price = price_in_words(project, tier);
  return price.empty() ? "Ask me for the price." : "It's " + price + ".";
}

bool is_tutorial_alone(const Tier& tier) {
  return tier.includes.size() == 1 && tier.includes.front().item.kind == ItemKind::Tutorial;
}

// Gifts are told apart.
std::string contents_said(const Project& project, const Tier& tier, const supply::Needs& needs) {
  if (is_tutorial_alone(tier)) return "You get the tutorial as a PDF.";
  std::vector<std::string> held;
  for (const Inclusion& one : tier.includes)
    if (!one.gift) held.push_back(held_words(project, tier, one, needs));
  return held.empty() ? std::string() : "You get " + words::listed(held) + ".";
}

std::string quoted_name(const Tier& tier) { return "“" + tier.name + "”"; }

} // namespace

void add_options(std::vector<RundownPart>& parts, const Project& project,
                 const supply::Needs& needs, const std::vector<int>& tiers) {
  std::int64_t number = 0;
  for (const int index : tiers) {
    const Tier& tier = tier_at(project, index);
    ++number;
    const bool alone = tiers.size() == 1;
    const bool posted = tier.shipping != Tier::Shipping::None;
    RundownPart part{(alone ? "" : "Option " + std::to_string(number) + ": ") + tier.name,
                     posted ? "One kit, opened" : "The first page of the tutorial",
                     {}};
    std::string first =
        (alone ? "Here is what you get: " : "Option " + words::count_words(number) + ": ") +
        tier.name + ".";
    part.say = in_one_paragraph({first, tier.blurb, contents_said(project, tier, needs)});
    const TierTelling telling{
        .dates = false, .gifts_worth = gifts_worth(project, index), .swaps = false};
    for (std::string& rest : in_one_paragraph(
             {run_together(tier_conditions(project, tier, telling)), price_said(project, tier)}))
      part.say.push_back(std::move(rest));
    part.place = tier.place;
    parts.push_back(std::move(part));
  }
}

void add_swaps(std::vector<RundownPart>& parts, const Project& project,
               const std::vector<int>& tiers) {
  RundownPart part{"Swaps", "What they can pick instead", {}, true};
  for (const int index : tiers) {
    const Tier& tier = tier_at(project, index);
    const std::string conditions = run_together(swap_conditions(tier));
    if (conditions.empty()) continue;
    part.say.push_back(tiers.size() == 1 ? conditions
                                         : "With " + quoted_name(tier) + ": " + conditions);
    std::vector<std::string> choices;
    if (tier.substitution.allowed)
      for (const SwapChoice& choice : tier.substitution.choices) {
        const bool ink = choice.item.kind == ItemKind::Ink;
        const bool several = choice.item.kind == ItemKind::Embellishment;
        const std::string noun = item_noun(project, choice.item);
        choices.push_back(several ? words::plural(noun) : noun + (ink ? " ink" : ""));
      }
    if (!choices.empty()) part.say.push_back("On our swap list: " + words::listed(choices) + ".");
  }
  if (!part.say.empty()) parts.push_back(std::move(part));
}

namespace {

// Whether the paper of every card comes cut, and with dies where they are cut with dies.
bool comes_ready(const Project& project, const Tier& tier) {
  if (project.cards.empty()) return false;
  for (std::size_t card = 0; card < project.cards.size(); ++card) {
    const supply::PartsReady ready = supply::parts_ready(tier, static_cast<int>(card));
    if (!ready.cut || (supply::cuts_with_a_die(project) && !ready.die_cut)) return false;
  }
  return true;
}

template <class Is>
std::string names_of(const Project& project, const std::vector<int>& tiers, Is is) {
  std::vector<std::string> names;
  for (const int index : tiers)
    if (is(tier_at(project, index))) names.push_back(quoted_name(tier_at(project, index)));
  return words::listed(names, "or");
}

} // namespace

void add_whom_it_suits(std::vector<RundownPart>& parts, const Project& project,
                       const std::vector<int>& tiers) {
  RundownPart part{"Who else it suits", "", {}};
  if (!project.level.empty())
    part.say.push_back("It's right for " + words::with_article(project.level) + ".");
  if (const std::string ready =
          names_of(project, tiers, [&](const Tier& tier) { return comes_ready(project, tier); });
      !ready.empty())
    part.say.push_back((supply::cuts_with_a_die(project) ? "No trimmer or dies at home? Take "
                                                         : "No trimmer at home? Take ") +
                       ready + ", and your pieces come cut.");
  if (const std::string alone = names_of(project, tiers, is_tutorial_alone); !alone.empty())
    part.say.push_back("Do you have all the supplies? Take " + alone + ".");
  const bool open = std::ranges::any_of(
      tiers, [&](int tier) { return tier_at(project, tier).audience == Tier::Audience::Anyone; });
  if (open && !project.maker.contact.empty())
    part.say.emplace_back("Do you teach, too? Write to me before you use it in a class of yours.");
  part.say = in_one_paragraph(part.say);
  if (!part.say.empty()) parts.push_back(std::move(part));
}

void add_dates(std::vector<RundownPart>& parts, const Project& project,
               const std::vector<int>& tiers) {
  RundownPart part{"Dates", "", {}};
  for (const Inlines& one : offer_dates(project, tiers).items) part.say.push_back(spoken(one));
  if (const auto& day = project.run.class_day; day && day->date)
    part.say.push_back("Want to make it with me? I teach it on " +
                       words::long_day_text(project.language, day->date->date) + " at " +
                       clock_words(day->start) + (day->venue.empty() ? "" : ", " + day->venue) +
                       ".");
  part.say = in_one_paragraph(part.say);
  if (!part.say.empty()) parts.push_back(std::move(part));
}

} // namespace leafwright::guide
