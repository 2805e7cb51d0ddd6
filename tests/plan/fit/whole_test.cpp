#include "found.h"

#include <set>

using namespace leafwright;
using namespace leafwright::testing;

namespace {

StatedDate date(const char* text) { return parse_date(text).value(); }

} // namespace

// 2 March 2027 is a Tuesday (proleptic Gregorian calendar, ISO 8601).
TEST_CASE("a weekday that contradicts its date is told both mends") {
  Project project = small_project();
  project.run.ship_by = date("Tue 2027-03-02");
  CHECK_FALSE(says(project, "fit-weekday"));
  project.run.ship_by = date("2027-03-02");
  CHECK_FALSE(says(project, "fit-weekday"));
  project.run.ship_by = date("Wed 2027-03-02");
  const Findings some = found(project, "fit-weekday");
  REQUIRE(some.size() == 1);
  CHECK(some[0].fix == "write Tuesday, March 2, 2027, or Wednesday, March 3, 2027");
}

TEST_CASE("replies are due before kits are sent") {
  Project project = small_project();
  project.run.reply_by = date("2027-03-16");
  project.run.ship_by = date("2027-03-16");
  CHECK_FALSE(says(project, "fit-dates"));
  project.run.ship_by = date("2027-03-15");
  CHECK(says(project, "fit-dates"));
}

TEST_CASE("a supply that no card takes is noted unless a tier mentions it") {
  Project project = small_project();
  Ink spare;
  spare.id = spare.name = "spare";
  project.inks.push_back(spare);
  REQUIRE(found(project, "fit-unused").size() == 1);
  CHECK(found(project, "fit-unused")[0].found == "spare is not used by any card");
  Tier tier;
  tier.includes.resize(2);
  tier.includes[0].item = {ItemKind::Ink, 1};
  tier.includes[1].item = {ItemKind::StampSet, 0};
  project.tiers = {tier};
  CHECK_FALSE(says(project, "fit-unused"));
}

TEST_CASE("a pack is used when one of its papers is") {
  Project project = small_project();
  Pack pack;
  pack.id = pack.name = "pack";
  pack.lines = {{dots, 2}};
  project.packs = {pack};
  CHECK_FALSE(says(project, "fit-unused"));
  project.packs[0].lines.clear();
  CHECK(says(project, "fit-unused"));
}

TEST_CASE("stamps that a buyer cannot come by are noted when there are tiers") {
  Project project = small_project();
  CHECK_FALSE(says(project, "fit-not-offered"));
  project.tiers.resize(1);
  CHECK(says(project, "fit-not-offered"));
  project.tiers[0].requires_owned = {{{{ItemKind::StampSet, 0}}, {}}};
  CHECK_FALSE(says(project, "fit-not-offered"));
}

TEST_CASE("rule ids are unique, begin alike and say what they mean") {
  std::set<std::string_view> ids;
  for (const fit::Rule& rule : fit::rules()) {
    CHECK(rule.id.starts_with("fit-"));
    CHECK_FALSE(rule.meaning.empty());
    ids.insert(rule.id);
  }
  CHECK(ids.size() == fit::rules().size());
}

TEST_CASE("every finding is one of a listed rule and answers all three questions") {
  Project project = small_project();
  project.cards[0].pieces[mat].size = {inches(9), inches(9)};
  project.cards[0].pieces[label].at = {inches(4), inches(5)};
  project.cards[0].ribbons[0].given = inches(1);
  project.envelopes[0].size = {inches(2), inches(2)};
  std::set<std::string_view> ids;
  for (const fit::Rule& rule : fit::rules()) ids.insert(rule.id);
  for (const Finding& finding : fit::check(project)) {
    CHECK(ids.contains(finding.code));
    CHECK_FALSE(finding.found.empty());
    CHECK_FALSE(finding.expected.empty());
    CHECK_FALSE(finding.fix.empty());
  }
}

TEST_CASE(
    "a project with nothing in it, or with references to nothing, is checked without a crash") {
  CHECK(fit::check(Project{}).empty());
  Project project = small_project();
  Card& card = project.cards[0];
  card.envelope = 7;
  card.pieces[mat].stock = 99;
  card.pieces[mat].on = {Carrier::Kind::Face, 99};
  card.pieces[scene].on = on_piece(scene); // carries itself
  card.pieces[label].on = on_piece(-4);
  card.pieces[label].attach.adhesive = 42;
  card.ribbons[0].ribbon = 9;
  card.ribbons[0].on = on_piece(77);
  card.embellishments[0].embellishment = -3;
  card.build.push_back({Build::Kind::Piece, -1});
  card.build.push_back({Build::Kind::Ribbon, 12});
  CHECK_NOTHROW(fit::check(project));
  card.pieces[mat].on = on_piece(note);
  card.pieces[note].on = on_piece(mat); // each carries the other
  CHECK_NOTHROW(fit::check(project));
}

TEST_CASE("what the maker accepts is not said where it is accepted, and elsewhere it is") {
  Project project = small_project();
  Ink spare;
  spare.id = spare.name = "spare";
  spare.place = {0, 10, 6, 3};
  project.inks.push_back(spare);
  const Place before{0, 10, 1, 1}, after{0, 11, 1, 1};
  REQUIRE(says(project, "fit-unused"));
  project.accepted = {{"fit-unused", "for the next class", before, before, after}};
  CHECK_FALSE(says(project, "fit-unused"));
  project.accepted = {{"fit-unused", "elsewhere", after, after, {}}};
  CHECK(says(project, "fit-unused"));
  project.accepted = {{"fit-grain", "another rule", before, before, after}};
  CHECK(says(project, "fit-unused"));
  project.accepted = {{"fit-unused", "all that follows", before, before, {}}};
  CHECK_FALSE(says(project, "fit-unused"));
}

TEST_CASE("an error is never accepted") {
  Project project = small_project();
  project.run.reply_by = date("2027-03-16");
  project.run.ship_by = date("2027-03-15");
  REQUIRE(says(project, "fit-dates"));
  const Place anywhere = found(project, "fit-dates")[0].place;
  project.accepted = {{"fit-dates", "no", anywhere, {anywhere.file, 0, 0, 0}, {}}};
  CHECK(says(project, "fit-dates"));
}

TEST_CASE("what the post asks of several cards alike is told once") {
  Project project = small_project();
  project.cards.push_back(project.cards.front());
  project.cards.back().title = "The second";
  const Findings uneven = found(project, "fit-mail-uneven");
  REQUIRE(uneven.size() == 1);
  REQUIRE(uneven[0].trace.size() == 1);
  CHECK(uneven[0].trace[0].text.find("The second") != std::string::npos);
}
