#include "step_of.h"

#include "guide/figure/frame.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::figure;

namespace {

const text::Fonts& tray_fonts() {
  static const Parsed<text::Fonts> loaded =
      text::standard_fonts(std::string(LEAFWRIGHT_SOURCE_DIR) + "/fonts");
  return loaded.value();
}

std::vector<Project> samples() {
  std::vector<Project> all;
  for (const char* name : {"orchard-gate", "kelp-lantern", "five-minute"})
    all.push_back(
        read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + name + "/project.xml")
            .project);
  return all;
}

constexpr Size usual_room{inches(7, 3, 10), inches(3, 1, 2)};

// Everything laid out, as it was marked.
std::vector<Rect> things_in(const Composed& composed) {
  std::vector<Rect> boxes;
  for (const DrawItem& item : composed.drawing.items)
    if (const Mark* mark = std::get_if<Mark>(&item); mark && !mark->kind.starts_with("thing"))
      boxes.push_back(mark->box);
  return boxes;
}

bool apart(const std::vector<Rect>& boxes) {
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t k = i + 1; k < boxes.size(); ++k)
      if (boxes.at(i).overlaps(boxes.at(k))) return false;
  return true;
}

// Sizes of the words of labels; what is stamped on a piece is as large as its stamp.
Length smallest_label(const Composed& composed) {
  Length smallest = points(1000);
  for (const DrawItem& item : composed.drawing.items)
    if (const TextRun* run = std::get_if<TextRun>(&item))
      for (const Rect& box : composed.label_boxes)
        if (grown(box, Length{1}).contains({run->baseline, {}}))
          smallest = std::min(smallest, run->shaped.size);
  return smallest;
}

// A card with other pieces than the sample's: sizes, copies and names of its own.
Card shuffled(const Card& card, std::mt19937& random) {
  Card other = card;
  for (Piece& piece : other.pieces) {
    const auto side = [&] { return millimetres(6 + static_cast<int>(random() % 200)); };
    piece.size = {side(), side()};
    piece.cut_from =
        random() % 2 == 0 ? piece.size : Size{piece.size.width + millimetres(6), piece.size.height};
    piece.copies = 1 + static_cast<int>(random() % 3);
    piece.name += random() % 2 == 0 ? "" : " of a long name that wants several lines";
  }
  return other;
}

void check_tray(const Project& project, const Card& card, Size room) {
  const Scene scene = tray(project, card);
  const Composed composed = compose(scene, room, 0, Look{}, tray_fonts());
  CAPTURE(scene.alternative);
  CHECK_FALSE(composed.crowded);
  CHECK(composed.drawing.size.width <= room.width + Length{1000});
  CHECK(composed.drawing.size.height <= room.height + Length{1000});
  std::vector<Rect> all = things_in(composed);
  CHECK(all.size() == scene.laid_out.size());
  for (const Rect& label : composed.label_boxes) all.push_back(label);
  CHECK(apart(all));
  CHECK(smallest_label(composed) >= points(8));
}

} // namespace

TEST_CASE("in the tray of every card of the samples nothing lies over anything else") {
  for (const Project& project : samples())
    for (const Card& card : project.cards) check_tray(project, card, usual_room);
}

TEST_CASE("in the tray of any card nothing lies over anything else") {
  std::mt19937 random(20270302);
  for (const Project& project : samples())
    for (const Card& card : project.cards)
      for (int i = 0; i < 2; ++i)
        check_tray(project, shuffled(card, random),
                   {millimetres(150 + static_cast<int>(random() % 60)),
                    millimetres(150 + static_cast<int>(random() % 90))});
}

TEST_CASE("the pieces of a tray are drawn to one scale") {
  for (const Project& project : samples())
    for (const Card& card : project.cards) {
      const Composed composed = compose(tray(project, card), usual_room, 0, Look{}, tray_fonts());
      for (const DrawItem& item : composed.drawing.items) {
        const Mark* mark = std::get_if<Mark>(&item);
        if (mark == nullptr || mark->kind != "piece") continue;
        const double wide = static_cast<double>(mark->real.width.nm) * composed.scale;
        CHECK(std::abs(wide - static_cast<double>(mark->box.size.width.nm)) < 2.0);
      }
    }
}

TEST_CASE("a tray names every piece of the card with its size and paper") {
  for (const Project& project : samples())
    for (const Card& card : project.cards) {
      const Scene scene = tray(project, card);
      CAPTURE(scene.alternative);
      for (const Piece& piece : card.pieces) {
        CHECK(scene.alternative.find(piece.letter + " ") != std::string::npos);
        CHECK(scene.alternative.find(number_text(piece.size.width, project.printing)) !=
              std::string::npos);
        CHECK(scene.alternative.find(project.stocks.at(as_index(piece.stock)).name) !=
              std::string::npos);
      }
    }
}

TEST_CASE("the words beside every drawing of a step are at least 8 pt") {
  for (const Project& project : samples())
    for (const Card& card : project.cards)
      for (std::size_t i = 0; i < card.build.size(); ++i)
        CHECK(smallest_label(compose(step_of(project, card, i), {inches(3, 1, 2), inches(2, 8, 10)},
                                     0, Look{}, tray_fonts())) >= points(8));
}

TEST_CASE("what stands on foam is shown from the back where it is fixed") {
  const std::vector<Project> all = samples();
  const Card& card = all.front().cards.front();
  for (std::size_t i = 0; i < card.build.size(); ++i) {
    if (card.build.at(i).kind != Build::Kind::Piece) continue;
    const Piece& piece = card.pieces.at(as_index(card.build.at(i).index));
    const Scene scene = step_of(all.front(), card, i);
    const bool shown = std::ranges::any_of(scene.labels, [](const Label& label) {
      return !label.lines.empty() && label.lines.front() == "from the back";
    });
    CAPTURE(piece.id);
    CHECK(shown == piece.attach.raised);
  }
}

TEST_CASE("every thing of the list of supplies that has a look has a swatch") {
  for (const Project& project : samples()) {
    const auto all = [&](ItemKind kind, std::size_t count) {
      for (std::size_t i = 0; i < count; ++i) {
        const Scene scene = swatch(project, {kind, static_cast<int>(i)});
        CHECK_FALSE(scene.items.empty());
        CHECK(scene.box.size.width.nm > 0);
        CHECK(scene.alternative.ends_with("."));
      }
    };
    all(ItemKind::Stock, project.stocks.size());
    all(ItemKind::Ribbon, project.ribbons.size());
    all(ItemKind::Die, project.dies.size());
    all(ItemKind::StampSet, project.stamp_sets.size());
    all(ItemKind::Ink, project.inks.size());
    all(ItemKind::Embellishment, project.embellishments.size());
    all(ItemKind::Envelope, project.envelopes.size());
  }
  CHECK(swatch(samples().front(), {ItemKind::Tool, 0}).items.empty());
}
