#include "read/tiers.h"

#include "measure/text_cursor.h"
#include "read/fields.h"

#include <fmt/format.h>

#include <array>
#include <map>

namespace leafwright::reading {
namespace {

constexpr std::array audience_words = {
    Named{"anyone", Tier::Audience::Anyone},
    Named{"team", Tier::Audience::Team},
};
constexpr std::array open_words = {
    Named{"until-reply-by", Tier::Open::UntilReplyBy},
    Named{"always", Tier::Open::Always},
};
constexpr std::array parts_words = {Named{"cut", true}, Named{"uncut", false}};

Inclusion inclusion_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Inclusion inclusion;
  inclusion.place = element.place();
  if (const auto item = element.attribute("item")) {
    inclusion.place = item->place();
    inclusion.item = resolver.catalogue()
                         .item_of(context, *item, item->view(), 0, true)
                         .value_or(ItemRef{ItemKind::Tutorial, -2});
  }
  if (const auto amount = element.attribute("amount")) {
    const auto parsed = parse_amount(amount->view(), context.unit);
    if (parsed)
      inclusion.amount = *parsed;
    else
      note_misread(context, *amount, parsed.misread(), "read-amount");
  } else if (inclusion.item.kind == ItemKind::Tutorial) {
    inclusion.amount.kind = Amount::Kind::Whole;
  }
  inclusion.gift = yes_no(context, element, "gift", false);
  if (const auto cards = element.attribute("cards")) {
    for (const ListedWord& word : listed_words(cards->view())) {
      const int card = resolver.drafts().card_of(word.text);
      if (card >= 0)
        inclusion.cards.push_back(card);
      else
        context.journal.error(
            "read-unknown-name", cards->place(word.at, word.text.size()), detail::shown(word.text),
            "the id of a card",
            context.journal.suggestion(word.text, [&] { return resolver.drafts().card_ids(); }));
    }
  }
  return inclusion;
}

Requirement requirement_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Requirement requirement;
  requirement.place = element.place();
  const auto value = element.has("item") ? element.attribute("item") : element.attribute("any");
  if (!value) {
    context.journal.error("read-missing-attribute", element.place(), "<own> without item",
                          "item, or any with several", "write item=\"…\"");
    return requirement;
  }
  requirement.place = value->place();
  for (const ListedWord& word : listed_words(value->view()))
    if (const auto item = resolver.catalogue().item_of(context, *value, word.text, word.at, false))
      requirement.any_of.push_back(*item);
  return requirement;
}

SubstitutionRule swap_of(Context& context, const Element& element) {
  SubstitutionRule rule;
  rule.allowed = yes_no(context, element, "allowed", true);
  rule.top_up = yes_no(context, element, "top-up", false);
  rule.items_over = money_of(context, element, "over");
  rule.most_swaps = whole_number(context, element, "most", 0);
  rule.round_down_to =
      money_of(context, element, "round-down").value_or(Money{0, context.project.currency});
  return rule;
}

void read_shipping(Context& context, const Element& element, Tier& tier) {
  const auto value = element.attribute("shipping");
  if (!value) return;
  if (value->view() == "included") {
    tier.shipping = Tier::Shipping::Included;
  } else if (value->view() == "none") {
    tier.shipping = Tier::Shipping::None;
  } else if (const auto money = parse_money(value->view(), context.project.currency)) {
    tier.shipping_charge = *money;
  } else {
    note(context, *value, "read-money", "included, none, or an amount such as 6.50",
         "write one of these");
  }
}

Tier tier_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Tier tier;
  tier.id = id_of(context, element);
  tier.name = words_of(element, "name", name_from_id(tier.id));
  tier.blurb = element.child("blurb").prose().text();
  tier.place = element.place();
  tier.price = money_of(context, element, "price");
  tier.audience = choice_of(context, element, "audience", audience_words, Tier::Audience::Anyone);
  tier.open = choice_of(context, element, "open", open_words, Tier::Open::UntilReplyBy);
  tier.parts_cut = choice_of(context, element, "parts", parts_words, false);
  read_shipping(context, element, tier);
  for (const Element& child : element.children()) {
    if (child.is("include")) {
      Inclusion inclusion = inclusion_of(resolver, child);
      if (inclusion.item.index != -2) tier.includes.push_back(std::move(inclusion));
    } else if (child.is("own")) {
      Requirement requirement = requirement_of(resolver, child);
      if (!requirement.any_of.empty()) tier.requires_owned.push_back(std::move(requirement));
    } else if (child.is("swap")) {
      tier.substitution = swap_of(context, child);
    }
  }
  return tier;
}

