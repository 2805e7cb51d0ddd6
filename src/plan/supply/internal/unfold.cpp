#include "plan/supply/internal/unfold.h"

#include "measure/index.h"

#include <algorithm>
#include <utility>

namespace leafwright::supply {

namespace {

// A part of the sheet cut into any number of strips in one direction.
struct Region {
  Size size;
  bool across = false; // strips lie one above the other
  std::vector<Region> strips;
  int piece = -1; // finished, when there are no strips
  bool turned = false;
  bool leftover() const { return strips.empty() && piece < 0; }
};

Length extent(const Region& region, bool across) {
  return across ? region.size.height : region.size.width;
}

Region region_of(const cut::Pattern& pattern, int index);

// The strips that all cuts of one direction make of a part, whichever was cut first.
void gather(const cut::Pattern& pattern, int index, cut::Direction direction,
            std::vector<Region>& strips) {
  if (index < 0) return;
  const cut::Part& part = pattern.parts.at(as_index(index));
  if (part.kind == cut::PartKind::Cut && part.direction == direction) {
    gather(pattern, part.first, direction, strips);
    gather(pattern, part.second, direction, strips);
    return;
  }
  Region strip = region_of(pattern, index);
  if (!strip.leftover()) strips.push_back(std::move(strip));
}

Region region_of(const cut::Pattern& pattern, int index) {
  const cut::Part& part = pattern.parts.at(as_index(index));
  Region region{{{part.width}, {part.height}}, false, {}, -1, false};
  if (part.kind == cut::PartKind::Piece) {
    region.piece = part.piece;
    region.turned = part.turned;
  } else if (part.kind == cut::PartKind::Cut) {
    region.across = part.direction == cut::Direction::Level;
    gather(pattern, index, part.direction, region.strips);
    std::stable_sort(region.strips.begin(), region.strips.end(),
                     [across = region.across](const Region& a, const Region& b) {
                       return extent(a, across) > extent(b, across);
                     });
  }
  return region;
}

class Table {
 public:
  Table(SheetLayout& layout, Length blade, const std::vector<int>& pieces)
      : layout_(layout), blade_(blade), pieces_(pieces) {}

  void lay(const Region& region, Point origin) {
    if (region.piece >= 0) {
      place(region, origin);
      return;
    }
    const Length whole = extent(region, region.across);
    std::vector<Point> corners;
    Length done{};
    for (std::size_t i = 0; i < region.strips.size(); ++i) {
      const Region& strip = region.strips[i];
      const Length wide = extent(strip, region.across);
      const Point origin_of_strip = shifted(origin, region.across, done);
      corners.push_back(origin_of_strip);
      std::vector<int> finished;
      if (strip.piece >= 0) finished.push_back(place(strip, origin_of_strip));
      if (done + wide < whole) {
        SheetLayout::Move move;
        move.number = static_cast<int>(layout_.moves.size()) + 1;
        move.across = region.across;
        move.from = {origin_of_strip, rest(region, done)};
        move.at = wide;
        move.gives = std::move(finished);
        layout_.moves.push_back(std::move(move));
      } else if (i > 0) { // the last strip is what the cut before it left over
        std::vector<int>& gives = layout_.moves.back().gives;
        gives.insert(gives.end(), finished.begin(), finished.end());
      }
      done += wide + blade_;
    }
    if (done < whole)
      layout_.leftovers.push_back({shifted(origin, region.across, done), rest(region, done)});
    for (std::size_t i = 0; i < region.strips.size(); ++i)
      if (region.strips[i].piece < 0) lay(region.strips[i], corners[i]);
  }

 private:
  static Point shifted(Point origin, bool across, Length by) {
    return across ? Point{origin.x, origin.y + by} : Point{origin.x + by, origin.y};
  }
  static Size rest(const Region& region, Length done) {
    return region.across ? Size{region.size.width, region.size.height - done}
                         : Size{region.size.width - done, region.size.height};
  }
  int place(const Region& region, Point origin) {
    layout_.pieces.push_back({at(pieces_, region.piece), {origin, region.size}, region.turned});
    return static_cast<int>(layout_.pieces.size()) - 1;
  }

  SheetLayout& layout_;
  Length blade_;
  const std::vector<int>& pieces_;
};

} // namespace

SheetLayout unfold(const cut::Pattern& pattern, Length blade, const std::vector<int>& pieces) {
  SheetLayout layout;
  layout.offer = pattern.sheet;
  layout.times = static_cast<int>(pattern.count);
  if (pattern.parts.empty()) return layout;
  const Region sheet = region_of(pattern, 0);
  layout.sheet = sheet.size;
  Table(layout, blade, pieces).lay(sheet, {});
  std::stable_sort(layout.leftovers.begin(), layout.leftovers.end(),
                   [](const Rect& a, const Rect& b) { return area(a.size) > area(b.size); });
  return layout;
}

} // namespace leafwright::supply
