#include "read/internal/elements.h"

#include "measure/letters.h"
#include "measure/parse_length.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace leafwright::reading {
namespace {

constexpr std::string_view expected_amount =
    "an amount: as needed, whole, 2 whole, 1/2 of a pack, 22 in, 20, 4 sheets, 2 of 6 x 12";

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// The item and the amount of an <include> or a <choice>; nothing when the item is not known.
std::optional<ItemRef> read_item(Resolver& resolver, const Element& element, Amount& amount) {
  Context& context = resolver.context();
  std::optional<ItemRef> item = ItemRef{ItemKind::Tutorial, -1};
  if (const auto name = element.attribute("item"))
    item = resolver.catalogue().item_of(context, *name, name->view(), 0, true);
  if (const auto words = element.attribute("amount")) {
    const auto parsed = parse_amount(words->view(), context.unit);
    if (parsed)
      amount = *parsed;
    else
      note_misread(context, *words, parsed.parse_error(), "read-amount");
  } else if (item && item->kind == ItemKind::Tutorial) {
    amount.kind = Amount::Kind::Whole;
  }
  return item;
}

Place place_of_item(const Element& element) {
  const auto name = element.attribute("item");
  return name ? name->place() : element.place();
}

Inclusion inclusion_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Inclusion inclusion;
  inclusion.place = place_of_item(element);
  inclusion.item =
      read_item(resolver, element, inclusion.amount).value_or(ItemRef{ItemKind::Tutorial, -2});
  inclusion.value = money_of(context, element, "value");
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

SubstitutionRule swap_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  SubstitutionRule rule;
  rule.allowed = yes_no(context, element, "allowed", true);
  rule.top_up = yes_no(context, element, "top-up", false);
  rule.items_over = money_of(context, element, "over");
  rule.most_swaps = whole_number(context, element, "most", 0);
  rule.round_down_to =
      money_of(context, element, "round-down").value_or(Money{0, context.project.currency});
  for (const Element& child : element.children("choice")) {
    SwapChoice choice;
    choice.place = place_of_item(child);
    choice.amount.kind = Amount::Kind::Whole;
    const std::optional<ItemRef> item = read_item(resolver, child, choice.amount);
    choice.value = money_of(context, child, "value");
    choice.most = whole_number(context, child, "most", 1, 1, 1000);
    if (!item) continue;
    choice.item = *item;
    rule.choices.push_back(choice);
  }
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

// What is done to cut parts before they are posted.
void read_ready(Context& context, const Element& element, Tier& tier) {
  const auto value = element.attribute("ready");
  if (!value) return;
  for (const ListedWord& word : listed_words(value->view())) {
    if (word.text == "die-cut") {
      tier.die_cut = true;
    } else if (word.text == "stamped") {
      tier.stamped = true;
    } else {
      context.journal.error("read-word", value->place(word.at, word.text.size()),
                            detail::shown(word.text), "die-cut, stamped, or both",
                            "write one of these");
    }
  }
  if (!tier.parts_cut && (tier.die_cut || tier.stamped))
    context.journal.error("read-wrong-kind", value->place(), "parts made ready that come uncut",
                          "ready only beside parts=\"cut\"", "write parts=\"cut\"");
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
  tier.if_owned = choice_of(context, element, "if-owned", if_owned_words, Tier::IfOwned::Unsaid);
  read_ready(context, element, tier);
  read_shipping(context, element, tier);
  for (const Element& child : element.children()) {
    if (child.is("include")) {
      Inclusion inclusion = inclusion_of(resolver, child);
      if (inclusion.item.index != -2) tier.includes.push_back(std::move(inclusion));
    } else if (child.is("own")) {
      Requirement requirement = requirement_of(resolver, child);
      if (!requirement.any_of.empty()) tier.requires_owned.push_back(std::move(requirement));
    } else if (child.is("swap")) {
      tier.substitution = swap_of(resolver, child);
    }
  }
  return tier;
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

namespace {

constexpr std::string_view percent_words = "a share of a hundred, such as 2.9";

// "2.9" or "2.9 %" in parts in a million, exactly.
std::int64_t percent_of(Context& context, const Element& element, std::string_view name) {
  const auto value = element.attribute(name);
  if (!value) return 0;
  std::string_view text = value->view();
  while (text.ends_with('%') || text.ends_with(' ')) text.remove_suffix(1);
  detail::TextCursor cursor(text);
  const auto number = detail::read_number(cursor, percent_words);
  std::optional<std::int64_t> ppm;
  if (number && cursor.done()) ppm = detail::times_exactly(*number, 10'000);
  if (ppm && *ppm <= 1'000'000) return *ppm;
  note(context, *value, "read-number", std::string(percent_words),
       "write a number from 0 to 100 with at most four decimals");
  return 0;
}

Money cost_of(Context& context, const Element& element) {
  return money_of(context, element, "cost").value_or(Money{0, context.project.currency});
}

void read_postage(Context& context, const Element& element, Selling& selling) {
  Selling::Postage postage{{}, cost_of(context, element), element.place()};
  if (element.has("up-to")) {
    const Mass mass = mass_of(context, element, "up-to");
    if (mass <= Mass{}) return;
    postage.up_to = mass;
  }
  const auto same = std::find_if(selling.postage.begin(), selling.postage.end(),
                                 [&](const auto& one) { return one.up_to == postage.up_to; });
  if (same != selling.postage.end()) {
    context.journal.error(
        "read-twice", element.place(),
        postage.up_to ? fmt::format("postage up to {} a second time", mass_text(*postage.up_to))
                      : std::string("postage of any mass a second time"),
        "one cost for each step of mass", "delete one of the two");
    return;
  }
  selling.postage.push_back(postage);
}

} // namespace

void read_selling(Context& context, const Element& element) {
  Selling& selling = context.project.selling;
  selling.place = element.place();
  selling.fee_fixed = {0, context.project.currency};
  if (const Element fees = element.child("fees")) {
    selling.fee_ppm = percent_of(context, fees, "percent");
    selling.fee_fixed = money_of(context, fees, "fixed").value_or(selling.fee_fixed);
  }
  for (const Element& postage : element.children("postage"))
    read_postage(context, postage, selling);
  std::sort(selling.postage.begin(), selling.postage.end(), [](const auto& a, const auto& b) {
    if (a.up_to && b.up_to) return *a.up_to < *b.up_to;
    return a.up_to.has_value() && !b.up_to.has_value();
  });
  if (const Element packing = element.child("packing")) selling.packing = cost_of(context, packing);
  for (const Element& outlay : element.children("outlay"))
    selling.outlays.push_back({outlay.prose().text(), cost_of(context, outlay), outlay.place()});
}

namespace {

bool is_share(const detail::Number& n) {
  return n.whole == 0 && !n.decimal && n.numerator >= 1 && n.numerator < n.denominator &&
         n.denominator <= 1000;
}

Amount share(const detail::Number& n) {
  Amount amount;
  amount.kind = Amount::Kind::Share;
  amount.numerator = static_cast<int>(n.numerator);
  amount.denominator = static_cast<int>(n.denominator);
  return amount;
}

} // namespace

Parsed<Amount> parse_amount(std::string_view text, Unit bare) {
  using Kind = Amount::Kind;
  const Span span = trimmed_span(text, {0, text.size()});
  const std::string_view words = slice(text, span);
  Amount amount;
  if (words == "as needed") return amount;
  if (one_of(words, {"whole", "a whole one", "a whole pack"})) {
    amount.kind = Kind::Whole;
    return amount;
  }
  detail::TextCursor cursor(words);
  const auto number = detail::read_number(cursor, expected_amount);
  if (!number) {
    ParseError why = number.parse_error();
    why.at += span.from;
    return why;
  }
  const detail::Number& n = *number;
  cursor.skip_blanks();
  const std::string_view rest = cursor.rest();
  const auto fault = [&](std::string fix) {
    return detail::parse_error(text, span.from, span.to, expected_amount, std::move(fix));
  };
  if (is_length_unit(rest)) {
    const auto length = parse_length(words, bare);
    if (!length || (*length).nm <= 0) return fault("write a length of more than nothing");
    amount.kind = Kind::Length;
    amount.length = *length;
    return amount;
  }
  const bool whole = n.numerator == 0 && n.whole >= 1 && n.whole <= 1'000'000;
  if (one_of(rest, {"of a pack", "pack", "of a bolt", "bolt", "of a spool", "spool", "of a reel",
                    "reel", "packs"})) {
    if (whole) {
      amount.kind = Kind::Whole;
      amount.count = static_cast<int>(n.whole);
      return amount;
    }
    if (is_share(n)) return share(n);
    return fault("write the share as a fraction below 1, such as 1/2 of a pack");
  }
  if (!whole) return fault("write a whole number, a length with its unit, or a share of a pack");
  amount.count = static_cast<int>(n.whole);
  if (rest.empty() || one_of(rest, {"whole", "pieces", "piece", "sheets", "sheet"})) {
    amount.kind = rest == "whole" ? Kind::Whole : Kind::Count;
    return amount;
  }
  if (rest.starts_with("of ")) {
    const auto size = parse_size(rest.substr(3), bare);
    if (size && (*size).width.nm > 0 && (*size).height.nm > 0) {
      amount.kind = Kind::Sheets;
      amount.piece = *size;
      return amount;
    }
  }
  return fault("write it as one of these");
}

} // namespace leafwright::reading
