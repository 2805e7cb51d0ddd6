#include "output/impose/marks.h"

#include <algorithm>

namespace leafwright::impose {
namespace {

constexpr Colour ink{0x26, 0x24, 0x21};
constexpr Colour paper{0xff, 0xff, 0xff};

Path line(Point from, Point to) {
  return {{Segment::Kind::Move, {}, {}, from}, {Segment::Kind::Line, {}, {}, to}};
}

} // namespace

Path outline(Rect box) {
  return {{Segment::Kind::Move, {}, {}, {box.left(), box.top()}},
          {Segment::Kind::Line, {}, {}, {box.right(), box.top()}},
          {Segment::Kind::Line, {}, {}, {box.right(), box.bottom()}},
          {Segment::Kind::Line, {}, {}, {box.left(), box.bottom()}},
          {Segment::Kind::Close, {}, {}, {}}};
}

void add_line(std::vector<DrawItem>& to, Point from, Point end, std::vector<Length> dash) {
  Stroke stroke;
  stroke.path = line(from, end);
  stroke.colour = paper;
  stroke.width = points(1.5);
  to.emplace_back(stroke);
  stroke.colour = ink;
  stroke.width = points(0.5);
  stroke.dash = std::move(dash);
  to.emplace_back(std::move(stroke));
}

void add_fold(std::vector<DrawItem>& to, Length x, Length top, Length bottom) {
  constexpr Length tick = millimetres(7);
  const std::vector<Length> dash{points(3), points(2)};
  add_line(to, {x, top}, {x, top + tick}, dash);
  add_line(to, {x, bottom - tick}, {x, bottom}, dash);
}

void add_staples(std::vector<DrawItem>& to, Length x, Length top, Length bottom) {
  constexpr Length crown = millimetres(12); // of a common office staple
  constexpr Length foot = micrometres(1200);
  const Length tall = bottom - top;
  for (const std::int64_t quarter : {1, 3}) {
    const Length middle = top + tall * quarter / 4;
    add_line(to, {x, middle - crown / 2}, {x, middle + crown / 2});
    for (const Length end : {middle - crown / 2, middle + crown / 2})
      add_line(to, {x - foot, end}, {x + foot, end});
  }
}

void add_crop_marks(std::vector<DrawItem>& to, Rect trimmed, Rect sheet) {
  constexpr Length away = millimetres(3), longest = millimetres(5), shortest = millimetres(1);
  const auto mark = [&](Point corner, Length dx, Length dy, Length room) {
    const Length length = std::min(longest, room - away);
    if (length < shortest) return;
    const auto step = [](Length direction, Length by) {
      return direction.nm < 0 ? -by : direction.nm > 0 ? by : Length{};
    };
    const Point begin{corner.x + step(dx, away), corner.y + step(dy, away)};
    add_line(to, begin, {begin.x + step(dx, length), begin.y + step(dy, length)});
  };
  const Length one = millimetres(1), none{};
  // An edge that is the sheet's own is not cut.
  for (const Length x : {trimmed.left(), trimmed.right()}) {
    if (x == sheet.left() || x == sheet.right()) continue;
    mark({x, trimmed.top()}, none, -one, trimmed.top() - sheet.top());
    mark({x, trimmed.bottom()}, none, one, sheet.bottom() - trimmed.bottom());
  }
  for (const Length y : {trimmed.top(), trimmed.bottom()}) {
    if (y == sheet.top() || y == sheet.bottom()) continue;
    mark({trimmed.left(), y}, -one, none, trimmed.left() - sheet.left());
    mark({trimmed.right(), y}, one, none, sheet.right() - trimmed.right());
  }
}

void add_gathering_mark(std::vector<DrawItem>& to, Length x, Length top, Length bottom,
                        int signature) {
  constexpr Length wide = millimetres(3), tall = millimetres(8);
  const std::int64_t steps = std::max<std::int64_t>((bottom - top).nm / tall.nm - 4, 1);
  const Length at = top + tall * (2 + signature % steps);
  to.emplace_back(Fill{outline({{x - wide / 2, at}, {wide, tall}}), ink, 1.0});
}

void add_words(std::vector<DrawItem>& to, const text::Fonts& fonts, std::string_view words,
               Length x, Length baseline) {
  TextRun run;
  run.shaped = fonts.shape(fonts.face(text::Role::Text), points(7), words);
  run.baseline = {x - run.shaped.width / 2, baseline};
  run.colour = ink;
  to.emplace_back(std::move(run));
}

} // namespace leafwright::impose
