#include "page/internal/blocks.h"

#include "model/outline.h"
#include "page/context.h"
#include "page/internal/paragraph.h"

#include <algorithm>
#include <array>
#include <span>
#include <utility>
#include <vector>

namespace leafwright::page {

namespace {

// Small turns as a hand would leave them, none twice running; in thousandths of a degree.
constexpr std::array<int, 8> turns = {-3100, 2400, 1700, -2200, 2900, -1500, 3300, -2700};
// Small shifts up and down, in hundredths of a card's height.
constexpr std::array<int, 8> shifts = {0, -4, 3, -1, 2, -3, 1, -2};

// Turned corners stand out by about a twentieth.
constexpr double turned_share = 1.05;
constexpr double apart = 0.86;  // of a card's width from one to the next: edges overlap
constexpr double lowered = 0.8; // of its height
constexpr double jitter = 0.07; // of the height, for the shifts

// Cards that lie side by side, in real nanometres.
struct CoverRow {
  std::vector<double> widths;
  double high = 0;  // the tallest
  double steps = 0; // from the middle of the first to that of the last, were they to touch

  double ends() const { return (widths.front() + widths.back()) / 2; }
};

std::vector<CoverRow> cover_rows(std::span<const Size> cards, std::size_t count) {
  const std::size_t per_row = (cards.size() + count - 1) / count;
  std::vector<CoverRow> rows;
  for (std::size_t i = 0; i < cards.size(); ++i) {
    if (i % per_row == 0) rows.emplace_back();
    CoverRow& row = rows.back();
    const double wide = static_cast<double>(cards[i].width.nm) * turned_share;
    if (!row.widths.empty()) row.steps += (row.widths.back() + wide) / 2;
    row.widths.push_back(wide);
    row.high = std::max(row.high, static_cast<double>(cards[i].height.nm) * turned_share);
  }
  return rows;
}

double height_of(std::span<const CoverRow> rows) {
  double high = 0;
  for (std::size_t i = 0; i < rows.size(); ++i)
    high += i == 0 ? rows[i].high / 2 : (rows[i - 1].high + rows[i].high) / 2 * lowered;
  return high + rows.back().high / 2 + std::ranges::max(rows, {}, &CoverRow::high).high * jitter;
}

double scale_of(std::span<const CoverRow> rows, Size room) {
  double scale = static_cast<double>(room.height.nm) / height_of(rows);
  for (const CoverRow& row : rows)
    scale = std::min(scale, static_cast<double>(room.width.nm) / (row.ends() + apart * row.steps));
  return scale;
}

// Rows fill the page where one line of cards, hardly larger, would leave it empty.
std::vector<CoverRow> best_cover_rows(std::span<const Size> cards, Size room) {
  constexpr double hardly = 0.93;
  std::vector<CoverRow> best = cover_rows(cards, 1);
  for (std::size_t count = 2; count <= cards.size(); ++count) {
    std::vector<CoverRow> rows = cover_rows(cards, count);
    if (scale_of(rows, room) > scale_of(best, room) * (best.size() == 1 ? hardly : 1.0))
      best = std::move(rows);
  }
  return best;
}

} // namespace

CoverArrangement arrange_cover(std::span<const Size> cards, Rect region, double largest) {
  CoverArrangement result;
  if (cards.empty()) return result;
  const std::vector<CoverRow> rows = best_cover_rows(cards, region.size);
  result.scale = std::min(scale_of(rows, region.size), largest);
  const double room = static_cast<double>(region.size.width.nm) / result.scale;
  const auto placed = [&](double real) {
    return Length{static_cast<std::int64_t>(real * result.scale)};
  };
  const std::size_t longest = rows.front().widths.size();
  std::size_t index = 0;
  double y = (static_cast<double>(region.size.height.nm) / result.scale - height_of(rows)) / 2;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const CoverRow& row = rows[r];
    y += r == 0 ? row.high / 2 : (rows[r - 1].high + row.high) / 2 * lowered;
    // Where the paper is wider than the cards need, they move apart, but never out of touch.
    const double part = row.steps > 0 ? std::min((room - row.ends()) / row.steps, 1.0) : 0.0;
    // Rows are staggered, so that gaps do not stand above gaps; a short one does so in the middle.
    const bool centred = rows.size() == 1 || row.widths.size() != longest;
    const double stagger = centred ? 0.5 : r % 2 == 0 ? 0.28 : 0.72;
    double x = (room - row.ends() - part * row.steps) * stagger + row.widths.front() / 2;
    for (std::size_t k = 0; k < row.widths.size(); ++k, ++index) {
      if (k > 0) x += part * (row.widths[k - 1] + row.widths[k]) / 2;
      const double shift = row.high * (0.04 + shifts[index % shifts.size()] / 100.0);
      result.cards.push_back({index,
                              region.origin + Point{placed(x), placed(y + shift)},
                              {turns[index % turns.size()] * std::int64_t{1000}}});
    }
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
