#include "plan/cut/internal/enumerate.h"
#include "plan/cut/internal/inside.h"
#include "small_exact.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <set>

using namespace leafwright::cut;

namespace {

std::vector<OrientedType> shapes_of(const Job& job) {
  std::vector<OrientedType> shapes;
  const SheetType& s = job.sheets.front();
  for (std::size_t i = 0; i < job.pieces.size(); ++i) {
    const PieceType& p = job.pieces[i];
    const int w = static_cast<int>(p.width);
    const int h = static_cast<int>(p.height);
    if (w <= s.width && h <= s.height) shapes.push_back({w, h, static_cast<int>(i), false});
    if (p.may_turn && w != h && h <= s.width && w <= s.height) {
      shapes.push_back({h, w, static_cast<int>(i), true});
    }
  }
  return shapes;
}

Job random_job(std::uint64_t number) {
  std::mt19937_64 random(number);
  const auto from = [&](std::int64_t least, std::int64_t most) {
    return least +
           static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(most - least + 1));
  };
  Job job;
  job.sheets.push_back({"s", from(8, 12), from(8, 12), 1, {}, true});
  for (int t = 0; t < 3; ++t) {
    job.pieces.push_back({"p", from(2, 7), from(2, 7), from(1, 3), from(0, 1) == 1});
  }
  return job;
}

std::vector<std::int64_t> wanted_of(const Job& job) {
  std::vector<std::int64_t> wanted;
  for (const PieceType& p : job.pieces) wanted.push_back(p.copies);
  return wanted;
}

} // namespace

TEST_CASE("the knapsack finds the published optimum of gcut1, fixed and turned") {
  // Sizes: Beasley 1985, OR-Library file gcut1. Optima: Cintra, table of unconstrained results.
  const int sizes[10][2] = {{167, 184}, {114, 118}, {167, 152}, {83, 140}, {70, 86},
                            {143, 166}, {120, 160}, {66, 148},  {87, 141}, {69, 165}};
  Job job;
  job.sheets.push_back({"s", 250, 250, 1, {}, true});
  std::vector<Value> value;
  for (const auto& size : sizes) {
    job.pieces.push_back({"p", size[0], size[1], 100, false});
    value.push_back(size[0] * size[1]);
  }
  const std::vector<std::int64_t> wanted = wanted_of(job);
  const Inside fixed(250, 250, shapes_of(job), wanted, value, 0);
  for (PieceType& p : job.pieces) p.may_turn = true;
  const Inside turned(250, 250, shapes_of(job), wanted, value, 0);
  CHECK(fixed.best() == 56460);
  CHECK(turned.best() == 58136);
}

TEST_CASE("the knapsack is never below any set that brute force can cut") {
  for (std::uint64_t number = 1; number <= 60; ++number) {
    const Job job = random_job(number);
    std::mt19937_64 random(number + 500);
    std::vector<Value> value;
    for (std::size_t t = 0; t < job.pieces.size(); ++t) {
      value.push_back(static_cast<Value>(1 + random() % 50));
    }
    const SheetType& s = job.sheets.front();
    const Inside inside(static_cast<int>(s.width), static_cast<int>(s.height), shapes_of(job),
                        wanted_of(job), value, 0);
    std::int64_t best = 0;
    for (const exact::Set& set : exact::yields(job, 0)) {
      std::int64_t sum = 0;
      for (std::size_t t = 0; t < set.size(); ++t) sum += std::int64_t{set[t]} * value[t];
      best = std::max(best, sum);
    }
    CAPTURE(number);
    CHECK(inside.best() >= best);
    std::int64_t traced = 0;
    const Slice slice = inside.pattern();
    for (const auto& [type, copies] : counts_of(slice)) {
      traced += std::int64_t{copies} * value[static_cast<std::size_t>(type)];
    }
    CHECK(traced == inside.best());
    REQUIRE_FALSE(slice.empty());
    CHECK(slice.nodes.back().width <= s.width);
    CHECK(slice.nodes.back().height <= s.height);
  }
}

TEST_CASE("a thinned grid never promises more than the exact one") {
  for (std::uint64_t number = 1; number <= 20; ++number) {
    std::mt19937_64 random(number);
    std::vector<OrientedType> shapes;
    std::vector<Value> value;
    for (int t = 0; t < 8; ++t) {
      shapes.push_back(
          {static_cast<int>(20 + random() % 80), static_cast<int>(20 + random() % 80), t, false});
      value.push_back(static_cast<Value>(1 + random() % 1000));
    }
    const std::vector<std::int64_t> wanted(8, 50);
    const Inside exact(300, 280, shapes, wanted, value, 0);
    const Inside thin(300, 280, shapes, wanted, value, 40);
    CHECK(thin.best() <= exact.best());
    CHECK_FALSE(thin.exact());
    CHECK(thin.best() > 0);
  }
}

TEST_CASE("the list of patterns holds every maximal set of brute force") {
  for (std::uint64_t number = 1; number <= 60; ++number) {
    const Job job = random_job(number);
    const SheetType& s = job.sheets.front();
    std::mt19937_64 random(number + 900);
    std::vector<Value> value;
    for (std::size_t t = 0; t < job.pieces.size(); ++t) {
      value.push_back(static_cast<Value>(1 + random() % 50));
    }
    const std::vector<OrientedType> shapes = shapes_of(job);
    const std::vector<std::int64_t> wanted = wanted_of(job);
    const Inside inside(static_cast<int>(s.width), static_cast<int>(s.height), shapes, wanted,
                        value, 0);
    const std::int64_t least = inside.best() * 2 / 3;
    const Enumeration found =
        enumerate(inside, Outside(inside), shapes, wanted, value, least, 100000);
    CAPTURE(number);
    REQUIRE(found.complete);
    std::set<exact::Set> listed;
    const std::set<exact::Set> all = exact::yields(job, 0);
    for (const Slice& slice : found.slices) {
      exact::Set set(job.pieces.size(), 0);
      for (const auto& [type, copies] : counts_of(slice)) {
        set[static_cast<std::size_t>(type)] = copies;
      }
      CHECK(all.count(set) == 1);
      listed.insert(set);
    }
    for (const exact::Set& set : all) {
      std::int64_t sum = 0;
      for (std::size_t t = 0; t < set.size(); ++t) sum += std::int64_t{set[t]} * value[t];
      if (sum < least) continue;
      const bool contained =
          std::any_of(listed.begin(), listed.end(), [&](const exact::Set& other) {
            bool all_of = true;
            for (std::size_t t = 0; t < set.size(); ++t) all_of = all_of && other[t] >= set[t];
            return all_of;
          });
      CHECK(contained);
    }
  }
}
