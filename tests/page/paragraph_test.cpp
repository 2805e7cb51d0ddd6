#include "sample.h"

#include "page/internal/paragraph.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::page;

namespace {

struct Bench { // all that a paragraph needs around it
  text::Fonts fonts = sample::fonts();
  Template look = sample::booklet();
  LayoutInput input;
  Hyphenation hyphenation = system_hyphenation("en-US");
  FigureCache figures{figure::Look{}, fonts};
  Context context{look, fonts, input, hyphenation, figures};
};

std::string text_of(const Frame& frame) {
  std::string text;
  for (const Op& op : frame.ops) {
    if (const auto* stand = std::get_if<Inset>(&op)) text += text_of(*stand->frame);
    if (const auto* item = std::get_if<DrawItem>(&op))
      if (const auto* run = std::get_if<TextRun>(item)) text += run->shaped.text;
  }
  return text;
}

// Where the ink of a line's text ends: the last run without the space that closes it.
Length right_end(const Frame& frame, const Bench& bench) {
  Length end{};
  for (const Op& op : frame.ops) {
    const auto* item = std::get_if<DrawItem>(&op);
    const auto* run = item != nullptr ? std::get_if<TextRun>(item) : nullptr;
    if (run == nullptr) continue;
    Length right = run->baseline.x + run->shaped.width;
    std::string_view text = run->shaped.text;
    const bool closes = text.ends_with(' ');
    if (closes) {
      text.remove_suffix(1);
      right -= bench.fonts.width(run->shaped.face, run->shaped.size, " ");
    }
    right += run->word_space * std::ranges::count(text, ' ');
    end = std::max(end, right);
  }
  return end;
}

TextStyle plain_style() {
  TextStyle style;
  style.hyphenate = true;
  return style;
}

} // namespace

TEST_CASE("no line of a paragraph reaches beyond its measure") {
  Bench bench;
  sample::Dice dice(21);
  for (int round = 0; round < 60; ++round) {
    CAPTURE(round);
    TextStyle style = plain_style();
    style.align = static_cast<TextStyle::Align>(round % 4);
    const Paragraph paragraph(sample::words(sample::babble(dice, dice.between(2, 90))), style,
                              bench.context);
    const Length width = points(dice.between(90, 420));
    for (const SetLine& line : paragraph.set(width, bench.context))
      CHECK(right_end(*line.frame, bench) <= width + points(0.05));
  }
  CHECK(bench.context.findings.empty());
}

TEST_CASE("justified lines end at the measure, save the last") {
  Bench bench;
  sample::Dice dice(22);
  TextStyle style = plain_style();
  style.align = TextStyle::Align::Justified;
  const Paragraph paragraph(sample::words(sample::babble(dice, 90)), style, bench.context);
  const Length width = points(260);
  const std::vector<SetLine> lines = paragraph.set(width, bench.context);
  REQUIRE(lines.size() > 4);
  for (std::size_t i = 0; i + 1 < lines.size(); ++i)
    CHECK(in_points(right_end(*lines[i].frame, bench)) == doctest::Approx(260).epsilon(0.002));
}

TEST_CASE("all words are said in order, with a space between lines") {
  Bench bench;
  TextStyle style;
  style.hyphenate = false;
  const std::string said = "Score the kraft base at 5 1/2 in and fold it along the grain.";
  const Paragraph paragraph(sample::words(said), style, bench.context);
  std::string text;
  for (const SetLine& line : paragraph.set(points(90), bench.context)) text += text_of(*line.frame);
  CHECK(text == said);
}

TEST_CASE("a size with no-break spaces stays on one line") {
  Bench bench;
  sample::Dice dice(23);
  for (int round = 0; round < 30; ++round) {
    const std::string said =
        sample::babble(dice, dice.between(1, 9)) + " 4\u00A01/4\u00A0in " + sample::babble(dice, 6);
    const Paragraph paragraph(sample::words(said), plain_style(), bench.context);
    int found = 0;
    for (const SetLine& line : paragraph.set(points(120), bench.context))
      if (text_of(*line.frame).find("4\u00A01/4\u00A0in") != std::string::npos) ++found;
    CHECK(found == 1);
  }
}

TEST_CASE("the parts of a mixed number stand closer than words do") {
  Bench bench;
  const int face = bench.fonts.face(text::Role::Text);
  const Length mixed = shape_word("4\u00A01/4", face, points(10), false, bench.context).width;
  const Length apart = shape_word("4", face, points(10), false, bench.context).width +
                       bench.fonts.width(face, points(10), " ") +
                       shape_word("1/4", face, points(10), false, bench.context).width;
  CHECK(mixed < apart - points(1));
}

TEST_CASE("a comma after a piece's letter never begins a line") {
  Bench bench;
  sample::Dice dice(24);
  for (int round = 0; round < 60; ++round) {
    guide::Inlines text = sample::words(sample::babble(dice, dice.between(1, 12)) + " ");
    text.emplace_back(guide::PieceLetter{"C"});
    text.emplace_back(guide::Words{", then the ribbon."});
    const Paragraph paragraph(text, plain_style(), bench.context);
    for (const SetLine& line : paragraph.set(points(130), bench.context))
      CHECK_FALSE(text_of(*line.frame).starts_with(","));
  }
}

TEST_CASE("a word wider than its column is cut and told") {
  Bench bench;
  TextStyle style;
  const Paragraph paragraph(sample::words("https://fenmoor.example/averyveryverylongaddress"),
                            style, bench.context);
  const std::vector<SetLine> lines = paragraph.set(points(60), bench.context);
  CHECK(lines.size() > 1);
  for (const SetLine& line : lines) CHECK(right_end(*line.frame, bench) <= points(60));
  REQUIRE_FALSE(bench.context.findings.empty());
  for (const Finding& finding : bench.context.findings) CHECK(finding.code == "page-overfull");
}

TEST_CASE("a character that the fonts lack is named with its place") {
  Bench bench;
  bench.context.place = {0, 12, 5, 3};
  TextStyle style;
  const Paragraph paragraph(sample::words("a snowman \u2603 here"), style, bench.context);
  REQUIRE(bench.context.findings.size() == 1);
  const Finding& finding = bench.context.findings[0];
  CHECK(finding.code == "page-missing-glyph");
  CHECK(finding.found.find("U+2603") != std::string::npos);
  CHECK(finding.place.line == 12);
}

TEST_CASE("words are divided where the English patterns of libhyphen allow it") {
  const Hyphenation hyphenation = system_hyphenation("en-US");
  if (!hyphenation.loaded()) return; // the dictionary is not installed here
  // "hy-phen-ation": the example in F. M. Liang, Word Hy-phen-a-tion by Com-put-er (1983).
  const std::vector<std::size_t> points = hyphenation.points("hyphenation");
  CHECK(std::ranges::find(points, 2U) != points.end());
  CHECK(std::ranges::find(points, 6U) != points.end());
  CHECK(hyphenation.points("mat").empty());
}

TEST_CASE("lines may end where UAX #14 says") {
  // Unicode Standard Annex 14: a break after a space and after a hyphen between letters (LB18,
  // LB21), none before a comma (LB13), none at a no-break space (LB12).
  const std::string text = "top-fold card, 4\u00A0in";
  const std::vector<bool> breaks = break_opportunities(text);
  CHECK(breaks[3]);
  CHECK(breaks[8]);
  CHECK_FALSE(breaks[12]);
  CHECK(breaks[14]);
  CHECK_FALSE(breaks[text.find("\u00A0") + 1]);
}
