#include "model/item.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <vector>

using namespace leafwright;

TEST_CASE("every list of a project belongs to one kind that can be counted") {
  const Project project;
  std::vector<ItemKind> kinds;
  for_each_list(project, [&](ItemKind kind, const auto&) { kinds.push_back(kind); });
  for (const KindRow& row : kind_rows()) {
    const auto lists = std::ranges::count(kinds, row.kind);
    CHECK_MESSAGE(lists == (row.counted == KindRow::Counted::Nothing ? 0 : 1), row.words);
  }
}

TEST_CASE("a thing is sold as its own list says") {
  Project project;
  project.inks.resize(2);
  project.inks[1].sold.count = 3;
  REQUIRE(sold_of(project, {ItemKind::Ink, 1}) != nullptr);
  CHECK(sold_of(project, {ItemKind::Ink, 1})->count == 3);
}

TEST_CASE("what is not there, and what has prices of another kind, is not sold like a thing") {
  Project project;
  project.stocks.resize(1);
  CHECK(sold_of(project, {ItemKind::Ink, 0}) == nullptr);
  CHECK(sold_of(project, {ItemKind::Stock, 0}) == nullptr);
  CHECK(sold_of(project, {ItemKind::Tutorial, -1}) == nullptr);
}

TEST_CASE("papers are grouped by their kind, all else by the kind of thing") {
  Project project;
  project.stocks.resize(3);
  project.stocks[1].kind = Stock::Kind::Patterned;
  project.stocks[2].kind = Stock::Kind::AdhesiveSheet;
  CHECK(group_of(project, {ItemKind::Stock, 0}) == Group::Cardstock);
  CHECK(group_of(project, {ItemKind::Stock, 1}) == Group::Patterned);
  CHECK(group_of(project, {ItemKind::Stock, 2}) == Group::AdhesivesAndTools);
  CHECK(group_of(project, {ItemKind::Ribbon, 0}) == Group::RibbonAndEmbellishments);
}
