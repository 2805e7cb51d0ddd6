#include "plan/orders/contents.h"

#include "measure/index.h"

#include <algorithm>
#include <utility>

namespace leafwright::orders {

namespace {

using supply::CuttingPlan;
using supply::KitItem;
using supply::StockCut;

int line_of(const CuttingPlan& pieces, int stock, const StockCut& cut) {
  if (cut.line >= 0) return cut.line;
  for (std::size_t i = 0; i < pieces.lines.size(); ++i) {
    const supply::CutLine& line = pieces.lines[i];
    if (line.piece.card < 0 && line.stock == stock && line.rectangle == cut.size)
      return static_cast<int>(i);
  }
  return -1;
}

void add_part(Contents& contents, const CuttingPlan& pieces, const KitItem& taking,
              const StockCut& cut) {
  const int index = line_of(pieces, taking.item.index, cut);
  const auto same =
      std::find_if(contents.parts.begin(), contents.parts.end(), [&](const PartLine& one) {
        return one.line == index && one.gift == taking.gift;
      });
  if (same != contents.parts.end()) {
    same->count += cut.count;
    return;
  }
  PartLine part;
  part.line = index;
  if (index >= 0) part.letter = pieces.lines.at(as_index(index)).letter;
  part.stock = taking.item.index;
  part.size = cut.size;
  part.count = cut.count;
  part.gift = taking.gift;
  contents.parts.push_back(std::move(part));
}

Contents contents_of_kind(const Project& project, const supply::KitKind& kind,
                          const CuttingPlan& pieces) {
  Contents contents;
  for (const KitItem& taking : kind.kit_items.kit_items) {
    for (const StockCut& cut : taking.cuts) add_part(contents, pieces, taking, cut);
    const bool paper = taking.item.kind == ItemKind::Stock;
    if (paper && taking.sheets <= 0) continue;
    SupplyLine line{taking};
    line.taking.cuts.clear();
    contents.supplies.push_back(std::move(line));
  }
  for (const Inclusion& one : kind.includes)
    contents.tutorial = contents.tutorial || one.item.kind == ItemKind::Tutorial;
  std::stable_sort(contents.parts.begin(), contents.parts.end(),
                   [](const PartLine& a, const PartLine& b) { return a.line < b.line; });
  std::stable_partition(contents.supplies.begin(), contents.supplies.end(),
                        [](const SupplyLine& one) { return !one.taking.gift; });
  contents.mass = supply::mass_of_contents(project, kind.kit_items);
  return contents;
}

} // namespace

CuttingPlan pieces_of(const Project& project, const Parcels& parcels) {
  std::vector<supply::KitContents> kit_items;
  std::vector<int> kits;
  for (const supply::KitKind& kind : parcels.kinds) {
    kit_items.push_back(kind.kit_items);
    kits.push_back(kind.kits);
  }
  return supply::pieces_of_run(project, kit_items, kits);
}

std::vector<Contents> contents_of(const Project& project, const Parcels& parcels,
                                  const CuttingPlan& pieces) {
  std::vector<Contents> all;
  for (const supply::KitKind& kind : parcels.kinds)
    all.push_back(contents_of_kind(project, kind, pieces));
  return all;
}

Mass mass_of(const Project& project, const Contents& contents, int kits) {
  return contents.mass.known * kits + project.run.wrapping;
}

std::int64_t grams_of(Mass mass) {
  constexpr std::int64_t gram = 1000;
  return (mass.mg + gram - 1) / gram;
}

} // namespace leafwright::orders
