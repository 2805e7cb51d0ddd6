#include "basics/reuse.h"

#include <doctest/doctest.h>

#include <set>
#include <string>
#include <vector>

using namespace leafwright;

namespace {

template <class... Ts>
Fingerprint of(const Ts&... values) {
  return Fingerprinter().put(values...).result();
}

} // namespace

TEST_CASE("equal values have one fingerprint") {
  CHECK(of(inches(4), std::string("mat"), 1.5) == of(inches(4), std::string("mat"), 1.5));
}

TEST_CASE("order, borders between texts, emptiness and lengths of lists count") {
  CHECK(of(1, 2) != of(2, 1));
  CHECK(of(std::string("ab"), std::string("c")) != of(std::string("a"), std::string("bc")));
  CHECK(of(std::string()) != of());
  CHECK(of(std::string("a")) != of(std::string("a\0", 2)));
  CHECK(of(std::vector<int>{1}, std::vector<int>{2}) != of(std::vector<int>{1, 2}));
  CHECK(of(std::optional<int>()) != of(std::optional<int>(0)));
  CHECK(of(0.0) != of(-0.0));
  CHECK(of(Size{inches(4), inches(5)}) != of(Size{inches(5), inches(4)}));
}

TEST_CASE("hundreds of thousands of near values share neither half of their fingerprints") {
  std::set<std::uint64_t> high, low;
  std::size_t count = 0;
  for (std::int64_t x = 0; x < 500; ++x)
    for (std::int64_t y = 0; y < 400; ++y) {
      const Fingerprint one = of(Point{{x}, {y}});
      high.insert(one.high);
      low.insert(one.low);
      ++count;
    }
  CHECK(high.size() == count);
  CHECK(low.size() == count);
}
