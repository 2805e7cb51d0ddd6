#include "guide/parcels/internal/parcel_words.h"
#include "guide/parcels/parcel_documents.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/lists.h"
#include "measure/index.h"
#include "plan/orders/label_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leafwright::guide {

namespace {

Labels::Label label_of(const Project& project, const PackingList& list, std::size_t index) {
  const orders::Parcel& parcel = list.parcels.parcels.at(index);
  const Order& order = project.run.orders.at(as_index(parcel.order));
  Labels::Label label;
  label.place = order.place;
  label.lines.push_back(breakable(order.name));
  for (const std::string_view line : address_lines(order)) label.lines.push_back(breakable(line));
  if (order.address.empty() && !order.region.empty())
    label.lines.push_back(breakable(order.region));
  std::vector<std::string> kits;
  for (const int one : together(list, parcel)) {
    const orders::Parcel& part = at(list.parcels.parcels, one);
    const std::string& tier = tier_at(project, at(list.parcels.kinds, part.kind).tier).name;
    kits.push_back(part.kits > 1 ? fmt::format("{}\u00A0× {}", part.kits, tier) : tier);
  }
  label.lines.push_back(fmt::format("{} · {}", parcel.box + 1, words::series(kits)));
  return label;
}

} // namespace

Document parcel_labels(const Project& project, const PackingList& list,
                       const ParcelOptions& options) {
  Document document = shop_document(project, "Labels", options.draft);
  const LabelSheet sheet = orders::label_sheet_of(project);
  Labels labels;
  labels.paper = sheet.paper;
  for (int i = 0; i < sheet.columns * sheet.rows; ++i)
    labels.boxes.push_back(orders::label_box(sheet, i));
  labels.first = sheet.first - 1;
  for (std::size_t i = 0; i < list.parcels.parcels.size(); ++i) {
    const orders::Parcel& parcel = list.parcels.parcels[i];
    const Order& order = at(project.run.orders, parcel.order);
    const bool leads = together(list, parcel).front() == static_cast<int>(i);
    if (leads && order.sent.empty() && !order.picked_up)
      labels.labels.push_back(label_of(project, list, i));
  }
  if (project.run.orders.empty())
    for (const supply::KitKind& kind : list.parcels.kinds) {
      const Tier& tier = project.tiers.at(as_index(kind.tier));
      if (tier.shipping == Tier::Shipping::None) continue;
      for (int kit = 1; kit <= kind.kits; ++kit)
        labels.labels.push_back(
            {{tier.name, project.title, fmt::format("{} of {}", kit, kind.kits)}, tier.place});
    }
  Section section{"labels", "Labels", {}};
  add(section, std::move(labels));
  document.sections.push_back(std::move(section));
  return document;
}

} // namespace leafwright::guide
