#include "guide/parcels/internal/parcel_words.h"

#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/item.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::guide {

namespace {

const Piece* piece_of(const Project& project, const supply::CutLine& line) {
  if (line.piece.card < 0) return nullptr;
  return piece_at(project.cards.at(as_index(line.piece.card)), line.piece.piece);
}

const supply::CutLine* line_of(const supply::CuttingPlan& pieces, const orders::PartLine& part) {
  if (part.line < 0 || as_index(part.line) >= pieces.lines.size()) return nullptr;
  return &pieces.lines[as_index(part.line)];
}

std::string ribbon_amount(const Project& project, const supply::KitItem& taking,
                          std::int64_t kits) {
  std::vector<std::string> parts;
  if (taking.packs > 0) parts.push_back(words::figured(taking.packs * kits, "spool"));
  for (const supply::RibbonCut& cut : taking.lengths) {
    const std::int64_t count = cut.count * kits;
    const std::string length = length_text(cut.length, project.printing);
    parts.push_back(count == 1 ? length : fmt::format("{}\u00A0× {}", count, length));
  }
  return words::listed(parts);
}

std::string pieces_and_packs(const supply::KitItem& taking, const Sold& sold, std::int64_t kits) {
  std::vector<std::string> parts;
  if (taking.packs > 0) {
    std::string packs = words::figured(taking.packs * kits, "pack");
    if (sold.count > 1) packs += fmt::format(" of {}", sold.count);
    parts.push_back(std::move(packs));
  }
  if (taking.pieces > 0) parts.push_back(std::to_string(taking.pieces * kits));
  return words::listed(parts);
}

std::string adhesive_amount(const Project& project, const supply::KitItem& taking,
                            std::int64_t kits) {
  const Adhesive& adhesive = project.adhesives.at(as_index(taking.item.index));
  std::vector<std::string> parts;
  if (taking.packs > 0) {
    const bool by_count = adhesive.measured == Adhesive::Measured::ByCount;
    const char* noun = by_count                                          ? "pack"
                       : adhesive.measured == Adhesive::Measured::ByMass ? "bottle"
                                                                         : "roll";
    std::string packs = words::figured(taking.packs * kits, noun);
    if (by_count && adhesive.per_pack > 0) packs += fmt::format(" of {}", adhesive.per_pack);
    parts.push_back(std::move(packs));
  }
  if (taking.pieces > 0) parts.push_back(std::to_string(taking.pieces * kits));
  if (taking.length > Length{} && taking.pieces == 0)
    parts.push_back(length_text(taking.length * kits, project.printing));
  if (taking.mass > Mass{}) parts.push_back(mass_text(taking.mass * kits));
  return words::listed(parts);
}

} // namespace

std::string part_name(const Project& project, const supply::CuttingPlan& pieces,
                      const orders::PartLine& part) {
  const supply::CutLine* line = line_of(pieces, part);
  if (const Piece* piece = line ? piece_of(project, *line) : nullptr) return piece_noun(*piece);
  return item_name(project, {ItemKind::Stock, part.stock}) + ", " +
         size_text(part.size, project.printing);
}

std::string part_card(const Project& project, const supply::CuttingPlan& pieces,
                      const orders::PartLine& part) {
  const supply::CutLine* line = line_of(pieces, part);
  if (!line || line->piece.card < 0 || project.cards.size() < 2) return {};
  return std::to_string(line->piece.card + 1);
}

std::string taking_amount(const Project& project, const supply::KitItem& taking,
                          std::int64_t kits) {
  switch (kind_row(taking.item.kind).counted) {
  case KindRow::Counted::Sheets: return words::figured(taking.sheets * kits, "sheet");
  case KindRow::Counted::Packs: return words::figured(taking.packs * kits, "pack");
  case KindRow::Counted::Length: return ribbon_amount(project, taking, kits);
  case KindRow::Counted::Pieces:
    return pieces_and_packs(taking, *sold_of(project, taking.item), kits);
  case KindRow::Counted::Adhesive: return adhesive_amount(project, taking, kits);
  case KindRow::Counted::Things: return std::to_string(taking.pieces * kits);
  case KindRow::Counted::Nothing: break;
  }
  return std::to_string(kits);
}

