#pragma once

#include "guide/block.h"
#include "page/poster/picture_set.h"

#include <string>
#include <vector>

namespace leafwright::poster {

// All cards on the ground with maker and title, in the proportions of so many pixels: words above
// the cards in an upright or square picture, beside them in a wide one.
Drawing poster(const guide::Cover& cover, int width_px, int height_px, const Style& style,
               const text::Fonts& fonts);

// Every picture of every card small, with its name below, card by card.
struct CardViews {
  std::string title; // "1  Gate and trees"
  std::vector<View> views;
};
Drawing contact_sheet(const std::string& title, const std::vector<CardViews>& cards,
                      const Style& style, const text::Fonts& fonts);

} // namespace leafwright::poster
