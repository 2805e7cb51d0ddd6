#include "plan/spool/spool.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <random>

using namespace leafwright;
using namespace leafwright::spool;

namespace {

Job job_of(int spool, std::vector<std::pair<int, int>> cuts, std::vector<int> rests = {}) {
  Job job;
  job.spool = inches(spool);
  for (const auto& [length, count] : cuts) job.cuts.push_back({inches(length), count});
  for (const int rest : rests) job.rests.push_back(inches(rest));
  return job;
}

// Every cut is there, none spans two spools, and the rests are used once each.
void check(const Job& job, const Plan& plan) {
  std::map<Length, std::int64_t> wanted, got;
  for (const Cut& cut : job.cuts) wanted[cut.length] += cut.count;
  std::vector<int> rests_used;
  std::int64_t spools = 0;
  for (const Reel& reel : plan.reels) {
    Length used{};
    for (const Cut& cut : reel.cuts) {
      used += cut.length * cut.count;
      got[cut.length] += cut.count * reel.times;
    }
    const Length room =
        reel.rest < 0 ? job.spool : job.rests.at(static_cast<std::size_t>(reel.rest));
    CHECK(used + reel.left == room);
    CHECK(reel.left >= Length{});
    if (reel.rest >= 0) {
      CHECK(reel.times == 1);
      rests_used.push_back(reel.rest);
    } else {
      spools += reel.times;
    }
  }
  for (const Cut& cut : plan.impossible) got[cut.length] += cut.count;
  CHECK(got == wanted);
  CHECK(spools == plan.spools);
  std::sort(rests_used.begin(), rests_used.end());
  CHECK(std::adjacent_find(rests_used.begin(), rests_used.end()) == rests_used.end());
  CHECK(plan.at_least <= plan.spools);
}

// Tries every spool for every piece, one piece after the other.
int by_force(const std::vector<int>& pieces, int spool, const std::vector<int>& rests) {
  int best = static_cast<int>(pieces.size());
  std::vector<int> room = rests;
  const std::size_t old = rests.size();
  const std::function<void(std::size_t)> put = [&](std::size_t i) {
    if (static_cast<int>(room.size() - old) >= best) return;
    if (i == pieces.size()) {
      best = static_cast<int>(room.size() - old);
      return;
    }
    for (std::size_t r = 0; r < room.size(); ++r) {
      if (room[r] < pieces[i]) continue;
      room[r] -= pieces[i];
      put(i + 1);
      room[r] += pieces[i];
    }
    room.push_back(spool - pieces[i]);
    put(i + 1);
    room.pop_back();
  };
  put(0);
  return best;
}

} // namespace

TEST_CASE("a piece never spans two spools, so length alone does not tell how many are needed") {
  // By hand: 60 in holds two pieces of 24 in; nine pieces are 216 in = 3.6 spools, but five are
  // needed.
  const Job job = job_of(60, {{24, 9}});
  const Plan plan = spool::plan(job);
  check(job, plan);
  CHECK(plan.spools == 5);
  CHECK(plan.proven);
}

TEST_CASE("rests in hand are used before a new spool is begun") {
  // By hand: 90 in gives three pieces of 24 in, and one new spool of 360 in the other fifteen.
  const Job job = job_of(360, {{24, 18}}, {90});
  const Plan plan = spool::plan(job);
  check(job, plan);
  CHECK(plan.spools == 1);
  REQUIRE(plan.reels.size() == 2);
  CHECK(plan.reels[0].rest == 0);
  CHECK(plan.reels[0].left == inches(18));
}

TEST_CASE("short pieces fill what long ones leave") {
  // By hand: 7 + 3 = 10 six times; longest-first into the first room does as well.
  const Job job = job_of(10, {{7, 6}, {3, 6}});
  const Plan plan = spool::plan(job);
  check(job, plan);
  CHECK(plan.spools == 6);
  CHECK(plan.proven);
}

TEST_CASE("where longest-first wastes a spool the search finds the better way") {
  // Bin packing folklore: 6 5 4 3 3 3 3 3 ... into 10: 4+3+3 and 5+... By hand: 12 = 6+6 = 5+4+3 =
  // 4+4+4.
  const Job job = job_of(12, {{6, 1}, {5, 2}, {4, 2}, {3, 2}});
  const Plan plan = spool::plan(job);
  check(job, plan);
  CHECK(plan.spools == 3); // 30 in of pieces in 36 in
  CHECK(plan.proven);
}

TEST_CASE("a piece longer than the spool is told and stops nothing else") {
  const Job job = job_of(36, {{40, 2}, {12, 3}});
  const Plan plan = spool::plan(job);
  check(job, plan);
  REQUIRE(plan.impossible.size() == 1);
  CHECK(plan.impossible[0].length == inches(40));
  CHECK(plan.impossible[0].count == 2);
  CHECK(plan.spools == 1);
}

TEST_CASE("nothing to cut needs no spool") {
  const Plan plan = spool::plan(job_of(36, {}));
  CHECK(plan.spools == 0);
  CHECK(plan.proven);
}

TEST_CASE("ten thousand pieces of one length are planned at once") {
  const Plan plan = spool::plan(job_of(360, {{7, 10'000}}));
  CHECK(plan.spools == 197); // 51 to a spool
  CHECK(plan.proven);
}

TEST_CASE("as few spools as trying everything finds") {
  std::mt19937 random(20'270'302);
  for (int round = 0; round < 400; ++round) {
    const int spool = 10 + static_cast<int>(random() % 30);
    std::vector<int> pieces, rests;
    const auto count = 1 + random() % 8;
    for (std::size_t i = 0; i < count; ++i)
      pieces.push_back(1 + static_cast<int>(random() % static_cast<unsigned>(spool)));
    for (auto n = random() % 3; n > 0; --n)
      rests.push_back(1 + static_cast<int>(random() % static_cast<unsigned>(spool)));
    std::sort(pieces.rbegin(), pieces.rend());
    Job job = job_of(spool, {}, rests);
    for (const int piece : pieces) job.cuts.push_back({inches(piece), 1});
    const Plan plan = spool::plan(job);
    check(job, plan);
    CHECK(plan.proven);
    CHECK(plan.spools == by_force(pieces, spool, rests));
    CHECK(spools_at_least(job) <= plan.spools);
  }
}

TEST_CASE("class-size ribbon jobs are proven, or within one spool of their bound") {
  // Lengths as they come in card sets: sixteenths of an inch, up to half a spool, many of each.
  std::mt19937 random(77);
  int proven = 0;
  constexpr int jobs = 300;
  for (int round = 0; round < jobs; ++round) {
    Job job;
    job.spool = inches(std::vector<int>{108, 180, 360, 720}.at(random() % 4));
    const auto lengths = 1 + random() % 8;
    for (std::size_t i = 0; i < lengths; ++i)
      job.cuts.push_back({inches(0, 32 + static_cast<int>(random() % 700), 16),
                          1 + static_cast<int>(random() % 60)});
    if (random() % 2 == 0) job.rests.push_back(inches(5 + static_cast<int>(random() % 90)));
    const Plan plan = spool::plan(job);
    check(job, plan);
    proven += plan.proven ? 1 : 0;
    CHECK(plan.spools - plan.at_least <= 1);
  }
  CHECK(proven >= jobs * 99 / 100); // the rest: within one spool of the bound
}
