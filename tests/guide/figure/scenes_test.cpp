#include "step_of.h"

#include "guide/figure/frame.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <regex>
#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::figure;

namespace {

const text::Fonts& scene_fonts() {
  static const Parsed<text::Fonts> loaded =
      text::standard_fonts(std::string(LEAFWRIGHT_SOURCE_DIR) + "/fonts");
  return loaded.value();
}

const Project& orchard() {
  static const Reading reading =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/orchard-gate/project.xml");
  return reading.project;
}
const Project& kelp() {
  static const Reading reading =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/kelp-lantern/project.xml");
  return reading.project;
}

std::vector<Scene> all_scenes(const Project& project) {
  std::vector<Scene> scenes;
  for (const Card& card : project.cards) {
    for (const View view : {View::Front, View::Inside, View::Back}) {
      scenes.push_back(finished(project, card, view));
      scenes.push_back(exploded(project, card, view));
      scenes.push_back(placement_template(project, card, view));
    }
    scenes.push_back(finished_envelope(project, card));
    for (std::size_t i = 0; i < card.build.size(); ++i) scenes.push_back(step_of(project, card, i));
    for (std::size_t i = 0; i < card.pieces.size(); ++i) {
      scenes.push_back(piece(project, card, i));
      scenes.push_back(shape_template(project, card, i));
      scenes.push_back(score_gauge(project, card, i));
    }
  }
  const supply::CuttingPlan plan = supply::sheets_for(project);
  for (const supply::StockSheets& stock : plan.stocks)
    for (const supply::SheetLayout& layout : stock.layouts)
      scenes.push_back(sheet(project, plan, layout));
  scenes.push_back(scale_bar(project));
  std::erase_if(scenes, [](const Scene& scene) { return scene.items.empty(); });
  return scenes;
}

std::size_t build_of(const Card& card, const std::string& id) {
  for (std::size_t i = 0; i < card.build.size(); ++i) {
    const Build& build = card.build.at(i);
    if (build.kind == Build::Kind::Piece &&
        card.pieces.at(static_cast<std::size_t>(build.index)).id == id)
      return i;
  }
  return card.build.size();
}

std::vector<std::string> words_of(const Scene& scene) {
  std::vector<std::string> words;
  for (const Dimension& dimension : scene.dimensions) words.push_back(dimension.words);
  std::sort(words.begin(), words.end());
  return words;
}

} // namespace

TEST_CASE("every number of every drawing of the samples is the length that it stands for") {
  for (const Project* project : {&orchard(), &kelp()})
    for (const Scene& scene : all_scenes(*project))
      for (const Dimension& dimension : scene.dimensions) {
        const Length length = std::max(absolute(dimension.to.x - dimension.from.x),
                                       absolute(dimension.to.y - dimension.from.y));
        INFO(scene.alternative);
        CHECK(dimension.words.starts_with(number_text(length, project->printing)));
      }
}

TEST_CASE("every drawing of the samples says in words what it shows") {
  for (const Project* project : {&orchard(), &kelp()})
    for (const Scene& scene : all_scenes(*project)) {
      CHECK(scene.alternative.size() > 12);
      CHECK(scene.alternative.ends_with("."));
    }
}

TEST_CASE("a finished card is told by its looks, a step by its measures") {
  const std::regex measure("[0-9]\u00A0(?:in|mm|×)|[0-9] (?:in|mm) |from the (?:left|right|top)");
  for (const Project* project : {&orchard(), &kelp()})
    for (const Card& card : project->cards) {
      std::vector<Scene> whole{finished_envelope(*project, card)};
      for (const View view : {View::Front, View::Inside, View::Back})
        whole.push_back(finished(*project, card, view));
      for (const Scene& scene : whole) {
        CAPTURE(scene.alternative);
        CHECK_FALSE(std::regex_search(scene.alternative, measure));
      }
    }
  const Card& trees = orchard().cards.at(0);
  const std::string front = finished(orchard(), trees, View::Front).alternative;
  CAPTURE(front);
  CHECK(front.find("kraft") != std::string::npos);
  CHECK(front.find("tree panel") != std::string::npos);
  CHECK(front.find("“come on in” in plum") != std::string::npos);
  CHECK(
      std::regex_search(step_of(orchard(), trees, build_of(trees, "scene")).alternative, measure));
}

