#include "guide/change/internal/content_fingerprint.h"
#include "guide/prose.h"
#include "two_editions.h"

#include <algorithm>

using namespace leafwright;
using namespace leafwright::guide;

namespace {

std::vector<const Step*> steps_of(const Document& document, std::string_view section) {
  std::vector<const Step*> steps;
  for (const Section& one : document.sections)
    for (const Block& block : one.blocks)
      if (const auto* run = std::get_if<Steps>(&block.what); run && one.name == section)
        for (const Step& step : run->steps) steps.push_back(&step);
  return steps;
}

Steps& first_steps(Document& document, std::string_view section) {
  for (Section& one : document.sections)
    for (Block& block : one.blocks)
      if (auto* run = std::get_if<Steps>(&block.what); run && one.name == section) return *run;
  FAIL("no steps");
  static Steps none;
  return none;
}

} // namespace

TEST_CASE("a document does not differ from itself") {
  const test::Edition a = test::edition();
  CHECK(step_changes(a.tutorial, a.tutorial).empty());
  CHECK(full_size_changes(a.tutorial, a.tutorial).empty());
  Document marked = a.tutorial;
  mark_changes(marked, a.tutorial);
  for (const Section& section : marked.sections)
    for (const Block& block : section.blocks) CHECK_FALSE(block.changed);
}

TEST_CASE("a size changes the steps that say or show it, of its card alone") {
  const test::Edition a = test::edition(), b = test::edition({"trees/scene.size=3 x 3"});
  const auto changes = step_changes(a.tutorial, b.tutorial);
  REQUIRE_FALSE(changes.empty());
  for (const StepChange& one : changes) {
    CHECK(one.section == "card-trees");
    CHECK(one.how == StepChange::How::Changed);
    const bool either = one.words || one.drawing;
    CHECK(either);
  }
  CHECK(std::any_of(changes.begin(), changes.end(), [](const auto& one) { return one.words; }));
}

TEST_CASE("a step put in is new, and those behind it are still themselves") {
  const test::Edition a = test::edition();
  Document longer = a.tutorial;
  Steps& steps = first_steps(longer, "card-gate");
  Step extra;
  extra.title = "Let it dry";
  extra.text = {plain("Go and have some tea.")};
  steps.steps.insert(steps.steps.begin() + 2, extra);
  const auto there = step_changes(a.tutorial, longer);
  REQUIRE(there.size() == 1);
  CHECK(there.front().how == StepChange::How::Added);
  CHECK(there.front().title == "Let it dry");
  const auto back = step_changes(longer, a.tutorial);
  REQUIRE(back.size() == 1);
  CHECK(back.front().how == StepChange::How::Gone);
  CHECK(back.front().title_before == "Let it dry");
}

TEST_CASE("a step that is said otherwise under another title is one that changed") {
  const test::Edition a = test::edition();
  Document other = a.tutorial;
  Step& step = first_steps(other, "card-gate").steps.at(1);
  const std::string was = step.title;
  step.title = "Something else";
  const auto changes = step_changes(a.tutorial, other);
  REQUIRE(changes.size() == 1);
  CHECK(changes.front().how == StepChange::How::Changed);
  CHECK(changes.front().title_before == was);
  CHECK(changes.front().words);
  CHECK_FALSE(changes.front().drawing);
}

TEST_CASE("marks stand at what changed and nowhere else") {
  const test::Edition a = test::edition();
  Document now = a.tutorial;
  first_steps(now, "card-window").steps.at(0).title = "Begin otherwise";
  mark_changes(now, a.tutorial);
  for (const Section& section : now.sections) {
    const auto steps = steps_of(now, section.name);
    for (std::size_t i = 0; i < steps.size(); ++i) {
      CAPTURE(section.name);
      CAPTURE(i);
      CHECK(steps[i]->changed == (section.name == "card-window" && i == 0));
    }
  }
}

TEST_CASE("only a new outline asks for a new full-size drawing") {
  const test::Edition a = test::edition();
  CHECK(full_size_changes(a.tutorial, test::edition({"full.price=80.00"}).tutorial).empty());
  const auto changes =
      full_size_changes(a.tutorial, test::edition({"apple-die.size=1 1/2 x 1 1/2"}).tutorial);
  CHECK_FALSE(changes.empty());
}

TEST_CASE("drawings are told apart by shape, place, colour and words") {
  figure::Scene scene;
  scene.box = {{}, {inches(2), inches(2)}};
  scene.items.emplace_back(
      figure::SceneFill{{{Segment::Kind::Move, {}, {}, {inches(1), inches(1)}}}, {1, 2, 3}, 1.0});
  scene.labels.push_back({{"mat"}, {}});
  const std::string was = fingerprint(scene);
  CHECK(fingerprint(figure::Scene(scene)) == was);
  const auto differs = [&](auto change) {
    figure::Scene other = scene;
    change(other);
    return fingerprint(other) != was;
  };
  CHECK(differs([](auto& s) { s.box.size.width += micrometres(1); }));
  CHECK(differs([](auto& s) { std::get<figure::SceneFill>(s.items[0]).colour.red = 2; }));
  CHECK(differs([](auto& s) { std::get<figure::SceneFill>(s.items[0]).path[0].end.x += {1}; }));
  CHECK(differs([](auto& s) { s.labels[0].lines[0] = "band"; }));
  CHECK(differs([](auto& s) { s.items.emplace_back(figure::SceneUnclip{}); }));
}
