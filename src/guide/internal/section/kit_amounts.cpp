#include "guide/sections.h"

#include "guide/prose.h"
#include "language/english.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/item.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

// Estimates are rounded up to what one would say: whole inches and centimetres, whole feet and
// tenths of a metre when they are long.
std::string about(const Project& project, Length length) {
  const auto up = [&](Length step) { return (length.nm + step.nm - 1) / step.nm; };
  std::string words = "about\u00A0";
  if (project.printing.unit == Unit::Inch) {
    const bool long_one = length > inches(72);
    return words + (long_one ? std::to_string(up(inches(12))) + "\u00A0ft"
                             : std::to_string(up(inches(1))) + "\u00A0in");
  }
  if (length < millimetres(1000)) return words + std::to_string(up(millimetres(10))) + "\u00A0cm";
  const std::int64_t tenths = up(millimetres(100));
  words += std::to_string(tenths / 10);
  if (tenths % 10 != 0) words += "." + std::to_string(tenths % 10);
  return words + "\u00A0m";
}

// A small thing in the unit in which it was made: 4 mm stays 4 mm among inches.
Printing printing_for(const Project& project, Size size) {
  const Printing& own = project.printing;
  const auto exact = [&](Length step) {
    return prints_exactly(size.width, step) && prints_exactly(size.height, step);
  };
  if (exact(own.step) || !exact(own.other_step)) return own;
  return {own.unit == Unit::Inch ? Unit::Millimetre : Unit::Inch, own.other_step, own.step};
}

std::string made_size_words(const Project& project, const Shape& shape, Size size) {
  const Printing how = printing_for(project, size);
  if (is_round(shape) && size.width == size.height) return length_text(size.width, how) + " across";
  return size_text(size, how, true);
}

