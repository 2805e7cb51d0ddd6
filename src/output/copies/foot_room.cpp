#include "output/copies/foot_room.h"

#include <algorithm>

namespace leafwright::copies {
namespace {

constexpr Length usual = millimetres(8);     // of the baseline above the edge
constexpr Length unprinted = millimetres(5); // common practice for office printers
constexpr Length air = micrometres(700);

Length lowest(const Path& path) {
  Length bottom{};
  for (const Segment& segment : path)
    if (segment.kind != Segment::Kind::Close) bottom = std::max(bottom, segment.end.y);
  return bottom;
}
Length highest(const Path& path, Length from) {
  for (const Segment& segment : path)
    if (segment.kind != Segment::Kind::Close) from = std::min(from, segment.end.y);
  return from;
}

} // namespace

std::optional<Length> foot_baseline(const page::LaidPage& page, Length size) {
  const Length tall = page.size.height;
  Length bottom{};
  for (const DrawItem& item : page.items) {
    if (const auto* fill = std::get_if<Fill>(&item)) {
      // What reaches the edge is a ground: the stamp stands on it.
      const Length low = lowest(fill->path);
      if (low < tall || highest(fill->path, tall) > tall / 2) bottom = std::max(bottom, low);
    } else if (const auto* stroke = std::get_if<Stroke>(&item)) {
      bottom = std::max(bottom, lowest(stroke->path) + stroke->width / 2);
    } else if (const auto* run = std::get_if<TextRun>(&item)) {
      // A quarter of its size is as deep as letters go below their line.
      if (run->turned.udeg == 0)
        bottom = std::max(bottom, run->baseline.y + run->shaped.size / 4);
      else
        bottom = std::max(bottom, run->baseline.y + run->shaped.width);
    } else if (const auto* image = std::get_if<Image>(&item)) {
      bottom = std::max(bottom, image->box.bottom());
    }
  }
  // Capitals are three quarters of the size high.
  const Length baseline = std::max(tall - usual, bottom + air + size * 3 / 4);
  if (baseline + size / 4 > tall - unprinted) return std::nullopt;
  return baseline;
}

} // namespace leafwright::copies
