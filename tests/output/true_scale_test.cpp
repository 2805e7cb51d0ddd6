#include "output/internal/picture/picture.h"
#include "output/pdf.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include <array>
#include <cmath>
#include <random>

// What is drawn is as large in the file as in the project: read back by qpdf, measured in poppler's
// picture.

using namespace leafwright;

namespace {

struct Millimetres {
  double left = 0, top = 0, width = 0, height = 0;
};

// Collects the rectangles of a page's content.
class Rectangles : public QPDFObjectHandle::ParserCallbacks {
 public:
  void handleObject(QPDFObjectHandle object, size_t, size_t) override {
    if (object.isNumber()) {
      numbers_.push_back(object.getNumericValue());
      return;
    }
    if (object.isOperator() && object.getOperatorValue() == "re" && numbers_.size() == 4)
      found.push_back({numbers_[0], numbers_[1], numbers_[2], numbers_[3]});
    numbers_.clear();
  }
  void handleEOF() override {}
  std::vector<std::array<double, 4>> found; // x y width height in points, y up

 private:
  std::vector<double> numbers_;
};

std::vector<Millimetres> rectangles_on(const std::string& pdf, std::size_t page) {
  QPDF document;
  document.processMemoryFile("test", pdf.data(), pdf.size());
  auto pages = QPDFPageDocumentHelper(document).getAllPages();
  Rectangles rectangles;
  pages.at(page).parseContents(&rectangles);
  const double page_height = pages.at(page).getMediaBox().getArrayItem(3).getNumericValue();
  constexpr double mm = 25.4 / 72;
  std::vector<Millimetres> list;
  for (const auto& [x, y, width, height] : rectangles.found)
    list.push_back({std::min(x, x + width) * mm, (page_height - std::max(y, y + height)) * mm,
                    std::abs(width) * mm, std::abs(height) * mm});
  return list;
}

std::string written(const page::Laid& laid) {
  const Parsed<std::string> bytes = pdf::write_pdf(laid, sample::fonts(), sample::pictures());
  REQUIRE(bytes.ok());
  return *bytes;
}

} // namespace

TEST_CASE("the cut rectangle of the sample is where and as large as it was drawn") {
  const auto found = rectangles_on(written(sample::document()), 1);
  REQUIRE_FALSE(found.empty());
  CHECK(std::abs(found[0].left - 20.0) < 0.01);
  CHECK(std::abs(found[0].top - 30.0) < 0.01);
  CHECK(std::abs(found[0].width - 108.0) < 0.01);
  CHECK(std::abs(found[0].height - 139.7) < 0.01);
}

TEST_CASE("any rectangle comes back within a ten-thousandth of a millimetre") {
  std::mt19937 random(20240229); // a fixed start: the same rectangles every time
  std::uniform_int_distribution<std::int64_t> place(0, 150'000'000), side(1'000, 60'000'000);
  page::Laid laid;
  laid.pages.push_back({{millimetres(210), millimetres(297)}, "1", true, {}});
  std::vector<Rect> drawn;
  for (int i = 0; i < 500; ++i) {
    drawn.push_back({{{place(random)}, {place(random)}}, {{side(random)}, {side(random)}}});
    laid.pages[0].items.emplace_back(Fill{sample::rectangle(drawn.back()), {}});
  }
  const auto found = rectangles_on(written(laid), 0);
  REQUIRE(found.size() == drawn.size());
  double worst = 0;
  for (std::size_t i = 0; i < found.size(); ++i) {
    worst = std::max({worst, std::abs(found[i].left - in_mm(drawn[i].left())),
                      std::abs(found[i].top - in_mm(drawn[i].top())),
                      std::abs(found[i].width - in_mm(drawn[i].size.width)),
                      std::abs(found[i].height - in_mm(drawn[i].size.height))});
  }
  CHECK(worst < 0.0001);
}

TEST_CASE("a template printed at 300 dpi measures right within half a pixel") {
  // 4 1/4 x 5 1/2 in at 1 in from the corner: 1275 x 1650 pixels from (300, 300).
  page::Laid laid;
  laid.pages.push_back({{inches(8, 1, 2), inches(11)}, "1", true, {}});
  laid.pages[0].items.emplace_back(
      Fill{sample::rectangle({{inches(1), inches(1)}, {inches(4, 1, 4), inches(5, 1, 2)}}), {}});
  const auto png = tools::run_on(written(laid), "pdftoppm -r 300 -png -gray {}");
  REQUIRE(png.status == 0);
  const auto pixels = picture::decode_png(png.output);
  REQUIRE(pixels.ok());
  // Coverage along a row and a column through the middle, in pixels.
  double across = 0, down = 0, before = 0;
  const auto dark = [&](int x, int y) {
    const std::size_t at = static_cast<std::size_t>(y) * static_cast<std::size_t>((*pixels).width) +
                           static_cast<std::size_t>(x);
    const auto channels = static_cast<std::size_t>((*pixels).channels);
    return (255 - (*pixels).bytes.at(at * channels)) / 255.0;
  };
  for (int x = 0; x < (*pixels).width; ++x) across += dark(x, 1000);
  for (int y = 0; y < (*pixels).height; ++y) down += dark(1000, y);
  for (int x = 0; x < 600; ++x) before += dark(x, 1000);
  CHECK(std::abs(across - 1275) < 0.5);
  CHECK(std::abs(down - 1650) < 0.5);
  CHECK(std::abs(before - 300) < 0.5);
}

TEST_CASE("A4 is as large as ISO 216 says") {
  page::Laid laid;
  laid.pages.push_back({{millimetres(210), millimetres(297)}, "1", false, {}});
  const auto info = tools::run_on(written(laid), "pdfinfo -box {}");
  CHECK_MESSAGE(info.output.find("595.276 x 841.89 pts (A4)") != std::string::npos, info.output);
  CHECK(info.output.find("TrimBox:             0.00     0.00   595.28   841.89") !=
        std::string::npos);
}
