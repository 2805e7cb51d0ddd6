#include "guide/figure/scene.h"

#include "guide/figure/frame.h"
#include "measure/print_length.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

using namespace leafwright;
using namespace leafwright::figure;

// Random scenes are laid out and the result is checked by geometry of its own: nothing here is
// shared with the code that places labels.

namespace {

const text::Fonts& fonts() {
  static const Parsed<text::Fonts> loaded =
      text::standard_fonts(std::string(LEAFWRIGHT_SOURCE_DIR) + "/fonts");
  return loaded.value();
}

Length pick(std::mt19937& random, int low_mm, int high_mm) {
  std::uniform_int_distribution<int> sixteenths(low_mm * 10 / 16, high_mm * 10 / 16);
  return inches(0, sixteenths(random), 16);
}

// A card with a few panels on it, each with its size and distances; some letters and names.
Scene random_scene(std::uint32_t number) {
  std::mt19937 random(number);
  const Printing printing;
  Scene scene;
  const Rect card{{}, {pick(random, 60, 150), pick(random, 60, 150)}};
  scene.box = card;
  scene.items.emplace_back(SceneFill{rectangle(card), {200, 180, 140}, 1.0});
  const int panels = 1 + static_cast<int>(random() % 8) * 3 / 8; // one to three
  for (int i = 0; i < panels; ++i) {
    const Length room_x = card.size.width - inches(0, 1, 2);
    const Length room_y = card.size.height - inches(0, 1, 2);
    const Length w = std::min(pick(random, 8, 90), room_x);
    const Length h = std::min(pick(random, 8, 90), room_y);
    const auto within = [&](Length free) {
      return Length{static_cast<std::int64_t>(random() % 1000) * free.nm / 1000};
    };
    const Rect panel{{within(card.size.width - w), within(card.size.height - h)}, {w, h}};
    const auto add = [&](Point from, Point to, bool gap) {
      const Length length = std::max(absolute(to.x - from.x), absolute(to.y - from.y));
      if (length < micrometres(500)) return;
      Dimension dimension;
      dimension.from = from;
      dimension.to = to;
      dimension.words = number_text(length, printing);
      dimension.rank = i;
      dimension.gap = gap;
      dimension.from_of = gap ? card : panel;
      dimension.to_of = panel;
      scene.dimensions.push_back(std::move(dimension));
    };
    add(panel.origin, {panel.right(), panel.top()}, false);
    add(panel.origin, {panel.left(), panel.bottom()}, false);
    add({card.left(), panel.centre().y}, {panel.left(), panel.centre().y}, true);
    add({panel.centre().x, card.top()}, {panel.centre().x, panel.top()}, true);
    if (random() % 2 == 0)
      scene.badges.push_back({std::string(1, static_cast<char>('A' + i)), panel.origin, panel});
    if (random() % 2 == 0) {
      Label label{{"striped panel", "cut to size"}, panel};
      label.outside = random() % 2 == 0;
      scene.labels.push_back(std::move(label));
    }
  }
  return scene;
}

constexpr Length hair = micrometres(2); // rounding of millimetres to nanometres and back

bool overlap_really(const Rect& a, const Rect& b) {
  return a.left() + hair < b.right() && b.left() + hair < a.right() &&
         a.top() + hair < b.bottom() && b.top() + hair < a.bottom();
}

bool line_enters(const LabelLine& line, const Rect& box) {
  constexpr int steps = 240; // by sampling, unlike the code under test
  for (int i = 0; i <= steps; ++i) {
    const Point p{line.from.x + (line.to.x - line.from.x) * i / steps,
                  line.from.y + (line.to.y - line.from.y) * i / steps};
    if (p.x > box.left() + hair && p.x < box.right() - hair && p.y > box.top() + hair &&
        p.y < box.bottom() - hair)
      return true;
  }
  return false;
}

struct Faults {
  int boxes = 0, lines = 0, outside = 0;
};

Faults faults_of(const Composed& composed) {
  Faults faults;
  const std::vector<Rect>& boxes = composed.label_boxes;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t k = i + 1; k < boxes.size(); ++k)
      if (overlap_really(boxes.at(i), boxes.at(k))) ++faults.boxes;
    const Rect page = grown({{}, composed.drawing.size}, hair);
    if (!page.contains(boxes.at(i))) ++faults.outside;
  }
  for (const LabelLine& line : composed.label_lines)
    for (std::size_t k = 0; k < boxes.size(); ++k)
      if (static_cast<int>(k) != line.label && line_enters(line, boxes.at(k))) ++faults.lines;
  return faults;
}

} // namespace

