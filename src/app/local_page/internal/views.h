#pragma once

#include "app/local_page/internal/shown_project.h"
#include "basics/reuse.h"
#include "guide/figure/scene.h"
#include "text/fonts.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Pictures of cards and of cut sheets for the page, drawn only when asked for and found again as
// long as they look alike.

namespace leafwright::local_page {

struct CardViewName {
  std::string id, name;
};
// Front; inside, back and envelope where there is something to see; the pieces; the layers.
std::vector<CardViewName> views_of(const Project& project, const Card& card);

struct PagePicture {
  std::string svg;
  std::string mark; // alike for alike pictures
};

class PictureCache {
 public:
  explicit PictureCache(const text::Fonts& fonts) : fonts_(fonts) {}
  // `view` as views_of() names it, or "step-3". Nothing when there is none such.
  std::optional<PagePicture> card(const Shown& shown, std::string_view card, std::string_view view);
  std::optional<PagePicture> sheet(const Shown& shown, std::size_t number);
  void next_round() { known_.next_round(); }

 private:
  struct Wanted {
    figure::Scene scene;
    Size room;
    double scale = 0;
    std::string ids, title;
    int card = -1; // marks without a card of their own are of this one
  };
  std::optional<PagePicture> drawn(const Shown& shown, const Wanted& wanted);

  const text::Fonts& fonts_;
  AgeingCache<Fingerprint, PagePicture> known_;
};

} // namespace leafwright::local_page
