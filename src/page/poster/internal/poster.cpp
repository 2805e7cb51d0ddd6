#include "page/poster/poster.h"

#include "measure/index.h"
#include "page/context.h"
#include "page/flow.h"
#include "page/poster/internal/lettering.h"

#include <algorithm>

namespace leafwright::poster {
namespace {

constexpr std::int64_t across = 6;
constexpr Length cell = millimetres(46), gap = millimetres(6), margin = millimetres(12);
constexpr Length caption_size = points(8), caption_leading = points(10.5);

} // namespace

Drawing contact_sheet(const std::string& title, const std::vector<CardViews>& cards,
                      const Style& style, const text::Fonts& fonts) {
  Drawing out;
  out.size.width = margin * 2 + cell * across + gap * (across - 1);
  const Length width = out.size.width - margin * 2;
  const Lettering large{text::Role::Display, millimetres(11), millimetres(13), style.look.ink};
  const Lettering name{text::Role::Display, millimetres(6), millimetres(8), style.accent_words};
  const Lettering caption{text::Role::Text, caption_size, caption_leading, style.look.ink};
  Length y = set_words(out, title, large, margin, width, margin, fonts);
  for (const CardViews& card : cards) {
    y = set_words(out, card.title, name, margin, width, y + millimetres(5), fonts) + millimetres(2);
    const std::vector<Shown> small = shown(card.views, {cell, cell}, style, fonts);
    for (std::size_t first = 0; first < small.size(); first += across) {
      const std::size_t end = std::min(first + as_index(across), small.size());
      Length tallest{}, bottom{};
      for (std::size_t i = first; i < end; ++i)
        tallest = std::max(tallest, small[i].drawing.size.height);
      for (std::size_t i = first; i < end; ++i) {
        const Drawing& drawing = small[i].drawing;
        const Length x = margin + (cell + gap) * static_cast<std::int64_t>(i - first);
        append_moved(
            out.items, drawing,
            {x + (cell - drawing.size.width) / 2, y + (tallest - drawing.size.height) / 2});
        bottom = std::max(bottom, set_words(out, small[i].title, caption, x, cell,
                                            y + tallest + millimetres(1), fonts));
      }
      y = bottom + gap;
    }
  }
  out.size.height = y + margin - gap;
  out.items.insert(out.items.begin(),
                   Fill{page::rectangle({{}, out.size}), style.look.ground, 1.0});
  return out;
}

namespace {

// The shorter side; what stands in the picture is measured on it.
constexpr Length side = millimetres(150);
constexpr Length poster_margin = millimetres(10);

void put_cards(Drawing& into, const guide::Cover& cover, Rect region, const Style& style,
               const text::Fonts& fonts) {
  std::vector<Size> sizes;
  for (const figure::Scene& scene : cover.cards) sizes.push_back(scene.box.size);
  // Not held to true size: a single card may fill the picture.
  const page::CoverArrangement arrangement = page::arrange_cover(sizes, region, 1.0);
  for (const page::LaidCard& card : arrangement.cards) {
    const figure::Scene& scene = cover.cards.at(card.card);
    const Size room{region.size.width, region.size.height};
    const figure::Composed composed =
        figure::compose(scene, room, arrangement.scale, style.look, fonts);
    const Drawing turned = page::turned_drawing(composed.drawing, card.turned);
    append_moved(into.items, turned,
                 {card.centre.x - turned.size.width / 2, card.centre.y - turned.size.height / 2});
  }
}

} // namespace

Drawing poster(const guide::Cover& cover, int width_px, int height_px, const Style& style,
               const text::Fonts& fonts, const std::string& offered) {
  Drawing out;
  const bool wide = width_px * 4 > height_px * 5;
  const bool upright = height_px >= width_px;
  out.size =
      upright ? Size{side, side * height_px / width_px} : Size{side * width_px / height_px, side};
  out.items.emplace_back(Fill{page::rectangle({{}, out.size}), style.look.ground, 1.0});

  const Length left = poster_margin;
  const Length width = wide ? out.size.width * 36 / 100 : out.size.width - poster_margin * 2;
  const Length title_size =
      fitting_size(cover.title, text::Role::Display, millimetres(wide ? 17 : 19), millimetres(6),
                   width, wide ? 4 : 2, fonts);
  const Alignment stand = wide ? Alignment::Left : Alignment::Centre;
  const Lettering maker{text::Role::TextBold, millimetres(5), millimetres(8), style.accent_words,
                        stand};
  const Lettering title{text::Role::Display, title_size, title_size * 11 / 10, style.look.ink,
                        stand};
  const Lettering small{text::Role::Text, millimetres(5), millimetres(7), style.look.ink, stand};

  Length y = poster_margin;
  if (wide) { // in the middle of the height
    const auto lines = [&](const std::string& words, const Lettering& how) {
      return how.leading *
             static_cast<std::int64_t>(lines_of(words, how.role, how.size, width, fonts).size());
    };
    const Length high = lines(cover.maker, maker) + lines(cover.title, title) +
                        lines(cover.subtitle, small) + millimetres(6);
    y = std::max(poster_margin, (out.size.height - high) / 2);
  }
  y = set_words(out, cover.maker, maker, left, width, y, fonts);
  y = set_words(out, cover.title, title, left, width, y + millimetres(1), fonts);
  const bool roomy = wide || out.size.height * 10 >= out.size.width * 12;
  if (roomy) y = set_words(out, cover.subtitle, small, left, width, y + millimetres(3), fonts);

  Length foot = out.size.height - poster_margin;
  if (!wide && !offered.empty()) {
    const Length size = fitting_size(offered, text::Role::TextBold, millimetres(7), millimetres(4),
                                     width, 1, fonts);
    const Lettering said{text::Role::TextBold, size, size * 14 / 10, style.accent_words, stand};
    foot -= said.leading;
    set_words(out, offered, said, left, width, foot, fonts);
    foot -= millimetres(2);
  }
  Rect region{{poster_margin, y + millimetres(4)},
              {out.size.width - poster_margin * 2, foot - y - millimetres(4)}};
  if (wide) {
    const Length x = left + width + poster_margin;
    region = {{x, poster_margin},
              {out.size.width - x - poster_margin, out.size.height - poster_margin * 2}};
  }
  if (region.size.width.nm > 0 && region.size.height.nm > 0 && !cover.cards.empty())
    put_cards(out, cover, region, style, fonts);
  return out;
}

} // namespace leafwright::poster