TEST_CASE("labels of two thousand random drawings never touch each other or each other's lines") {
  for (std::uint32_t number = 0; number < 2000; ++number) {
    const Composed composed =
        compose(random_scene(number), {millimetres(150), millimetres(160)}, 0.5, Look{}, fonts());
    const Faults faults = faults_of(composed);
    INFO("drawing " << number);
    CHECK(faults.boxes + faults.lines + faults.outside == 0);
  }
}

// Twelve sizes that interleave at random can be more than there is room for; no step has so many.
TEST_CASE("eight sizes and their names always find a place") {
  int seen = 0;
  for (std::uint32_t number = 0; number < 600; ++number) {
    const Scene scene = random_scene(number);
    if (scene.dimensions.size() > 8) continue;
    ++seen;
    INFO("drawing " << number);
    CHECK_FALSE(compose(scene, {millimetres(150), millimetres(160)}, 0.5, Look{}, fonts()).crowded);
  }
  CHECK(seen > 200);
}

TEST_CASE("a drawing fits the room it is given") {
  for (std::uint32_t number = 0; number < 60; ++number) {
    const Size room{millimetres(70), millimetres(80)};
    const Composed composed = compose(random_scene(number), room, 0, Look{}, fonts());
    INFO("drawing " << number);
    CHECK(composed.drawing.size.width <= room.width + hair);
    CHECK(composed.drawing.size.height <= room.height + hair);
  }
}

TEST_CASE("extension lines stand as far apart as the number between them says") {
  for (std::uint32_t number = 0; number < 300; ++number) {
    const Scene scene = random_scene(number);
    const Composed composed =
        compose(scene, {millimetres(150), millimetres(160)}, 0.5, Look{}, fonts());
    // The printed words of each label, in the order of their boxes.
    for (std::size_t label = 0; label < composed.label_boxes.size(); ++label) {
      std::vector<const LabelLine*> pair;
      for (const LabelLine& line : composed.label_lines)
        if (line.label == static_cast<int>(label) && line.kind == LabelLine::Kind::Extension)
          pair.push_back(&line);
      if (pair.size() != 2) continue;
      const bool upright = pair.at(0)->from.x == pair.at(0)->to.x;
      const Length apart = upright ? absolute(pair.at(1)->from.x - pair.at(0)->from.x)
                                   : absolute(pair.at(1)->from.y - pair.at(0)->from.y);
      const double real_nm = static_cast<double>(apart.nm) / composed.scale;
      const bool said = std::any_of(
          scene.dimensions.begin(), scene.dimensions.end(), [&](const Dimension& dimension) {
            const Length length = std::max(absolute(dimension.to.x - dimension.from.x),
                                           absolute(dimension.to.y - dimension.from.y));
            return std::abs(static_cast<double>(length.nm) - real_nm) < 40'000; // nm, of rounding
          });
      INFO("drawing " << number << ", label " << label);
      CHECK(said);
    }
  }
}

TEST_CASE("a size is never measured across the thing it measures") {
  Scene scene;
  const Rect card{{}, {inches(4), inches(5)}};
  scene.box = card;
  scene.items.emplace_back(SceneFill{rectangle(card), {200, 180, 140}, 1.0});
  scene.dimensions.push_back({{}, {inches(4), {}}, "4"});
  scene.dimensions.push_back({{}, {{}, inches(5)}, "5"});
  const Composed composed = compose(scene, {millimetres(80), millimetres(80)}, 0, Look{}, fonts());
  const Rect object{composed.object_origin,
                    {from_nm(static_cast<double>(card.size.width.nm) * composed.scale),
                     from_nm(static_cast<double>(card.size.height.nm) * composed.scale)}};
  REQUIRE(composed.label_boxes.size() == 2);
  for (const Rect& box : composed.label_boxes) CHECK_FALSE(overlap_really(box, object));
  for (const LabelLine& line : composed.label_lines) CHECK_FALSE(line_enters(line, object));
}

TEST_CASE("what cannot be placed is left out and said") {
  Scene scene;
  scene.box = {{}, {millimetres(40), millimetres(40)}};
  scene.items.emplace_back(SceneFill{rectangle(scene.box), {200, 180, 140}, 1.0});
  scene.fixed_scale = 1.0;
  scene.labels.push_back({{"a name far too long for the room that there is"}, scene.box, true});
  const Composed composed = compose(scene, {millimetres(42), millimetres(42)}, 0, Look{}, fonts());
  CHECK(composed.crowded);
  CHECK(composed.label_boxes.empty());
}

TEST_CASE("the same scene is drawn the same way twice") {
  const Scene scene = random_scene(7);
  const Size room{millimetres(90), millimetres(110)};
  const Composed once = compose(scene, room, 0, Look{}, fonts());
  const Composed again = compose(scene, room, 0, Look{}, fonts());
  CHECK(once.label_boxes == again.label_boxes);
  CHECK(once.drawing.items.size() == again.drawing.items.size());
}