std::string change_words(const Project& project, const orders::Change& change) {
  std::vector<std::string> out, in;
  for (const ItemRef item : change.left_out)
    out.push_back(words::with_the(item_noun(project, item)));
  for (const Swap& swap : change.taken) {
    const std::string amount = included_words(project, swap.item, swap.amount, nullptr);
    in.push_back(words::with_the(item_noun(project, swap.item)) +
                 (amount == "1" ? std::string() : " (" + amount + ")"));
  }
  std::string words;
  if (!out.empty()) words += "without " + words::listed(out);
  if (!in.empty()) words += (words.empty() ? "with " : ", with ") + words::listed(in);
  return words;
}

std::string not_owned_words(const Project& project, const orders::Parcel& parcel) {
  const Order& order = project.run.orders.at(as_index(parcel.order));
  const Tier& tier = project.tiers.at(as_index(order.tier));
  std::vector<std::string> asked;
  for (const std::size_t one : parcel.not_owned) {
    std::vector<std::string> any;
    for (const ItemRef item : tier.requires_owned.at(one).any_of)
      any.push_back(words::with_the(item_noun(project, item)));
    asked.push_back(words::listed(any, "or"));
  }
  return words::listed(asked);
}

std::string credit_words(const orders::Change& change, int kits) {
  if (change.taken.empty())
    return change.off.minor > 0 ? money_text(change.off * kits) + " comes off the price."
                                : std::string("The price stays the same.");
  std::string words = fmt::format("Credit {}, picked {}", money_text(change.credit * kits),
                                  money_text(change.worth * kits));
  if (change.remainder.minor > 0)
    words += fmt::format(", {} left over", money_text(change.remainder * kits));
  if (change.off.minor > 0)
    words += fmt::format(", {} off the price", money_text(change.off * kits));
  if (change.to_pay.minor > 0)
    words += fmt::format(", {} to pay", money_text(change.to_pay * kits));
  return words + ".";
}

std::string kind_name(const Project& project, const PackingList& list, std::size_t kind) {
  const supply::KitKind& of = list.parcels.kinds.at(kind);
  const std::string& tier = project.tiers.at(as_index(of.tier)).name;
  const std::string change = change_words(project, list.parcels.changes.at(kind));
  return change.empty() ? tier : tier + " " + change;
}

Inlines supply_item(const Project& project, const orders::SupplyLine& line, int kits) {
  Prose prose;
  prose.strong(taking_amount(project, line.taking, kits)).say(" ");
  const ItemRef item = line.taking.item;
  const std::string name =
      item.kind == ItemKind::Stock ? listed_item(project, item) : item_name(project, item);
  prose.say(words::tie_measures(
      kind_row(item.kind).plural && line.taking.pieces * kits > 1 ? words::plural(name) : name));
  if (line.taking.gift) prose.quiet(" gift");
  return prose.fragment();
}

std::vector<std::string_view> address_lines(const Order& order) {
  std::vector<std::string_view> lines;
  for (std::string_view rest = order.address; !rest.empty();) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    if (const std::string_view line = rest.substr(0, end); !line.empty() && line != order.name)
      lines.push_back(line);
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return lines;
}

std::string breakable(std::string_view text) {
  constexpr int longest_run = 28; // characters; no word of any of our languages is longer
  std::string out;
  int run = 0;
  for (const char c : text) {
    const bool begins = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (c == ' ' || c == '\n' || c == '-') run = -1;
    if (begins && ++run > longest_run) {
      out += ' ';
      run = 1;
    }
    out += c;
  }
  return out;
}

std::string parcel_number(const PackingList& list, std::size_t parcel) {
  return fmt::format("parcel\u00A0{} of\u00A0{}", list.parcels.parcels.at(parcel).box + 1,
                     list.parcels.boxes.size());
}

const std::vector<int>& together(const PackingList& list, const orders::Parcel& parcel) {
  return at(list.parcels.boxes, parcel.box);
}

Mass box_mass(const Project& project, const PackingList& list, const orders::Parcel& parcel) {
  Mass mass = project.run.wrapping;
  for (const int one : together(list, parcel)) {
    const orders::Parcel& part = at(list.parcels.parcels, one);
    mass += at(list.contents, part.kind).mass.known * part.kits;
  }
  return mass;
}

} // namespace leafwright::guide
