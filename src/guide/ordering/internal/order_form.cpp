#include "guide/ordering/order_form.h"

#include "basics/mail_address.h"
#include "guide/business/offer_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/item.h"
#include "model/project.h"
#include "plan/tier/substitution.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::guide {

namespace {

using Kind = OrderQuestion::Kind;
using Answer = OrderQuestion::Answer;

std::string tier_words(const Project& project, const Tier& tier) {
  std::string words = tier.name;
  if (tier.price) words += ", " + money_text(*tier.price);
  const std::string shipping(words::terms(project.language).shipping);
  if (tier.shipping == Tier::Shipping::None) return words + ", by e-mail";
  if (tier.shipping == Tier::Shipping::Included) return words + ", " + shipping + " included";
  if (tier.shipping_charge)
    return words + " plus " + money_text(*tier.shipping_charge) + " " + shipping;
  return words + " plus " + shipping;
}

// Adds it, or the tier to the same answer.
void add_answer(std::vector<Answer>& answers, std::string value, std::string words, int tier) {
  auto same = std::ranges::find_if(
      answers, [&](const Answer& one) { return one.value == value && one.words == words; });
  if (same == answers.end())
    same = answers.insert(answers.end(), {std::move(value), std::move(words), {}});
  if (std::ranges::find(same->tiers, tier) == same->tiers.end()) same->tiers.push_back(tier);
}

// What changes a kit, or lets her take it: things that give credit, and things the tier asks for.
std::vector<Answer> owned_answers(const Project& project, const std::vector<int>& tiers) {
  std::vector<Answer> answers;
  tiers::TierValues values(project);
  const auto add = [&](int tier, ItemRef item) {
    add_answer(answers, item_id(project, item), item_name(project, item), tier);
  };
  for (const int index : tiers) {
    const Tier& tier = tier_at(project, index);
    for (const Requirement& one : tier.requires_owned)
      for (const ItemRef item : one.any_of) add(index, item);
    for (const Inclusion& one : tier.includes) {
      const std::vector<ItemRef> alone{one.item};
      const bool credit =
          tier.substitution.allowed && !tiers::credit_for(values, index, alone).items.empty();
      const bool left_out = tier.if_owned == Tier::IfOwned::NothingInstead &&
                            one.item.kind != ItemKind::Tutorial && one.item.kind != ItemKind::Parts;
      if (!one.gift && (credit || left_out)) add(index, one.item);
    }
  }
  return answers;
}

std::vector<Answer> swap_answers(const Project& project, const std::vector<int>& tiers) {
  std::vector<Answer> answers;
  for (const int index : tiers) {
    const Tier& tier = tier_at(project, index);
    if (!tier.substitution.allowed) continue;
    for (const SwapChoice& choice : tier.substitution.choices) {
      const bool one_whole = choice.amount.kind == Amount::Kind::Whole && choice.amount.count == 1;
      std::string words = item_name(project, choice.item);
      if (!one_whole) words += ", " + included_words(project, choice.item, choice.amount, nullptr);
      add_answer(answers, item_id(project, choice.item), std::move(words), index);
    }
  }
  return answers;
}

std::string lead_words(const Project& project, const std::vector<int>& tiers) {
  std::string words;
  for (const List& list : {offer_dates(project, tiers), offer_ordering(project, tiers)})
    for (const Inlines& one : list.items) words += (words.empty() ? "" : " ") + spoken(one);
  return words;
}

} // namespace

OrderForm order_form(const Project& project, Tier::Audience audience) {
  const std::vector<int> tiers = tiers_for(project, audience);
  OrderForm form;
  form.title = "Order form: " + project.title;
  form.lead = lead_words(project, tiers);
  form.mail = mail_address_in(project.maker.contact);
  form.close = "For a second option, fill in a second form. Nothing is charged here.";
  const auto ask = [&](Kind kind, std::string column, std::string asked, std::string hint,
                       bool needed, std::vector<Answer> answers = {}) {
    form.questions.push_back(
        {kind, std::move(column), std::move(asked), std::move(hint), needed, std::move(answers)});
  };
  const bool posted = std::ranges::any_of(
      tiers, [&](int tier) { return tier_at(project, tier).shipping != Tier::Shipping::None; });
  std::vector<Answer> options;
  for (const int tier : tiers)
    options.push_back({tier_at(project, tier).id, tier_words(project, tier_at(project, tier)), {}});

  ask(Kind::Line, "name", "Your name", "", true);
  ask(Kind::Line, "e-mail", "Your e-mail address", "", true);
  if (posted)
    ask(Kind::Lines, "address", "Your postal address", "Add your country if it isn't mine.", false);
  ask(Kind::OneOf, "tier", "Which option?", "", true, std::move(options));
  ask(Kind::Number, "quantity", "How many kits?", "Leave it blank for one.", false);
  std::vector<Answer> owned = owned_answers(project, tiers);
  std::vector<Answer> swaps = swap_answers(project, tiers);
  if (!owned.empty())
    ask(Kind::AnyOf, "owned", "Which of these do you own already?", "", false, std::move(owned));
  if (!swaps.empty())
    ask(Kind::AnyOf, "swaps", "What would you like instead of what you own?",
        "Only if you own something above, and up to its value.", false, std::move(swaps));
  ask(Kind::Lines, "note", "Anything I should know?", "", false);
  return form;
}

std::string order_questions(const OrderForm& form) {
  const auto way = [](Kind kind) -> std::string_view {
    switch (kind) {
    case Kind::Line: return "short answer";
    case Kind::Lines: return "long answer";
    case Kind::Number: return "number";
    case Kind::OneOf: return "one choice";
    case Kind::AnyOf: return "several choices";
    }
    return {};
  };
  std::string text = form.title + "\n\n" + form.lead + "\n";
  int number = 0;
  for (const OrderQuestion& one : form.questions) {
    text += fmt::format("\n{}. {}\n   ({}{}; column: {})\n", ++number, one.asked, way(one.kind),
                        one.needed ? ", required" : "", one.column);
    if (!one.hint.empty()) text += "   " + one.hint + "\n";
    for (const Answer& answer : one.answers) text += fmt::format("   - {}\n", answer.words);
  }
  text += "\nWhen the answers come back, your project reads them with this in <run>:\n\n";
  return text + order_mapping(form);
}

std::string order_mapping(const OrderForm& form) {
  std::string text;
  for (const OrderQuestion& one : form.questions) {
    text += fmt::format("    <column heading=\"{}\" means=\"{}\"", text::xml_text(one.asked),
                        one.column == "e-mail" ? "email" : one.column);
    if (one.answers.empty()) {
      text += "/>\n";
      continue;
    }
    text += ">\n";
    for (const Answer& answer : one.answers)
      text += fmt::format("      <value text=\"{}\" means=\"{}\"/>\n", text::xml_text(answer.words),
                          text::xml_text(answer.value));
    text += "    </column>\n";
  }
  return text;
}

} // namespace leafwright::guide