std::optional<StatedDate> date_of(Context& context, const Element& element, std::string_view name) {
  const auto value = element.attribute(name);
  if (!value) return std::nullopt;
  const auto date = parse_date(value->view());
  if (date) return *date;
  note_misread(context, *value, date.misread(), "read-date");
  return std::nullopt;
}

std::optional<StockInHand> in_hand_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  const auto value = element.attribute("item");
  if (!value) return std::nullopt;
  const auto item = resolver.catalogue().item_of(context, *value, value->view(), 0, false);
  if (!item) return std::nullopt;
  StockInHand line;
  line.item = *item;
  line.place = value->place();
  line.count = whole_number(context, element, "count", element.has("offcut") ? 1 : 0);
  if (element.has("sheets")) line.count = whole_number(context, element, "sheets", 0);
  line.offcut = size_of(context, element, "offcut", {});
  line.length = length_of(context, element, "length", {});
  const bool stock = item->kind == ItemKind::Stock, ribbon = item->kind == ItemKind::Ribbon;
  const bool said = element.has("count") || element.has("sheets") || element.has("offcut") ||
                    element.has("length");
  if (!said) {
    context.journal.error("read-missing-attribute", element.place(), "<in-hand> without an amount",
                          "sheets, count, offcut or length", "say how much there is");
  }
  for (const auto& [name, fits] : {std::pair<std::string_view, bool>{"sheets", stock},
                                   std::pair<std::string_view, bool>{"offcut", stock},
                                   std::pair<std::string_view, bool>{"length", ribbon}}) {
    if (!element.has(name) || fits) continue;
    context.journal.error("read-wrong-kind", element.attribute_place(name),
                          fmt::format("{} of {}", name, kind_words(item->kind)),
                          name == "length" ? "length of a ribbon"
                                           : fmt::format("{} of a stock", name),
                          "write count for other things");
  }
  return line;
}

} // namespace

void read_tiers(Resolver& resolver, const std::vector<Element>& tiers) {
  Context& context = resolver.context();
  std::map<std::string, Place> seen;
  for (const Element& element : tiers) {
    Tier tier = tier_of(resolver, element);
    const auto [first, fresh] = seen.emplace(tier.id, tier.place);
    if (!fresh && !tier.id.empty()) {
      Finding finding{Severity::Error,
                      "read-id-twice",
                      element.attribute("id")->place(),
                      fmt::format("the id {} a second time", tier.id),
                      "an id that no other tier has",
                      "choose another id here",
                      {}};
      finding.trace.push_back({first->second, fmt::format("{} is first here", tier.id)});
      context.journal.add(std::move(finding));
    }
    context.project.tiers.push_back(std::move(tier));
  }
}

void read_run(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Run& run = context.project.run;
  run.place = element.place();
  run.of_each = whole_number(context, element, "of-each", run.of_each, 1, 10'000);
  run.spare_percent = whole_number(context, element, "spare", 0, 0, 100);
  run.spare_pieces = whole_number(context, element, "spare-pieces", 0, 0, 1'000);
  run.reply_by = date_of(context, element, "reply-by");
  run.ship_by = date_of(context, element, "ship-by");
  if (const auto value = element.attribute("reply-by")) run.reply_by_place = value->place();
  if (const auto value = element.attribute("ship-by")) run.ship_by_place = value->place();
  if (const auto roster = element.attribute("roster")) {
    const std::string fault = name_fault(roster->view());
    if (fault.empty())
      run.roster = roster->text();
    else
      context.journal.error("read-outside", roster->place(),
                            fmt::format("{}: {}", detail::shown(roster->view()), fault),
                            "a file in the project's folder", "put the roster beside the project");
  }
  std::map<std::string_view, int> tiers;
  for (std::size_t i = 0; i < context.project.tiers.size(); ++i)
    tiers.emplace(context.project.tiers[i].id, static_cast<int>(i));
  for (const Element& child : element.children("expect")) {
    TierCount line;
    line.place = child.place();
    line.kits = whole_number(context, child, "kits", 0, 0, 1'000'000);
    const auto value = child.attribute("tier");
    if (!value) continue;
    line.place = value->place();
    if (const auto tier = tiers.find(value->view()); tier != tiers.end()) {
      line.tier = tier->second;
      run.planned.push_back(line);
      continue;
    }
    note(context, *value, "read-unknown-name", "the id of a tier",
         context.journal.suggestion(value->view(), [&] {
           std::vector<std::string_view> known;
           for (const Tier& tier : context.project.tiers)
             if (known.size() < 2000) known.emplace_back(tier.id);
           return known;
         }));
  }
  for (const Element& child : element.children("in-hand"))
    if (auto line = in_hand_of(resolver, child)) run.in_hand.push_back(*line);
}

} // namespace leafwright::reading
