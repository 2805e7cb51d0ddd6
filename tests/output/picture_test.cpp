#include "output/internal/picture/picture.h"
#include "output/pdf.h"
#include "output/pictures.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <string>

using namespace leafwright;

namespace {

page::Laid page_with_picture() {
  page::Laid laid;
  laid.pages.push_back({{millimetres(50), millimetres(50)}, "1", false, {}});
  laid.pages[0].items.emplace_back(Image{0, {{}, {millimetres(40), millimetres(30)}}, {}});
  return laid;
}

// What each pen says of a picture: all three must refuse it and name its file.
void check_refused(const Picture& bad) {
  const page::Laid laid = page_with_picture();
  const std::vector<Picture> pictures{bad};
  const auto pdf = pdf::write_pdf(laid, sample::fonts(), pictures);
  REQUIRE_FALSE(pdf.ok());
  CHECK(pdf.parse_error().found.find(bad.path) != std::string::npos);
  CHECK_FALSE(pdf.parse_error().fix.empty());
  CHECK_FALSE(preview::render_png(laid.pages[0], sample::fonts(), pictures).ok());
  CHECK_FALSE(svg::render_svg(laid.pages[0], sample::fonts(), pictures).ok());
}

} // namespace

TEST_CASE("a picture cut short anywhere is refused by name") {
  const Picture png = sample::png_picture(64, 48, true), jpeg = sample::jpeg_picture(64, 48);
  for (const Picture& whole : {png, jpeg}) {
    for (const std::size_t tenth : {0U, 1U, 3U, 5U, 9U}) {
      Picture cut = whole;
      cut.bytes.resize(whole.bytes.size() * tenth / 10);
      CAPTURE(whole.path);
      CAPTURE(tenth);
      check_refused(cut);
    }
  }
}

TEST_CASE("a picture of the wrong kind is refused") {
  Picture wrong = sample::jpeg_picture(8, 8);
  wrong.kind = Picture::Kind::Png;
  check_refused(wrong);
  wrong = sample::png_picture(8, 8, false);
  wrong.kind = Picture::Kind::Jpeg;
  check_refused(wrong);
  wrong.bytes = "a text";
  check_refused(wrong);
}

TEST_CASE("bytes changed at random never crash a pen") {
  const page::Laid laid = page_with_picture();
  std::uint32_t state = 12345; // a small fixed generator: the same changes every time
  const auto next = [&state] { return state = state * 1664525U + 1013904223U; };
  for (const Picture& whole : {sample::png_picture(20, 20, true), sample::jpeg_picture(20, 20)})
    for (int round = 0; round < 60; ++round) {
      Picture changed = whole;
      for (int i = 0; i < 4; ++i)
        changed.bytes[next() % changed.bytes.size()] = static_cast<char>(next() >> 24U);
      const std::vector<Picture> pictures{changed};
      (void)pdf::write_pdf(laid, sample::fonts(), pictures);
      (void)preview::render_png(laid.pages[0], sample::fonts(), pictures);
    }
  CHECK(true);
}

TEST_CASE("a PNG whose size is a lie is refused before memory is asked for") {
  Picture huge = sample::png_picture(8, 8, false);
  huge.bytes.replace(16, 8, std::string("\x7f\xff\xff\xff\x7f\xff\xff\xff", 8));
  check_refused(huge);
}

TEST_CASE("transparency goes into the PDF as a soft mask, an opaque picture has none") {
  const auto masked = [](bool alpha) {
    const std::vector<Picture> pictures{sample::png_picture(8, 8, alpha)};
    const auto pdf = pdf::write_pdf(page_with_picture(), sample::fonts(), pictures);
    REQUIRE(pdf.ok());
    return (*pdf).find("/SMask") != std::string::npos;
  };
  CHECK(masked(true));
  CHECK_FALSE(masked(false));
}

TEST_CASE("a JPEG goes into the PDF byte for byte, once, however often it is shown") {
  const std::vector<Picture> pictures{sample::jpeg_picture(32, 32)};
  page::Laid laid = page_with_picture();
  laid.pages[0].items.push_back(laid.pages[0].items[0]);
  const auto pdf = pdf::write_pdf(laid, sample::fonts(), pictures);
  REQUIRE(pdf.ok());
  const std::size_t at = (*pdf).find(pictures[0].bytes);
  CHECK(at != std::string::npos);
  CHECK((*pdf).find(pictures[0].bytes, at + 1) == std::string::npos);
  // pdfimages of poppler finds it as a JPEG of its size.
  const auto list = tools::run_on(*pdf, "pdfimages -list {} | tail -n 1");
  CHECK_MESSAGE(list.output.find("32    32  rgb     3   8  jpeg") != std::string::npos,
                list.output);
}

TEST_CASE("pixels come out as they went in") {
  const auto pixels = picture::decode_png(sample::png_bytes(4, 4, false));
  REQUIRE(pixels.ok());
  CHECK((*pixels).channels == 3);
  CHECK((*pixels).bytes.at(0) == 200);
  CHECK((*pixels).bytes.at(1) == 40);
}

TEST_CASE("a JPEG's frame is read from its markers") {
  const auto frame = picture::jpeg_frame(sample::jpeg_bytes(33, 21));
  REQUIRE(frame.ok());
  CHECK((*frame).width == 33);
  CHECK((*frame).height == 21);
  CHECK((*frame).components == 3);
}

TEST_CASE("a stored picture is turned as its camera was held") {
  // CIPA DC-008, table of tag 274: where the stored first row and first column are seen.
  struct Held {
    int orientation;
    bool first_row_vertical; // seen as a column
    int corner_x, corner_y;  // where the stored top left pixel is seen: 0 near, 1 far
  };
  constexpr Held table[] = {{1, false, 0, 0}, {2, false, 1, 0}, {3, false, 1, 1}, {4, false, 0, 1},
                            {5, true, 0, 0},  {6, true, 1, 0},  {7, true, 1, 1},  {8, true, 0, 1}};
  for (const Held& held : table) {
    CAPTURE(held.orientation);
    picture::Pixels stored{3, 2, 1, {1, 2, 3, 4, 5, 6}};
    const picture::Pixels seen = picture::upright(stored, held.orientation);
    REQUIRE(seen.width == (held.first_row_vertical ? 2 : 3));
    const int x = held.corner_x * (seen.width - 1), y = held.corner_y * (seen.height - 1);
    const auto at = [&](int px, int py) {
      return seen.bytes.at(static_cast<std::size_t>(py * seen.width + px));
    };
    CHECK(at(x, y) == 1);
    // The stored first row runs on from there.
    const int step_x = held.first_row_vertical ? 0 : (held.corner_x == 0 ? 1 : -1);
    const int step_y = held.first_row_vertical ? (held.corner_y == 0 ? 1 : -1) : 0;
    CHECK(at(x + step_x, y + step_y) == 2);
    CHECK(at(x + 2 * step_x, y + 2 * step_y) == 3);
  }
}

TEST_CASE("what a camera notes beside a picture does not go out with it") {
  Picture noted = sample::jpeg_picture(16, 8);
  noted.bytes.insert(2, std::string("\xff\xe1\x00\x10"
                                    "Exif\0\0where it",
                                    18));
  const std::vector<Picture> pictures{noted};
  CHECK(picture::decode(noted).ok());
  CHECK(picture::without_exif(noted.bytes) == sample::jpeg_picture(16, 8).bytes);
  const auto pdf = pdf::write_pdf(page_with_picture(), sample::fonts(), pictures);
  REQUIRE(pdf.ok());
  CHECK((*pdf).find("where it") == std::string::npos);
}
