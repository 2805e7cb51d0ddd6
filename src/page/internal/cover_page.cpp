#include "page/internal/blocks.h"

#include "model/outline.h"
#include "page/context.h"
#include "page/internal/paragraph.h"

#include <algorithm>
#include <array>

namespace leafwright::page {

namespace {

// Small turns as a hand would leave them, none twice running; in thousandths of a degree.
constexpr std::array<int, 8> turns = {-3100, 2400, 1700, -2200, 2900, -1500, 3300, -2700};
// Small shifts up and down, in hundredths of a card's height.
constexpr std::array<int, 8> shifts = {0, -4, 3, -1, 2, -3, 1, -2};

} // namespace

CoverArrangement arrange_cover(std::span<const Size> cards, Rect region, double largest) {
  CoverArrangement result;
  if (cards.empty()) return result;
  Size biggest{};
  for (const Size card : cards)
    biggest = {std::max(biggest.width, card.width), std::max(biggest.height, card.height)};
  // Turned corners stand out by about a twentieth.
  const double w = static_cast<double>(biggest.width.nm) * 1.05;
  const double h = static_cast<double>(biggest.height.nm) * 1.05;
  const double room_w = static_cast<double>(region.size.width.nm);
  const double room_h = static_cast<double>(region.size.height.nm);
  constexpr double across = 0.86; // of a card's width from one to the next: edges overlap
  constexpr double down = 0.8;    // of its height
  constexpr double jitter = 0.07; // of the height, for the shifts
  const auto scale_with = [&](std::size_t rows) {
    const std::size_t per_row = (cards.size() + rows - 1) / rows;
    const double wide = w * (1.0 + across * static_cast<double>(per_row - 1));
    const double high = h * (1.0 + down * static_cast<double>(rows - 1) + jitter);
    return std::min(room_w / wide, room_h / high);
  };
  // Rows fill the page where one line of cards, hardly larger, would leave it empty.
  constexpr double hardly = 0.93;
  std::size_t best_rows = 1;
  for (std::size_t rows = 2; rows <= cards.size(); ++rows)
    if (scale_with(rows) > scale_with(best_rows) * (best_rows == 1 ? hardly : 1.0))
      best_rows = rows;
  result.scale = std::min(scale_with(best_rows), largest);
  const double sw = w * result.scale;
  const double sh = h * result.scale;
  const std::size_t per_row = (cards.size() + best_rows - 1) / best_rows;
  const double high = sh * (1.0 + down * static_cast<double>(best_rows - 1) + jitter);
  std::size_t next = 0;
  for (std::size_t row = 0; row < best_rows; ++row) {
    const std::size_t in_row = std::min(per_row, cards.size() - next);
    // Where the paper is wider than the cards need, they move apart, but never out of touch.
    const double span =
        in_row > 1 ? std::min((room_w - sw) / static_cast<double>(in_row - 1), sw) : 0.0;
    const double row_width = sw + span * static_cast<double>(in_row - 1);
    const double slack = room_w - row_width;
    // Rows are staggered, so that gaps do not stand above gaps; a short one does so in the middle.
    const bool centred = best_rows == 1 || in_row != per_row;
    const double stagger = centred ? 0.5 : row % 2 == 0 ? 0.28 : 0.72;
    for (std::size_t k = 0; k < in_row; ++k) {
      const std::size_t index = next + k;
      LaidCard laid;
      laid.card = index;
      const double x = slack * stagger + sw / 2 + span * static_cast<double>(k);
      const double y = (room_h - high) * 0.5 + sh / 2 + sh * down * static_cast<double>(row) +
                       sh * (0.04 + shifts[index % shifts.size()] / 100.0);
      laid.centre =
          region.origin + Point{{static_cast<std::int64_t>(x)}, {static_cast<std::int64_t>(y)}};
      laid.turned = {turns[index % turns.size()] * std::int64_t{1000}};
      result.cards.push_back(laid);
    }
    next += in_row;
  }
  // The lowest row goes down first: greetings at the foot of a card stay in sight.
  std::ranges::reverse(result.cards);
  return result;
}

FramePtr cover_frame(const guide::Cover& cover, Size page, Rect area, Context& context) {
  const Template& look = context.look;
  auto frame = std::make_shared<Frame>();
  frame->size = page;
  Length y = area.top() + look.grid * 2;
  const auto add = [&](const std::string& words, const char* style_name) {
    if (words.empty()) return;
    const TextStyle& style = look.style(style_name);
    y += style.before;
    const FramePtr set = paragraph_frame(plain(words), style, area.size.width, context);
    frame->ops.emplace_back(Inset{{area.left(), y}, set});
    y += set->size.height + style.after;
  };
  add(cover.maker, "cover-maker");
  add(cover.title, "cover-title");
  add(cover.subtitle, "cover-subtitle");

  const TextStyle& foot = look.style("cover-foot");
  const Length foot_y = area.bottom() - foot.leading;
  const Length top = y + look.grid * 4;
  const Rect region{{area.left(), top}, {area.size.width, foot_y - look.grid * 4 - top}};
  std::vector<Size> sizes;
  double largest = 1.0;
  for (const figure::Scene& scene : cover.cards) {
    sizes.push_back(scene.box.size);
    largest = std::min(largest, scene.largest_scale);
  }
  if (region.size.height.nm > 0) {
    const CoverArrangement arrangement = arrange_cover(sizes, region, largest);
    for (const LaidCard& card : arrangement.cards) {
      const figure::Scene& scene = cover.cards[card.card];
      const Size room{times(scene.box.size.width, arrangement.scale) + millimetres(10),
                      times(scene.box.size.height, arrangement.scale) + millimetres(10)};
      const Drawn& figure = drawn(scene, room, arrangement.scale, context);
      auto turned = std::make_shared<const Drawing>(turned_drawing(*figure.drawing, card.turned));
      const Point at{card.centre.x - turned->size.width / 2,
                     card.centre.y - turned->size.height / 2};
      Node node;
      node.type = "Figure";
      node.alternative = scene.alternative;
      node.box = {at, turned->size};
      frame->ops.emplace_back(OpenNode{std::move(node), true});
      frame->ops.emplace_back(InsetDrawing{at, std::move(turned)});
      frame->ops.emplace_back(CloseNode{});
    }
  }
  const auto add_foot = [&](const std::string& words, TextStyle::Align align) {
    if (words.empty()) return;
    TextStyle style = foot;
    style.align = align;
    frame->ops.emplace_back(Inset{{area.left(), foot_y},
                                  paragraph_frame(plain(words), style, area.size.width, context)});
  };
  add_foot(cover.left, TextStyle::Align::Left);
  add_foot(cover.right, TextStyle::Align::Right);
  return frame;
}

} // namespace leafwright::page
