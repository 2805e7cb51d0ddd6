#include "model/shared_parcel.h"

#include "measure/index.h"
#include "measure/letters.h"

#include <cstddef>
#include <map>
#include <string>
#include <tuple>

namespace leafwright {

bool is_posted(const Project& project, const Order& order) {
  const Tier* tier = find_at(project.tiers, order.tier);
  return tier != nullptr && tier->shipping != Tier::Shipping::None && !order.picked_up;
}

std::vector<int> shared_parcels(const Project& project) {
  const std::vector<Order>& orders = project.run.orders;
  std::map<std::string, int> by_word;
  std::map<std::tuple<int, int, int>, int> by_row;
  std::vector<int> firsts;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const Order& order = orders[i];
    const int self = static_cast<int>(i);
    firsts.push_back(self);
    if (!is_posted(project, order)) continue;
    if (const std::string word = small_letters(trimmed(order.parcel)); !word.empty())
      firsts.back() = by_word.try_emplace(word, self).first->second;
    else if (order.place.line > 0)
      firsts.back() =
          by_row.try_emplace({order.place.file, order.place.line, order.place.column}, self)
              .first->second;
  }
  return firsts;
}

} // namespace leafwright
