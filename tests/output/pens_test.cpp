#include "output/internal/picture/picture.h"
#include "output/pdf.h"
#include "output/pictures.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

// One picture, several pens: the PDF drawn by poppler, the PNG by cairo, the SVG by librsvg show
// the same.

using namespace leafwright;

namespace {

constexpr int dpi = 200;
// Programs place glyphs to a quarter of a pixel at best, and fit their stems to pixels or not.
constexpr double alike = 0.03;

picture::Pixels decoded(std::string_view png) {
  const Parsed<picture::Pixels> pixels = picture::decode_png(png);
  REQUIRE_MESSAGE(pixels.ok(), (pixels.ok() ? "" : pixels.parse_error().found));
  return *pixels;
}

struct Shown {
  page::Laid laid = sample::document();
  std::vector<Picture> pictures = sample::pictures();
};

picture::Pixels by_poppler(std::size_t page, const Shown& shown = {}) {
  const Parsed<std::string> bytes = pdf::write_pdf(shown.laid, sample::fonts(), shown.pictures);
  REQUIRE(bytes.ok());
  const std::string number = std::to_string(page + 1);
  const auto png = tools::run_on(*bytes, "pdftoppm -thinlinemode shape -png -r 200 -f " + number +
                                             " -l " + number + " {}");
  REQUIRE(png.status == 0);
  return decoded(png.output);
}
picture::Pixels by_cairo(std::size_t page, const Shown& shown = {}) {
  const page::Laid& laid = shown.laid;
  preview::PngOptions options;
  options.width_px = preview::width_at(laid.pages.at(page).size.width, dpi);
  const auto png =
      preview::render_png(laid.pages.at(page), sample::fonts(), shown.pictures, options);
  REQUIRE(png.ok());
  return decoded(*png);
}
picture::Pixels by_librsvg(std::size_t page, const Shown& shown = {}) {
  const auto svg = svg::render_svg(shown.laid.pages.at(page), sample::fonts(), shown.pictures);
  REQUIRE(svg.ok());
  const auto png = tools::run_on(*svg, "rsvg-convert -b white -d 200 -p 200 {}", ".svg");
  REQUIRE_MESSAGE(png.status == 0, png.output);
  return decoded(png.output);
}

double channel(const picture::Pixels& pixels, int x, int y, std::size_t which) {
  const auto channels = static_cast<std::size_t>(pixels.channels);
  const std::size_t at = (static_cast<std::size_t>(y) * static_cast<std::size_t>(pixels.width) +
                          static_cast<std::size_t>(x)) *
                         channels;
  return pixels.bytes.at(at + (channels == 1 ? 0 : which));
}

// Of the places where either shows something, the share that differs plainly. Means of 5 x 5 pixels
// are compared, because programs smooth edges each in its own way.
double share_that_differs(const picture::Pixels& a, const picture::Pixels& b) {
  REQUIRE(a.width == b.width);
  REQUIRE(a.height == b.height);
  constexpr int block = 5;
  constexpr double plainly = 32; // of 255
  const auto mean = [](const picture::Pixels& pixels, int x, int y, std::size_t which) {
    double sum = 0;
    for (int dy = 0; dy < block; ++dy)
      for (int dx = 0; dx < block; ++dx) sum += channel(pixels, x + dx, y + dy, which);
    return sum / (block * block);
  };
  int inked = 0, differing = 0;
  for (int y = 0; y + block <= a.height; y += block)
    for (int x = 0; x + block <= a.width; x += block) {
      double worst = 0, darkest = 255;
      for (std::size_t which = 0; which < 3; ++which) {
        const double in_a = mean(a, x, y, which), in_b = mean(b, x, y, which);
        worst = std::max(worst, std::abs(in_a - in_b));
        darkest = std::min({darkest, in_a, in_b});
      }
      if (darkest < 250) ++inked;
      if (worst > plainly) ++differing;
    }
  REQUIRE(inked > 0);
  return static_cast<double>(differing) / inked;
}

} // namespace

TEST_CASE("PDF and PNG of the same list look the same") {
  for (const std::size_t page : {0U, 1U}) {
    CAPTURE(page);
    CHECK(share_that_differs(by_poppler(page), by_cairo(page)) < alike);
  }
}

TEST_CASE("SVG and PNG of the same list look the same") {
  for (const std::size_t page : {0U, 1U}) {
    CAPTURE(page);
    CHECK(share_that_differs(by_librsvg(page), by_cairo(page)) < alike);
  }
}