TEST_CASE("every drawing of the samples finds a place for all its labels") {
  for (const Project* project : {&orchard(), &kelp()})
    for (const Scene& scene : all_scenes(*project)) {
      // Full-size drawings may be larger than a page: they get all the room they want.
      const Size room = scene.fixed_scale ? Size{millimetres(900), millimetres(900)}
                                          : Size{millimetres(90), millimetres(110)};
      const Composed composed = compose(scene, room, 0, Look{}, scene_fonts());
      INFO(scene.alternative);
      CHECK_FALSE(composed.crowded);
      int depth = 0;
      for (const DrawItem& item : composed.drawing.items) {
        if (std::holds_alternative<PushClip>(item)) ++depth;
        if (std::holds_alternative<PopClip>(item)) --depth;
        CHECK(depth >= 0);
      }
      CHECK(depth == 0);
    }
}

TEST_CASE("a mat with the same edge all round says that edge once") {
  const Card& card = orchard().cards.at(0);
  const Scene scene = step_of(orchard(), card, build_of(card, "mat"));
  CHECK(words_of(scene) == std::vector<std::string>{"1/8 all around", "4", "5\u00A01/4"});
}

TEST_CASE(
    "a panel that is centred across is measured from one side and from the edge it was placed by") {
  const Card& card = orchard().cards.at(0);
  const Scene scene = step_of(orchard(), card, build_of(card, "scene"));
  CHECK(words_of(scene) == std::vector<std::string>{"3/8", "3/8", "3\u00A01/4", "3\u00A01/4"});
}

TEST_CASE("the base is shown unfolded with the distance of its fold") {
  const Card& card = orchard().cards.at(0);
  const Scene scene = step_of(orchard(), card, build_of(card, card.pieces.front().id));
  CHECK(words_of(scene) == std::vector<std::string>{"11", "4\u00A01/4", "5\u00A01/2"});
  REQUIRE_FALSE(scene.labels.empty());
  CHECK(scene.labels.front().lines.front() == "valley fold");
}

TEST_CASE("what lies inside is shown on the card opened flat") {
  const Card& card = orchard().cards.at(0);
  const Scene scene = step_of(orchard(), card, build_of(card, "greeting"));
  CHECK(scene.alternative.find("opened flat") != std::string::npos);
}

TEST_CASE("a placement template is drawn at its true size") {
  const Card& card = orchard().cards.at(0);
  const Composed composed = compose(placement_template(orchard(), card, View::Front),
                                    {millimetres(200), millimetres(270)}, 0, Look{}, scene_fonts());
  CHECK(composed.scale == 1.0);
  const auto found = std::find_if(composed.drawing.items.begin(), composed.drawing.items.end(),
                                  [](const DrawItem& item) {
                                    const Mark* mark = std::get_if<Mark>(&item);
                                    return mark != nullptr && mark->kind == "template";
                                  });
  REQUIRE(found != composed.drawing.items.end());
  CHECK(std::get<Mark>(*found).box.size == card.finished);
}

TEST_CASE("a strip for the folds has each at its distance from the nearer edge") {
  const Card& gate = orchard().cards.at(1);
  const Scene scene = score_gauge(orchard(), gate, 0);
  std::vector<Length> at;
  for (const SceneItem& item : scene.items)
    if (const SceneMark* mark = std::get_if<SceneMark>(&item);
        mark != nullptr && mark->kind == "score")
      at.push_back(mark->box.left());
  CHECK(at == std::vector<Length>{inches(2, 1, 8)});
  CHECK(scene.fixed_scale == 1.0);
  CHECK(scene.alternative.find("2\u00A01/8\u00A0in from the left edge") != std::string::npos);
  CHECK(scene.alternative.find("2\u00A01/8\u00A0in from the right edge") != std::string::npos);
}

