#include "page/flow.h"

#include <doctest/doctest.h>

using namespace leafwright;

TEST_CASE("a grey document keeps light and dark apart and loses all colour") {
  page::Laid laid;
  laid.pages.push_back({{millimetres(100), millimetres(100)}, "1", false, {}});
  auto& items = laid.pages[0].items;
  items.emplace_back(Fill{{}, {255, 255, 0}, 1.0});
  Stroke stroke;
  stroke.colour = {0, 0, 255};
  items.emplace_back(stroke);
  TextRun run;
  run.colour = {120, 120, 120};
  items.emplace_back(run);
  items.emplace_back(Image{0, {}, {}});
  page::make_grey(laid);
  REQUIRE(items.size() == 4);
  // BT.601: 0.299 R + 0.587 G + 0.114 B (from memory).
  CHECK(std::get<Fill>(items[0]).colour == Colour{226, 226, 226});
  CHECK(std::get<Stroke>(items[1]).colour == Colour{29, 29, 29});
  CHECK(std::get<TextRun>(items[2]).colour == Colour{120, 120, 120});
}