TEST_CASE("all pens turn a photograph as its camera was held") {
  Shown shown;
  shown.laid = {};
  shown.laid.pages.push_back({{millimetres(50), millimetres(50)}, "1", false, {}});
  shown.laid.pages[0].items.emplace_back(Image{0, {{}, {millimetres(40), millimetres(30)}}, {}});
  shown.pictures = {sample::jpeg_picture(60, 40)};
  const picture::Pixels as_stored = by_cairo(0, shown);
  for (int orientation = 2; orientation <= 8; ++orientation) {
    CAPTURE(orientation);
    shown.pictures[0].orientation = orientation;
    const picture::Pixels seen = by_cairo(0, shown);
    CHECK(share_that_differs(by_poppler(0, shown), seen) < alike);
    CHECK(share_that_differs(by_librsvg(0, shown), seen) < alike);
    CHECK(share_that_differs(as_stored, seen) > alike);
  }
}

TEST_CASE("the comparison sees one missing part") {
  const auto without = [](std::size_t page, auto is_that_part) {
    page::Laid laid = sample::document();
    std::erase_if(laid.pages.at(page).items, is_that_part);
    preview::PngOptions options;
    options.width_px = preview::width_at(laid.pages[page].size.width, dpi);
    const auto png =
        preview::render_png(laid.pages[page], sample::fonts(), sample::pictures(), options);
    REQUIRE(png.ok());
    return decoded(*png);
  };
  const auto picture = [](const DrawItem& item) { return std::holds_alternative<Image>(item); };
  CHECK(share_that_differs(without(1, picture), by_cairo(1)) > alike);
  const auto words = [](const DrawItem& item) {
    const auto* run = std::get_if<TextRun>(&item);
    return run != nullptr && run->shaped.text.starts_with("Cut the mat");
  };
  CHECK(share_that_differs(without(0, words), by_cairo(0)) > alike);
}

TEST_CASE("a PNG is as wide as asked and knows its real size") {
  const Drawing drawing{{inches(2), inches(1)}, {}};
  preview::PngOptions options;
  options.width_px = preview::width_at(drawing.size.width, 300);
  const auto png = preview::render_png(drawing, sample::fonts(), {}, options);
  REQUIRE(png.ok());
  CHECK(decoded(*png).width == 600);
  CHECK(decoded(*png).height == 300);
  // 300 dpi = 11811 pixels a metre = 0x2e23 (ISO/IEC 15948, pHYs).
  CHECK((*png).find(std::string("pHYs\0\0\x2e\x23\0\0\x2e\x23\x01", 13)) != std::string::npos);
}

TEST_CASE("a PNG without paper is see-through") {
  Drawing drawing{{millimetres(10), millimetres(10)}, {}};
  drawing.items.emplace_back(
      Fill{sample::rectangle({{}, {millimetres(5), millimetres(10)}}), {10, 20, 30}});
  preview::PngOptions options;
  options.width_px = 10;
  options.transparent = true;
  const auto png = preview::render_png(drawing, sample::fonts(), {}, options);
  REQUIRE(png.ok());
  const picture::Pixels pixels = decoded(*png);
  REQUIRE(pixels.channels == 4);
  CHECK(pixels.bytes.at(3) == 255);
  CHECK(pixels.bytes.at(9 * 4 + 3) == 0);
}

TEST_CASE("previews and SVG are the same every time") {
  const page::Laid laid = sample::document();
  const auto pictures = sample::pictures();
  const auto png = [&] { return preview::render_png(laid.pages[1], sample::fonts(), pictures); };
  const auto svg = [&] { return svg::render_svg(laid.pages[1], sample::fonts(), pictures); };
  CHECK(*png() == *png());
  CHECK(*svg() == *svg());
}

TEST_CASE("impossible sizes are refused") {
  const Drawing flat{{millimetres(10), Length{}}, {}},
      sound{{millimetres(10), millimetres(10)}, {}};
  CHECK_FALSE(preview::render_png(flat, sample::fonts(), {}).ok());
  CHECK_FALSE(svg::render_svg(flat, sample::fonts(), {}).ok());
  for (const int width : {0, -5, 1'000'000}) {
    preview::PngOptions options;
    options.width_px = width;
    CHECK_FALSE(preview::render_png(sound, sample::fonts(), {}, options).ok());
  }
}

TEST_CASE("an SVG is in true size and sound XML") {
  const page::Laid laid = sample::document();
  svg::SvgOptions options;
  options.title = "Mat & base <1>";
  const auto svg = svg::render_svg(laid.pages[1], sample::fonts(), sample::pictures(), options);
  REQUIRE(svg.ok());
  CHECK((*svg).find("width=\"215.9mm\" height=\"279.4mm\" viewBox=\"0 0 215.9 279.4\"") !=
        std::string::npos);
  CHECK((*svg).find("M20 30L128 30L128 169.7L20 169.7Z") != std::string::npos);
  const auto lint = tools::run_on(*svg, "xmllint --noout {}", ".svg");
  CHECK_MESSAGE(lint.status == 0, lint.output);
}