// Whether the name gives a measure itself.
bool has_digit(std::string_view name) {
  return std::any_of(name.begin(), name.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::string stock_detail(const Project& project, const Stock& stock) {
  std::string out;
  if (!stock.weight_words.empty())
    out += ", " + stock.weight_words;
  else if (stock.grammage.mg_per_m2 > 0)
    out += ", " + grammage_text(stock.grammage);
  if (!stock.sheets.empty()) out += ", " + sheet_words(project, stock.sheets.front());
  return out;
}

// Thickness is told in millimetres in either system, as the packs do (common practice).
std::string thickness_words(Length thickness) {
  return length_text(thickness, {Unit::Millimetre, millimetres(1) / 10, inches(0, 1, 64)});
}

// Rounded up: to tenths of a gram below ten, or a card's glue and four cards' would not agree.
std::string glue_words(Mass mass) {
  constexpr std::int64_t gram = 1000, tenth = 100;
  std::string number;
  if (mass.mg < 10 * gram) {
    const std::int64_t up = std::max<std::int64_t>(1, (mass.mg + tenth - 1) / tenth);
    number = std::to_string(up / 10);
    if (up % 10 != 0) number += "." + std::to_string(up % 10);
  } else {
    number = std::to_string((mass.mg + gram - 1) / gram);
  }
  return "about\u00A0" + number + "\u00A0g";
}

std::string adhesive_amount(const Project& project, const supply::Need& need) {
  if (need.count > 0) return std::to_string(need.count);
  if (need.length > Length{}) return about(project, need.length);
  if (need.mass > Mass{}) return glue_words(need.mass);
  return "1";
}

std::string whole_words(const Project& project, ItemKind kind, int count) {
  const std::string_view noun = words::sold_as(project.language, kind);
  if (noun.empty()) return std::to_string(count);
  return count == 1 ? "whole " + std::string(noun) : words::figured(count, noun);
}

} // namespace

std::string sheet_words(const Project& project, const SheetOffer& offer) {
  const bool measured =
      offer.name.empty() || (offer.name.front() >= '0' && offer.name.front() <= '9');
  if (measured) return size_text(offer.size, project.printing);
  std::string name = offer.name;
  // ISO sizes are written with a capital: A4.
  if (name.size() <= 3 && has_digit(name)) name = words::sentence_case(name);
  return name;
}

std::string amount_words(const Project& project, const supply::Need& need) {
  switch (kind_row(need.item.kind).counted) {
  case KindRow::Counted::Sheets:
    return need.sheets > 0 ? words::figured(need.sheets, "sheet")
                           : words::figured(need.count, "piece");
  case KindRow::Counted::Length: return length_text(need.length, project.printing);
  case KindRow::Counted::Adhesive: return adhesive_amount(project, need);
  case KindRow::Counted::Pieces: return std::to_string(need.count);
  case KindRow::Counted::Packs:
  case KindRow::Counted::Things:
  case KindRow::Counted::Nothing: break;
  }
  return "1";
}

std::string included_words(const Project& project, ItemRef item, const Amount& amount,
                           const supply::Need* need) {
  switch (amount.kind) {
  case Amount::Kind::AsNeeded: return need ? amount_words(project, *need) : "as needed";
  case Amount::Kind::Whole: return whole_words(project, item.kind, amount.count);
  case Amount::Kind::Share:
    return words::share_words(amount.numerator, amount.denominator) +
           (item.kind == ItemKind::Ribbon ? " of the spool" : " of the pack");
  case Amount::Kind::Length: return length_text(amount.length, project.printing);
  case Amount::Kind::Count:
    return item.kind == ItemKind::Stock ? words::figured(amount.count, "sheet")
                                        : std::to_string(amount.count);
  case Amount::Kind::Sheets:
    if (amount.piece == Size{}) return words::figured(amount.count, "sheet");
    return words::figured(amount.count, "piece") + ", " +
           size_text(amount.piece, project.printing, true);
  }
  return {};
}

std::string listed_item(const Project& project, ItemRef item) {
  std::string name = item_name(project, item);
  switch (item.kind) {
  case ItemKind::Stock:
    if (const Stock* stock = find_at(project.stocks, item.index))
      name += stock_detail(project, *stock);
    break;
  case ItemKind::Ribbon:
    if (const Ribbon* ribbon = find_at(project.ribbons, item.index); ribbon && !has_digit(name))
      name += ", " +
              length_text(ribbon->width, printing_for(project, {ribbon->width, ribbon->width})) +
              " wide";
    break;
  case ItemKind::Die:
    if (const Die* die = find_at(project.dies, item.index); die && !has_digit(name))
      name += ", " + made_size_words(project, die->shape, die->size);
    break;
  case ItemKind::Embellishment:
    if (const auto* one = find_at(project.embellishments, item.index); one && !has_digit(name))
      name += ", " + made_size_words(project, one->shape, one->size);
    break;
  case ItemKind::StampSet:
    if (const StampSet* set = find_at(project.stamp_sets, item.index);
        set && set->images.size() > 1)
      name += ", " + words::figured(static_cast<std::int64_t>(set->images.size()), "image");
    break;
  case ItemKind::Adhesive:
    if (const Adhesive* one = find_at(project.adhesives, item.index);
        one && one->kind == Adhesive::Kind::Foam && one->thickness > Length{} && !has_digit(name))
      name += ", " + thickness_words(one->thickness) + " thick";
    break;
  case ItemKind::Envelope:
    if (const Envelope* one = find_at(project.envelopes, item.index))
      name += ", " + size_text(one->size, project.printing);
    break;
  case ItemKind::Ink:
  case ItemKind::Pack:
  case ItemKind::Tool:
  case ItemKind::Tutorial:
  case ItemKind::Parts: break;
  }
  return words::tie_measures(name);
}

std::string cards_words(const Project& project, const std::vector<int>& cards) {
  if (project.cards.size() < 2) return {};
  if (cards.size() == project.cards.size()) return "all";
  std::vector<std::string> numbers;
  for (const int card : cards) numbers.push_back(std::to_string(card + 1));
  return words::series(numbers);
}

} // namespace leafwright::guide
