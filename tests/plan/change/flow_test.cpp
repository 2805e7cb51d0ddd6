#include "plan/change/internal/share_piles.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <random>

using namespace leafwright::change;

TEST_CASE("a pile gives way where that serves more") {
  // The first pile could serve either want, the second only the first.
  const auto taken = share_piles({5, 5}, {5, 5}, {{0, 0, 10}, {0, 1, 9}, {1, 0, 9}});
  CHECK(taken == std::vector<std::int64_t>{0, 5, 5});
}

TEST_CASE("sharing out is best: agrees with trying everything") {
  std::mt19937 random(3); // NOLINT(*-msc51-cpp): the same tries each time
  for (int round = 0; round < 200; ++round) {
    std::vector<std::int64_t> piles, wants;
    for (int i = 0; i < 3; ++i) piles.push_back(static_cast<std::int64_t>(random() % 4));
    for (int i = 0; i < 3; ++i) wants.push_back(static_cast<std::int64_t>(random() % 4));
    std::vector<Arc> arcs;
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j)
        if (random() % 3 != 0 && arcs.size() < 6)
          arcs.push_back({i, j, 1 + static_cast<std::int64_t>(random() % 9)});
    std::int64_t best = 0;
    std::vector<std::int64_t> left = piles, open = wants;
    const std::function<void(std::size_t, std::int64_t)> attempt = [&](std::size_t a,
                                                                       std::int64_t gain) {
      best = std::max(best, gain);
      if (a == arcs.size()) return;
      auto& pile = left[static_cast<std::size_t>(arcs[a].pile)];
      auto& want = open[static_cast<std::size_t>(arcs[a].want)];
      const std::int64_t most = std::min(pile, want);
      for (std::int64_t n = 0; n <= most; ++n) {
        pile -= n, want -= n;
        attempt(a + 1, gain + n * arcs[a].gain);
        pile += n, want += n;
      }
    };
    attempt(0, 0);
    std::int64_t got = 0;
    const auto taken = share_piles(piles, wants, arcs);
    for (std::size_t a = 0; a < arcs.size(); ++a) got += taken[a] * arcs[a].gain;
    CAPTURE(round);
    CHECK(got == best);
  }
}