TEST_CASE("a sheet shows every piece that is cut from it, to scale") {
  const supply::CuttingPlan sheets = supply::sheets_for(orchard());
  for (const supply::StockSheets& stock : sheets.stocks)
    for (const supply::SheetLayout& layout : stock.layouts) {
      const Composed composed =
          compose(sheet(orchard(), sheets, layout), {millimetres(110), millimetres(150)}, 0, Look{},
                  scene_fonts());
      std::size_t cuts = 0;
      for (const DrawItem& item : composed.drawing.items) {
        const Mark* mark = std::get_if<Mark>(&item);
        if (mark == nullptr || mark->kind != "cut") continue;
        ++cuts;
        const double wide = static_cast<double>(mark->real.width.nm) * composed.scale;
        CHECK(std::abs(wide - static_cast<double>(mark->box.size.width.nm)) < 2.0);
      }
      CHECK(cuts == layout.pieces.size());
    }
}

TEST_CASE("a bar of two inches is two inches long") {
  const Scene scene = scale_bar(orchard());
  const SceneMark& mark = std::get<SceneMark>(scene.items.front());
  CHECK(mark.box.size.width == inches(2));
  CHECK(scene.fixed_scale == 1.0);
}

TEST_CASE("what cannot be drawn is empty and nothing breaks") {
  Project project;
  Card card;
  CHECK(step_of(project, card, 0).items.empty());
  CHECK(piece(project, card, 3).items.empty());
  CHECK(stamped_image(project, 4, 2, {1}).items.empty());
  CHECK(finished_envelope(project, card).items.empty());
}

TEST_CASE("pieces that carry each other end in no drawing, not in an endless one") {
  Project project = orchard();
  Card card = project.cards.at(0);
  card.pieces.at(1).on = {Carrier::Kind::Piece, 2};
  card.pieces.at(2).on = {Carrier::Kind::Piece, 1};
  CHECK_FALSE(finished(project, card, View::Front).items.empty());
}

TEST_CASE("what belongs to one thing is marked from its beginning to its end") {
  for (const Card& card : orchard().cards)
    for (const Scene& scene : {finished(orchard(), card, View::Front), tray(orchard(), card),
                               exploded(orchard(), card, View::Front)}) {
      std::vector<const std::vector<SceneItem>*> lists{&scene.items};
      for (const LaidOut& thing : scene.laid_out)
        for (const LaidOut::Lie& lie : thing.lies) lists.push_back(&lie.items);
      for (const auto* items : lists) {
        // Clips open and close within a thing, or around it: a screen makes a group of each.
        std::string open;
        for (const SceneItem& item : *items) {
          const SceneMark* mark = std::get_if<SceneMark>(&item);
          if (std::holds_alternative<SceneClip>(item)) open += 'c';
          if (mark != nullptr && mark->kind == "thing") open += 't';
          const bool unclips = std::holds_alternative<SceneUnclip>(item);
          if (!unclips && (mark == nullptr || mark->kind != "thing-end")) continue;
          REQUIRE_FALSE(open.empty());
          CHECK(open.back() == (unclips ? 'c' : 't'));
          open.pop_back();
        }
        CHECK(open.empty());
      }
    }
}

TEST_CASE("a piece that is stuck in part is shown from the back, hatched where it is stuck") {
  Project project = orchard();
  Card& card = project.cards.at(0);
  const auto taped = std::ranges::find_if(card.pieces, [&](const Piece& piece) {
    return piece.role == Piece::Role::Panel && piece.attach.adhesive >= 0 && !piece.attach.raised;
  });
  REQUIRE(taped != card.pieces.end());
  const auto index = static_cast<int>(taped - card.pieces.begin());
  const auto build = std::ranges::find_if(card.build, [&](const Build& one) {
    return one.kind == Build::Kind::Piece && one.index == index;
  });
  const auto at = static_cast<std::size_t>(build - card.build.begin());
  const auto from_the_back = [&] {
    const Scene scene = step_of(project, card, at);
    return std::ranges::any_of(
        scene.labels, [](const Label& label) { return label.lines.front() == "from the back"; });
  };
  CHECK_FALSE(from_the_back());
  taped->attach.where = Attach::Where::LeftHalf;
  CHECK(from_the_back());
  CHECK(step_of(project, card, at).alternative.find("stuck behind the left half") !=
        std::string::npos);
}
