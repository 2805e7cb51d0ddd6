#include "guide/sections.h"
#include "output/internal/picture/picture.h"
#include "output/pdf.h"
#include "output/pictures.h"
#include "page/poster/internal/lettering.h"
#include "page/poster/poster.h"
#include "read/read.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

using namespace leafwright;

namespace {

const text::Fonts& fonts() {
  static const Parsed<text::Fonts> read = text::standard_fonts(LEAFWRIGHT_SOURCE_DIR "/fonts");
  REQUIRE(read.ok());
  return read.value();
}

const Project& orchard_gate() {
  static const Reading reading =
      read_project_file(LEAFWRIGHT_SOURCE_DIR "/samples/orchard-gate/project.xml");
  REQUIRE(reading.ok());
  return reading.project;
}

const poster::Style& style() {
  static const poster::Style style = [] {
    page::Template look;
    look.colours = {{"ink", {false, {38, 36, 33}, 1.0}},
                    {"quiet", {false, {0x6c, 0x66, 0x5f}, 1.0}},
                    {"ground", {false, {0xf4, 0xef, 0xe4}, 1.0}}};
    return poster::style_of(look, {0x3d, 0x5e, 0x49});
  }();
  return style;
}

std::vector<poster::Shown> shown_of(int card) {
  return poster::shown(poster::views_of(orchard_gate(), card), {millimetres(96), millimetres(96)},
                       style(), fonts());
}

const guide::Cover& cover() {
  static const guide::Section front = guide::cover_section(orchard_gate(), "");
  return std::get<guide::Cover>(front.blocks.at(0).what);
}

// The share of the pixels in which two pictures differ plainly, judged on means of 4 x 4 pixels
// since programs smooth edges each in its own way.
double share_that_differs(const picture::Pixels& a, const picture::Pixels& b) {
  REQUIRE(a.width == b.width);
  REQUIRE(a.height == b.height);
  constexpr int block = 4, plainly = 32;
  int blocks = 0, differing = 0;
  for (int y = 0; y + block <= a.height; y += block)
    for (int x = 0; x + block <= a.width; x += block) {
      int worst = 0;
      for (std::size_t channel = 0; channel < 3; ++channel) {
        int sum = 0;
        for (int dy = 0; dy < block; ++dy)
          for (int dx = 0; dx < block; ++dx) {
            const auto at = (static_cast<std::size_t>(y + dy) * static_cast<std::size_t>(a.width) +
                             static_cast<std::size_t>(x + dx)) *
                                3 +
                            channel;
            sum += a.bytes.at(at) - b.bytes.at(at);
          }
        worst = std::max(worst, std::abs(sum) / (block * block));
      }
      ++blocks;
      if (worst > plainly) ++differing;
    }
  return static_cast<double>(differing) / blocks;
}

picture::Pixels by_cairo(const Drawing& drawing, int width_px) {
  preview::PngOptions options;
  options.width_px = width_px;
  const auto png = preview::render_png(drawing, fonts(), {}, options);
  REQUIRE(png.ok());
  const auto pixels = picture::decode_png(*png);
  REQUIRE(pixels.ok());
  return *pixels;
}

picture::Pixels by_poppler(const Drawing& drawing, int width_px, int height_px) {
  page::Laid laid;
  laid.title = "one";
  laid.language = "en";
  page::Node root;
  root.type = "Document";
  laid.nodes.push_back(root);
  page::LaidPage sheet;
  sheet.size = drawing.size;
  sheet.label = "1";
  sheet.items.emplace_back(Begin{-1});
  sheet.items.insert(sheet.items.end(), drawing.items.begin(), drawing.items.end());
  sheet.items.emplace_back(End{});
  laid.pages.push_back(std::move(sheet));
  const auto pdf = pdf::write_pdf(laid, fonts(), {});
  REQUIRE(pdf.ok());
  const auto png = tools::run_on(*pdf, "pdftoppm -thinlinemode shape -png -scale-to-x " +
                                           std::to_string(width_px) + " -scale-to-y " +
                                           std::to_string(height_px) + " {}");
  REQUIRE(png.status == 0);
  const auto pixels = picture::decode_png(png.output);
  REQUIRE(pixels.ok());
  return *pixels;
}

} // namespace

TEST_CASE("a card is shown from the front, inside, in layers and at every step") {
  const std::vector<poster::CardView> views = poster::views_of(orchard_gate(), 0);
  std::set<std::string> names;
  for (const poster::CardView& view : views) {
    CAPTURE(view.name);
    CHECK(names.insert(view.name).second);
    CHECK_FALSE(view.scene.alternative.empty());
  }
  for (const char* name : {"front", "inside", "layers", "step-01", "step-02"})
    CHECK(names.contains(name));
}

