#include "plan/calendar/work_time.h"
#include "plan/orders/parcels.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <string>

using namespace leafwright;
using namespace leafwright::calendar;

namespace {

Project cards_of(std::initializer_list<int> minutes) {
  Project project;
  for (const int each : minutes) {
    Card card;
    card.title = "Card";
    card.minutes = each;
    project.cards.push_back(std::move(card));
  }
  return project;
}

} // namespace

TEST_CASE("what has to dry is added to the time of a card") {
  Card card;
  card.minutes = 20;
  card.pieces.emplace_back().finishes.emplace_back().kind = Finish::Kind::Washed;
  CHECK(calendar::minutes_of(card) == 30);
}

TEST_CASE("without slots there is a welcome, a break in time and ten minutes to tidy up") {
  const Timetable timetable = timetable_of(cards_of({35, 40, 45, 30}));
  REQUIRE(timetable.lines.size() == 7);
  CHECK(timetable.lines[0].kind == ClassSlot::Kind::Talk);
  CHECK(timetable.lines[3].kind == ClassSlot::Kind::Break); // after 10 + 35 + 40 minutes
  CHECK(timetable.minutes() == 10 + 35 + 40 + 15 + 45 + 30 + 10);
}

TEST_CASE("lines follow each other without a gap") {
  Project project = cards_of({35, 40});
  ClassDay day;
  day.start = 600;
  ClassSlot talk, card;
  talk.title = "Welcome";
  talk.minutes = 12;
  card.kind = ClassSlot::Kind::Card;
  card.card = 1;
  day.slots = {talk, card};
  project.run.class_day = day;
  const Timetable timetable = timetable_of(project);
  REQUIRE(timetable.lines.size() == 2);
  CHECK(timetable.lines[0].start == 600);
  CHECK(timetable.lines[1].start == 612);
  CHECK(timetable.lines[1].minutes == 40);
}

TEST_CASE("work is counted from what is done and comes to its rates") {
  // One tier, one stock cut in two settings with seven passes: written by hand, not planned.
  Project project;
  project.tiers.resize(1);
  project.tiers[0].shipping = Tier::Shipping::Charged;
  supply::Buying buying;
  supply::StockSheets stock;
  supply::SheetLayout pattern;
  pattern.work.settings = 2;
  pattern.work.strokes = 7;
  stock.layouts = {pattern};
  buying.sheets.stocks = {stock};
  orders::Parcels parcels;
  supply::KitKind kind;
  kind.tier = 0;
  kind.kits = 10;
  parcels.kinds = {kind};
  orders::Contents contents;
  contents.parts.resize(3);
  contents.supplies.resize(2);
  const std::vector<orders::Contents> all{contents};
  const calendar::WorkTime work = work_time_of(project, buying, parcels, all);
  CHECK(work.cutting == 2 * 30 + 7 * 8);
  CHECK(work.envelopes == 30);
  CHECK(work.items == 20);
  CHECK(work.parcels == 10); // no orders yet: a parcel a kit
  CHECK(work.packing == 30 * 6 + 20 * 15 + 10 * 180);
  CHECK(work.readying == 0);
}

TEST_CASE("dies and stamps count where they are promised") {
  Project project =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/orchard-gate/project.xml")
          .project;
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    if (project.tiers[i].id == "cut-parts") project.run.planned = {{static_cast<int>(i), 1, {}}};
  for (Tier& tier : project.tiers) tier.die_cut = false;
  const orders::Parcels parcels = orders::parcels_of(project);
  supply::Buying buying;
  buying.sheets = orders::pieces_of(project, parcels);
  const auto contents = orders::contents_of(project, parcels, buying.sheets);
  CHECK(work_time_of(project, buying, parcels, contents).dies == 0);
  for (Tier& tier : project.tiers) tier.die_cut = true;
  // Label, latch, roundel, apple, tag and the window of the frame: six passes a set, three sets.
  CHECK(work_time_of(project, buying, parcels, contents).dies == 18);
}
