#include "guide/change/report.h"

#include <algorithm>

namespace leafwright::guide {

std::vector<std::optional<std::size_t>> aligned(const std::vector<std::string>& a,
                                                const std::vector<std::string>& b) {
  std::vector<std::optional<std::size_t>> partner(b.size());
  // Equal heads and tails first: mostly little differs, and the table is their product.
  std::size_t head = 0;
  while (head < a.size() && head < b.size() && a[head] == b[head]) partner[head] = head, ++head;
  std::size_t tail = 0;
  while (tail < a.size() - head && tail < b.size() - head &&
         a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
    partner[b.size() - 1 - tail] = a.size() - 1 - tail;
    ++tail;
  }
  const std::size_t n = a.size() - head - tail, m = b.size() - head - tail;
  std::vector<std::vector<int>> best(n + 1, std::vector<int>(m + 1, 0));
  for (std::size_t i = n; i-- > 0;)
    for (std::size_t j = m; j-- > 0;)
      best[i][j] = a[head + i] == b[head + j] ? best[i + 1][j + 1] + 1
                                              : std::max(best[i + 1][j], best[i][j + 1]);
  for (std::size_t i = 0, j = 0; i < n && j < m;) {
    if (a[head + i] == b[head + j])
      partner[head + j++] = head + i++;
    else if (best[i + 1][j] >= best[i][j + 1])
      ++i;
    else
      ++j;
  }
  return partner;
}

} // namespace leafwright::guide