TEST_CASE("the steps of a card are of one size, so that they can be shown one after another") {
  std::set<std::pair<std::int64_t, std::int64_t>> sizes;
  for (const poster::Shown& one : shown_of(0))
    if (one.name.starts_with("step-"))
      sizes.insert({one.drawing.size.width.nm, one.drawing.size.height.nm});
  CHECK(sizes.size() == 1);
}

TEST_CASE("every label of a picture finds its place") {
  for (int card = 0; card < static_cast<int>(orchard_gate().cards.size()); ++card)
    for (const poster::Shown& one : shown_of(card)) {
      CAPTURE(one.name);
      CHECK_FALSE(one.crowded);
    }
}

TEST_CASE("a poster has the proportions asked for, and everything stands inside it") {
  for (const auto& [width, height] :
       {std::pair{1080, 1080}, {1200, 630}, {1000, 1500}, {3000, 400}}) {
    CAPTURE(width);
    const Drawing drawing = poster::poster(cover(), width, height, style(), fonts());
    const picture::Pixels pixels = by_cairo(drawing, width);
    CHECK(pixels.width == width);
    CHECK(pixels.height == height);
    for (const DrawItem& item : drawing.items)
      if (const auto* run = std::get_if<TextRun>(&item); run != nullptr && run->turned.udeg == 0) {
        CAPTURE(run->shaped.text);
        CHECK(run->baseline.x + run->shaped.width <= drawing.size.width);
        CHECK(run->baseline.y <= drawing.size.height);
      }
  }
}

TEST_CASE("an upright or square poster says the price and the last day, below its cards") {
  const auto said = [](int width, int height) {
    std::string words;
    const Drawing drawing =
        poster::poster(cover(), width, height, style(), fonts(), guide::offer_line(orchard_gate()));
    for (const DrawItem& item : drawing.items)
      if (const auto* run = std::get_if<TextRun>(&item);
          run != nullptr && run->baseline.y > drawing.size.height * 9 / 10) {
        CHECK(run->baseline.y < drawing.size.height);
        words += run->shaped.text + " ";
      }
    return words;
  };
  CHECK(said(1080, 1080).find("From $9.50 · Order by March 16, 2027") != std::string::npos);
  CHECK(said(1000, 1500).find("From $9.50 · Order by March 16, 2027") != std::string::npos);
}

TEST_CASE("pictures look as in the PDF") {
  for (const poster::Shown& one : shown_of(0)) {
    if (one.name != "front" && one.name != "layers" && one.name != "step-03") continue;
    CAPTURE(one.name);
    const picture::Pixels ours = by_cairo(one.drawing, 800);
    const picture::Pixels theirs = by_poppler(one.drawing, ours.width, ours.height);
    CHECK(share_that_differs(ours, theirs) < 0.01);
  }
}

TEST_CASE("the comparison sees a missing label") {
  std::vector<poster::Shown> all = shown_of(0);
  const auto step = std::ranges::find(all, "step-07", &poster::Shown::name);
  REQUIRE(step != all.end());
  const picture::Pixels whole = by_cairo(step->drawing, 800);
  std::erase_if(step->drawing.items,
                [](const DrawItem& item) { return std::holds_alternative<Stroke>(item); });
  CHECK(share_that_differs(whole, by_cairo(step->drawing, 800)) > 0.01);
}

TEST_CASE("a contact sheet holds every picture of every card") {
  std::vector<poster::CardViews> cards;
  std::size_t views = 0;
  for (int i = 0; i < static_cast<int>(orchard_gate().cards.size()); ++i) {
    cards.push_back({orchard_gate().cards[static_cast<std::size_t>(i)].title,
                     poster::views_of(orchard_gate(), i)});
    views += cards.back().views.size();
  }
  const Drawing sheet = poster::contact_sheet(orchard_gate().title, cards, style(), fonts());
  std::size_t steps = 0;
  for (const DrawItem& item : sheet.items)
    if (const auto* run = std::get_if<TextRun>(&item))
      steps += run->shaped.text == "Front" ? 1U : 0U;
  CHECK(steps == cards.size());
  CHECK(views > 20);
  CHECK(by_cairo(sheet, 600).width == 600);
}

TEST_CASE("words are broken where they fit, and sized so that they do") {
  const Length width = millimetres(40);
  const Length size = poster::fitting_size("Orchard Gate in Spring", text::Role::Display,
                                           millimetres(20), millimetres(4), width, 2, fonts());
  const auto lines =
      poster::lines_of("Orchard Gate in Spring", text::Role::Display, size, width, fonts());
  CHECK(lines.size() <= 2);
  for (const std::string& line : lines)
    CHECK(fonts().width(fonts().face(text::Role::Display), size, line) <= width);
  CHECK(poster::lines_of("", text::Role::Text, size, width, fonts()).empty());
}
