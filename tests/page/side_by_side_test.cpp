#include "sample.h"

#include "page/layout.h"

#include <doctest/doctest.h>

#include <fmt/format.h>

#include <string>
#include <string_view>

// Texts in columns: read one after the other, seen beside each other.

using namespace leafwright;
using namespace leafwright::page;

namespace {

guide::Document abreast_document(int texts, int lines) {
  guide::SideBySide abreast;
  for (int i = 0; i < texts; ++i) {
    guide::SideBySide::Text text;
    text.blocks.push_back({guide::Heading{2, {}, fmt::format("Text-{}", i), {}, {}}, {}});
    for (int line = 0; line < lines; ++line)
      text.blocks.push_back(
          {guide::Paragraph{guide::Paragraph::Kind::Body, sample::words("Said here.")}, {}});
    abreast.texts.push_back(std::move(text));
  }
  guide::Document document;
  document.title = "Abreast";
  document.language = "en-US";
  guide::Section section{"contents", "Abreast", {}};
  section.blocks.push_back({std::move(abreast), {}});
  document.sections.push_back(std::move(section));
  return document;
}

std::vector<Point> corners(const Laid& laid) {
  std::vector<Point> found;
  for (const LaidPage& page : laid.pages)
    for (const DrawItem& item : page.items)
      if (const auto* run = std::get_if<TextRun>(&item);
          run && run->shaped.text.starts_with("Text-"))
        found.push_back(run->baseline);
  return found;
}

std::vector<Point> corners_of(int texts, int lines) {
  return corners(lay_out(abreast_document(texts, lines), sample::booklet(), sample::fonts(), {}));
}

} // namespace

TEST_CASE("four short texts stand on one level, in the order in which they are read") {
  const std::vector<Point> at = corners_of(4, 2);
  REQUIRE(at.size() == 4);
  for (std::size_t i = 1; i < at.size(); ++i) {
    CHECK(at[i].y == at[0].y);
    CHECK(at[i].x > at[i - 1].x);
  }
}

TEST_CASE("more texts than a page is wide are shared out between rows of one length") {
  const std::vector<Point> at = corners_of(6, 2);
  REQUIRE(at.size() == 6);
  CHECK(at[2].y == at[0].y);
  CHECK(at[3].y > at[0].y);
  CHECK(at[3].x == at[0].x);
  CHECK(at[5].y == at[3].y);
}

TEST_CASE("texts that fill a page stand below each other and may part") {
  const std::vector<Point> at = corners_of(2, 60);
  REQUIRE(at.size() == 2);
  CHECK(at[1].x == at[0].x);
}
