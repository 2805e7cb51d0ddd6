#pragma once

#include "basics/parsed.h"
#include "model/project.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// Pictures of a project, read from memory for both pens. What is damaged is a misread that names
// the picture, never a crash or a picture with a grey lower half.

namespace leafwright::picture {

// Rows from the top, `channels` bytes a pixel: 1 grey, 3 red green blue, 4 with alpha (not
// premultiplied) last.
struct Pixels {
  int width = 0, height = 0, channels = 3;
  std::vector<std::uint8_t> bytes;
};

// More would take over a gigabyte of memory on the way to the page.
inline constexpr std::int64_t most_pixels = 100'000'000;

// PNG of any depth and colour kind, interlaced or not, to 8 bits (sRGB). Grey stays one channel
// where there is no alpha.
Parsed<Pixels> decode_png(std::string_view bytes);
// JPEG to grey or RGB.
Parsed<Pixels> decode_jpeg(std::string_view bytes);
// Of either kind, upright.
Parsed<Pixels> decode(const Picture& picture);
// The same JPEG without what a camera notes beside the picture (where and when it was taken, how it
// was held): that is nobody's business, and readers disagree on whether to turn the picture by it.
std::string without_exif(std::string_view jpeg);
// Turned and mirrored as an Exif orientation (1 to 8) asks.
Pixels upright(Pixels pixels, int orientation);

// What a PDF must be told of a JPEG that goes in as it is (ITU-T T.81 markers).
struct JpegFrame {
  int width = 0, height = 0;
  int components = 3;    // 1 grey, 3 colour, 4 CMYK
  bool inverted = false; // CMYK written the other way round, as the Adobe marker tells
};
// Reads the markers up to the frame, and the end, which a cut file lacks.
Parsed<JpegFrame> jpeg_frame(std::string_view bytes);

} // namespace leafwright::picture
