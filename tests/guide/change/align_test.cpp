#include "guide/change/report.h"

#include <doctest/doctest.h>

#include <random>

using leafwright::guide::aligned;

namespace {

using Words = std::vector<std::string>;

// The length of the longest common run of two short lists, by trying every choice.
std::size_t longest_by_trying(const Words& a, const Words& b) {
  std::size_t best = 0;
  for (unsigned chosen = 0; chosen < 1U << a.size(); ++chosen) {
    std::size_t at = 0, taken = 0;
    bool all = true;
    for (std::size_t i = 0; i < a.size() && all; ++i) {
      if ((chosen >> i & 1U) == 0) continue;
      while (at < b.size() && b[at] != a[i]) ++at;
      all = at++ < b.size();
      ++taken;
    }
    if (all) best = std::max(best, taken);
  }
  return best;
}

} // namespace

TEST_CASE("what stands in both lists is paired in order") {
  const auto partner = aligned({"fold", "tape", "stamp", "glue"}, {"fold", "ink", "stamp", "glue"});
  REQUIRE(partner.size() == 4);
  CHECK(partner[0] == 0);
  CHECK_FALSE(partner[1]);
  CHECK(partner[2] == 2);
  CHECK(partner[3] == 3);
}

TEST_CASE("an entry that is repeated is paired once each") {
  const auto partner = aligned({"a", "a"}, {"a", "a", "a"});
  std::size_t pairs = 0;
  for (const auto& one : partner) pairs += one.has_value();
  CHECK(pairs == 2);
}

TEST_CASE("pairs never cross, are alike, and are as many as can be") {
  std::mt19937 random(2); // NOLINT(*-msc51-cpp): the same lists each time
  for (int round = 0; round < 300; ++round) {
    Words a(random() % 8), b(random() % 8);
    for (Words* list : {&a, &b})
      for (std::string& one : *list) one = std::string(1, static_cast<char>('a' + random() % 3));
    const auto partner = aligned(a, b);
    REQUIRE(partner.size() == b.size());
    std::size_t pairs = 0;
    std::optional<std::size_t> before;
    for (std::size_t j = 0; j < b.size(); ++j) {
      if (!partner[j]) continue;
      ++pairs;
      REQUIRE(*partner[j] < a.size());
      CHECK(a[*partner[j]] == b[j]);
      if (before) CHECK(*before < *partner[j]);
      before = partner[j];
    }
    CHECK(pairs == longest_by_trying(a, b));
  }
}
