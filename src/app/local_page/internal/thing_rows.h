#pragma once

#include "app/local_page/internal/shown_project.h"
#include "model/card.h"
#include "model/outline.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// What lies on a card and where, as a page shows and moves it.

namespace leafwright::local_page {

struct ThingRow {
  Place place;
  std::string name, kind, letter, words, view;
  Carrier on;
  std::optional<Rect> box;     // in the view, as if it were not turned
  std::optional<Rect> carrier; // what it is placed in
  Angle turned{};
  std::string parent; // key
  int order = 0;
};

// The view's id in the page.
std::string_view view_word(View view);

// In the order of the layers, images behind the piece that they are stamped on.
std::vector<ThingRow> things_of(const Shown& shown, const Card& card);

} // namespace leafwright::local_page
