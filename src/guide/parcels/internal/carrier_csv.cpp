#include "guide/parcels/internal/parcel_words.h"
#include "guide/parcels/parcel_documents.h"
#include "language/countries.h"
#include "language/lists.h"
#include "measure/index.h"
#include "plan/tier/account.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leafwright::guide {

namespace {

constexpr std::size_t most_lines = 4;

struct SplitAddress {
  std::array<std::string, most_lines> lines; // what is beyond the last stands in it
  const words::Country* country = nullptr;
};

// Only a last line, or a region, that is a country's own name or code is taken for one.
SplitAddress split_address(const Order& order) {
  const std::vector<std::string_view> written = address_lines(order);
  std::vector<std::string> lines(written.begin(), written.end());
  SplitAddress split;
  if (lines.size() > 1) split.country = words::country_of(lines.back());
  if (split.country != nullptr) lines.pop_back();
  if (split.country == nullptr) split.country = words::country_of(order.region);
  for (std::size_t i = 0; i + 1 < most_lines && i < lines.size(); ++i) split.lines[i] = lines[i];
  if (lines.size() >= most_lines)
    split.lines.back() = words::series({lines.begin() + std::ssize(split.lines) - 1, lines.end()});
  return split;
}

} // namespace

std::string carrier_csv(const Project& project, const PackingList& list) {
  std::string csv =
      records::csv_row({"parcel", "name", "line_1", "line_2", "line_3", "line_4", "country",
                        "country_code", "e-mail", "grams", "contents", "value", "currency"});
  const std::vector<tiers::Sale> sales = tiers::sales_by_order(project);
  for (std::size_t box = 0; box < list.parcels.boxes.size(); ++box) {
    const orders::Parcel& lead = at(list.parcels.parcels, list.parcels.boxes[box].front());
    const Order& order = at(project.run.orders, lead.order);
    if (!order.sent.empty() || order.picked_up) continue;
    std::vector<std::string> contents;
    Money value{0, project.currency};
    for (const int one : list.parcels.boxes[box]) {
      const orders::Parcel& part = at(list.parcels.parcels, one);
      contents.push_back(fmt::format(
          "{} x {}", part.kits, tier_at(project, at(project.run.orders, part.order).tier).name));
      value = value + tiers::terms_of(project, at(sales, part.order)).price;
    }
    const SplitAddress address = split_address(order);
    const auto country = [&](std::string_view words::Country::*part) {
      return address.country == nullptr ? std::string() : std::string(address.country->*part);
    };
    csv += records::csv_row(
        {std::to_string(box + 1), order.name, address.lines[0], address.lines[1], address.lines[2],
         address.lines[3], country(&words::Country::name), country(&words::Country::code),
         order.email, std::to_string(orders::grams_of(box_mass(project, list, lead))),
         words::series(contents), records::amount_text(value), std::string(project.currency.code)});
  }
  return csv;
}

} // namespace leafwright::guide
