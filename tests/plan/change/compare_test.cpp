#include "support.h"

#include <random>

using namespace leafwright;
using namespace leafwright::change;
using leafwright::test::worked;

TEST_CASE("a project is no different from itself") {
  for (const char* sample : {"five-minute", "kelp-lantern", "orchard-gate"}) {
    CAPTURE(sample);
    const auto a = worked(sample);
    const Comparison same = compare(a.edition(), a.edition());
    CHECK(same.empty());
    CHECK(same.same.size() == facts_of(a.reading.project).size());
  }
}

TEST_CASE("one size moves what hangs on it and leaves the rest") {
  const auto a = worked("orchard-gate");
  const auto b = worked("orchard-gate", {"trees/scene.size=3 x 3"});
  const Comparison changed = compare(a.edition(), b.edition());
  bool scene = false;
  for (const ThingChange& thing : changed.things) {
    CHECK(thing.now().key.substr(0, 5) == "trees"); // no other card, no supply, no tier
    if (thing.now().key != "trees/scene") continue;
    scene = true;
    const FactChange* size = thing.find("size");
    REQUIRE(size);
    CHECK(*size->before == FactValue{Size{inches(3, 1, 4), inches(3, 1, 4)}});
    CHECK(*size->after == FactValue{Size{inches(3), inches(3)}});
  }
  CHECK(scene);
}

TEST_CASE("what comes in one direction goes in the other") {
  const auto a = worked("orchard-gate");
  const auto b = worked("orchard-gate", {"trees/scene.size=3 x 3", "full.price=80.00"});
  const auto there = differences(facts_of(a.reading.project), facts_of(b.reading.project), nullptr);
  const auto back = differences(facts_of(b.reading.project), facts_of(a.reading.project), nullptr);
  REQUIRE(there.size() == back.size());
  for (std::size_t i = 0; i < there.size(); ++i) {
    REQUIRE(there[i].facts.size() == back[i].facts.size());
    for (std::size_t f = 0; f < there[i].facts.size(); ++f) {
      CHECK(there[i].facts[f].before == back[i].facts[f].after);
      CHECK(there[i].facts[f].after == back[i].facts[f].before);
    }
  }
}

TEST_CASE("a price moves the cost and no sheet") {
  const auto a = worked("orchard-gate");
  const auto b = worked("orchard-gate", {"cream.price=12.00"});
  const Comparison changed = compare(a.edition(), b.edition());
  CHECK(changed.total_before != changed.total_after);
  for (const SheetCounts& one : changed.sheets) {
    CHECK_FALSE(one.kit.moved());
    CHECK_FALSE(one.run.moved());
  }
}

TEST_CASE("a rule that begins to speak is new, and gone the other way round") {
  auto a = worked("orchard-gate");
  auto b = worked("orchard-gate", {"trees/scene.size=5 x 3"});
  for (auto* one : {&a, &b}) {
    const Findings found = fit::check(one->reading.project, &one->kit);
    one->reading.findings.insert(one->reading.findings.end(), found.begin(), found.end());
  }
  const auto count = [](const Comparison& comparison, bool gone) {
    std::size_t n = 0;
    for (const FindingChange& one : comparison.findings) n += one.gone == gone;
    return n;
  };
  const Comparison there = compare(a.edition(), b.edition());
  const Comparison back = compare(b.edition(), a.edition());
  CHECK(count(there, false) > 0);
  CHECK(count(there, false) == count(back, true));
}
