#pragma once

#include "guide/block.h"
#include "guide/figure/scene.h"
#include "model/project.h"
#include "page/context.h"
#include "page/template.h"

#include <string>
#include <vector>

// Pictures of cards to show elsewhere: in a shop, a letter, a message. The scenes and their look
// are those of the printed documents.

namespace leafwright::poster {

struct Style {
  figure::Look look;
  Colour accent_words; // the accent, dark enough to be read on the ground
};
// Colours of the page template, and the project's accent.
Style style_of(const page::Template& page_look, Colour accent);

// What can be shown of a card.
struct CardView {
  std::string name;  // for a file: "front", "layers", "step-03"
  std::string title; // "Front", "Layers", "3 Lay the mat"
  figure::Scene scene;
  std::string group; // those of one group are drawn at one scale and in frames of one size
};
// Front; inside, back and envelope where there is something to see; the layers of front and inside;
// every step that has a drawing.
std::vector<CardView> views_of(const Project& project, int card);

// A view drawn and set on the ground, with a margin all around.
struct Shown {
  std::string name, title, alternative;
  Drawing drawing;
  bool crowded = false; // a label found no place
};
std::vector<Shown> shown(const std::vector<CardView>& views, Size room, const Style& style,
                         const text::Fonts& fonts);

// All cards on the ground with maker and title, in the proportions of so many pixels: words above
// the cards in an upright or square picture, beside them in a wide one. `offered` is said at the
// foot of an upright or square one.
Drawing poster(const guide::Cover& cover, int width_px, int height_px, const Style& style,
               const text::Fonts& fonts, const std::string& offered = {});

// Every picture of every card small, with its name below, card by card.
struct CardViews {
  std::string title; // "1  Gate and trees"
  std::vector<CardView> views;
};
Drawing contact_sheet(const std::string& title, const std::vector<CardViews>& cards,
                      const Style& style, const text::Fonts& fonts);

} // namespace leafwright::poster
