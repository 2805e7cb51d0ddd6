#include "model/project.h"

#include <doctest/doctest.h>

using namespace leafwright;

TEST_CASE("an item is called by its name, and by its id when it has none") {
  Project project;
  project.inks.push_back({.id = "moss", .name = "Moss", .place = {}, .colour = {}, .sold = {}});
  project.inks.push_back({.id = "sky", .name = "", .place = {}, .colour = {}, .sold = {}});
  CHECK(item_name(project, {ItemKind::Ink, 0}) == "Moss");
  CHECK(item_name(project, {ItemKind::Ink, 1}) == "sky");
  CHECK(item_id(project, {ItemKind::Ink, 0}) == "moss");
}

TEST_CASE("an item that is not there has no name instead of a crash") {
  const Project project;
  for (const ItemKind kind : {ItemKind::Stock, ItemKind::Tool, ItemKind::Envelope}) {
    CHECK(item_name(project, {kind, 0}).empty());
    CHECK(item_id(project, {kind, -1}).empty());
  }
}

TEST_CASE("the tutorial and the cut parts need no list") {
  const Project project;
  CHECK(item_name(project, {ItemKind::Tutorial, -1}) == "tutorial");
  CHECK(item_name(project, {ItemKind::Parts, -1}) == "cut parts");
}
