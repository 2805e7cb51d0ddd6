#include "measure/index.h"
#include "page/poster/poster.h"

#include "page/frame.h"
#include "page/poster/lettering.h"

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

} // namespace leafwright::poster
