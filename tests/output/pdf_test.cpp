#include "output/internal/picture/picture.h"
#include "output/pdf.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <string>

using namespace leafwright;
using tools::run_on;

namespace {

std::string written(const page::Laid& laid, const pdf::PdfOptions& options = {}) {
  const Parsed<std::string> bytes =
      pdf::write_pdf(laid, sample::fonts(), sample::pictures(), options);
  REQUIRE_MESSAGE(bytes.ok(), (bytes.ok() ? "" : bytes.parse_error().found));
  return *bytes;
}
std::string written(const pdf::PdfOptions& options = {}) {
  return written(sample::document(), options);
}
// Every dictionary to be read by eye.
pdf::PdfOptions loose() {
  pdf::PdfOptions options;
  options.compact = false;
  return options;
}

bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

page::Laid one_page(std::vector<DrawItem> items) {
  page::Laid laid;
  laid.title = "One page";
  laid.pages.push_back({{millimetres(100), millimetres(100)}, "1", false, std::move(items)});
  return laid;
}

} // namespace

TEST_CASE("qpdf finds nothing wrong with the file, packed or not") {
  for (const bool compact : {false, true}) {
    pdf::PdfOptions options;
    options.compact = compact;
    const auto check = run_on(written(options), "qpdf --check {}");
    CHECK_MESSAGE(check.status == 0, check.output);
  }
}

TEST_CASE("the same document gives the same bytes") {
  CHECK(written() == written());
  CHECK(written(loose()) == written(loose()));
}

TEST_CASE("another document has another identity") {
  page::Laid other = sample::document();
  other.pages[0].items.pop_back();
  other.pages[0].items.pop_back();
  const auto identity = [](const std::string& pdf) { return pdf.substr(pdf.rfind("/ID["), 72); };
  CHECK(identity(written()) != identity(written(other)));
}

// The words come out in the order of writing, fractions as digits and slash (poppler).
TEST_CASE("text copies out in reading order with its fractions") {
  const auto text = run_on(written(), "pdftotext -raw {} -");
  REQUIRE(text.status == 0);
  CHECK_MESSAGE(
      holds(text.output, "Cut the mat 1 3/8 in wide, not 4 13/16 in; see the drawing for how."),
      text.output);
  CHECK(text.output.find("Gate and trees") < text.output.find("Cut the mat"));
  CHECK(text.output.find("Base 4") < text.output.find("Tape the mat"));
}

TEST_CASE("every font is embedded, cut down and maps back to text") {
  const auto fonts = run_on(written(), "pdffonts {} | tail -n +3");
  REQUIRE(fonts.status == 0);
  int lines = 0;
  for (std::size_t at = 0; at < fonts.output.size(); at = fonts.output.find('\n', at) + 1) {
    const std::string line = fonts.output.substr(at, fonts.output.find('\n', at) - at);
    CHECK_MESSAGE(holds(line, "Identity-H       yes yes yes"), line);
    CHECK(line.find('+') == 6);
    ++lines;
  }
  CHECK(lines == 4);
}

TEST_CASE("the structure tree says what each part is, in reading order") {
  const auto tree = run_on(written(), "pdfinfo -struct-text {}");
  REQUIRE(tree.status == 0);
  // Links stand inside their paragraph, between the words around them.
  const std::string paragraph = "    P (block)\n"
                                "      \"Cut the mat 1 3/8 in wide, not 4 13/16 in; see \"\n"
                                "      Link (inline)\n"
                                "        \"the drawing\"\n"
                                "        Object ";
  CHECK_MESSAGE(holds(tree.output, paragraph), tree.output);
  CHECK(holds(tree.output, "H1 (block)\n      \"Gate and trees\""));
  CHECK(holds(tree.output, "/Scope /Column\n          \"Piece\""));
  CHECK(holds(tree.output, "/ListNumbering /Decimal"));
  CHECK(holds(tree.output, "/BBox [56.6929 281.764 481.89 706.961]"));
  // Running heads are artefacts: no part of the tree.
  CHECK_FALSE(holds(tree.output, "Orchard Gate"));
}

TEST_CASE("a figure has its description") {
  pdf::PdfOptions plain = loose();
  plain.compress = false;
  // UTF-16 of "The base": text with × goes in as UTF-16.
  CHECK(holds(written(plain), "/Alt<FEFF00540068006500200062006100730065"));
}

TEST_CASE("outline, page labels and links lead where they say") {
  const auto json = run_on(written(), "qpdf --json --json-key=outlines --json-key=pagelabels {}");
  REQUIRE(json.status == 0);
  CHECK(holds(json.output, "\"title\": \"Drawing – ½ size\""));
  CHECK(holds(json.output, "\"/S\": \"/r\""));
  CHECK(holds(json.output, "\"destpageposfrom1\": 2"));
  const auto web = run_on(written(), "pdfinfo -url {}");
  CHECK_MESSAGE(holds(web.output, "https://paper-room.example/%C3%A9"), web.output);
}

TEST_CASE("the document says who made it and in which language") {
  pdf::PdfOptions options;
  options.created = 1'000'000'000;
  const std::string bytes = written(options);
  const auto info = run_on(bytes, "TZ=UTC pdfinfo -isodates {}");
  CHECK(holds(info.output, "Title:           Orchard Gate – a tutorial"));
  CHECK(holds(info.output, "Author:          Fenmoor Paper Room"));
  CHECK(holds(info.output, "CreationDate:    2001-09-09T01:46:40Z"));
  CHECK(holds(info.output, "Tagged:          yes"));
  CHECK(holds(info.output, "PDF version:     1.7"));
  CHECK(holds(info.output, "Metadata Stream: yes"));
  const auto meta = run_on(bytes, "pdfinfo -meta {}");
  CHECK(holds(meta.output, "Four cards &amp; their envelopes"));
  CHECK(holds(written(loose()), "/Lang(en-US)"));
  CHECK(holds(written(loose()), "/DisplayDocTitle true"));
}

TEST_CASE("no date is written when none is known") {
  const std::string bytes = written(loose());
  CHECK_FALSE(holds(bytes, "/CreationDate"));
  CHECK_FALSE(holds(bytes, "xmp:CreateDate"));
}

TEST_CASE("a document with a page to scale asks not to be scaled in print") {
  CHECK(holds(written(loose()), "/PrintScaling/None"));
  page::Laid free = sample::document();
  free.pages[1].scaled = false;
  CHECK_FALSE(holds(written(free, loose()), "/PrintScaling"));
}

TEST_CASE("a link to nowhere is left out") {
  page::Laid laid = sample::document();
  laid.anchors.clear();
  const std::string bytes = written(laid);
  CHECK(run_on(bytes, "qpdf --check {}").status == 0);
  CHECK_FALSE(holds(bytes, "/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect[311.8"));
}

TEST_CASE("a document without pages is refused") {
  CHECK_FALSE(pdf::write_pdf({}, sample::fonts(), {}).ok());
}

TEST_CASE("clips nest deeper than PDF's saves go and come back right") {
  // 40 clips, each 1 mm further in; after 20 of them are taken back, the fill shows up to 20 mm.
  std::vector<DrawItem> items;
  for (int i = 0; i < 40; ++i)
    items.emplace_back(PushClip{sample::rectangle(
        {{millimetres(i), millimetres(i)}, {millimetres(100 - 2 * i), millimetres(100 - 2 * i)}})});
  const Path all = sample::rectangle({{}, {millimetres(100), millimetres(100)}});
  items.emplace_back(Fill{all, {255, 0, 0}});
  for (int i = 0; i < 20; ++i) items.emplace_back(PopClip{});
  items.emplace_back(Fill{all, {0, 0, 255}});
  for (int i = 0; i < 25; ++i) items.emplace_back(PopClip{}); // five too many
  pdf::PdfOptions plain;
  plain.compress = false;
  const std::string bytes = written(one_page(items), plain);
  CHECK(run_on(bytes, "qpdf --check {}").status == 0);
  int depth = 0, deepest = 0;
  for (std::size_t at = 0; (at = bytes.find_first_of("qQ", at)) != std::string::npos; ++at) {
    if (bytes[at - 1] != '\n' || bytes[at + 1] != '\n') continue;
    depth += bytes[at] == 'q' ? 1 : -1;
    deepest = std::max(deepest, depth);
  }
  CHECK(depth == 0);
  CHECK(deepest <= 28); // ISO 32000-1, Annex C
  // One millimetre a pixel: blue from 19 mm inwards, white outside.
  const auto png = run_on(bytes, "pdftoppm -r 25.4 -png {}");
  REQUIRE(png.status == 0);
  const auto pixels = picture::decode_png(png.output);
  REQUIRE(pixels.ok());
  const auto red_at = [&pixels](int x, int y) {
    return (*pixels).bytes.at(
        static_cast<std::size_t>((y * (*pixels).width + x) * (*pixels).channels));
  };
  CHECK(red_at(50, 50) == 0);
  CHECK(red_at(22, 50) == 0);
  CHECK(red_at(16, 50) == 255);
}

TEST_CASE("a thousand pages are one sound file") {
  page::Laid laid = sample::document();
  const page::LaidPage page = laid.pages[0];
  for (int i = 2; i < 1000; ++i) {
    laid.pages.push_back(page);
    laid.pages.back().label = std::to_string(i);
  }
  const std::string bytes = written(laid);
  const auto check = run_on(bytes, "qpdf --check {} && qpdf --show-npages {}");
  CHECK_MESSAGE(check.status == 0, check.output);
  CHECK(holds(check.output, "1000\n"));
}

TEST_CASE("what cannot be drawn is left out without harm") {
  Stroke odd;
  odd.path = sample::rectangle({{}, {millimetres(10), millimetres(10)}});
  odd.dash = {Length{}, Length{}};
  odd.opacity = 7;
  Stroke none = odd;
  none.width = {};
  TextRun faceless = sample::run("words", {millimetres(10), millimetres(10)});
  faceless.shaped.face = 77;
  const std::vector<DrawItem> items{odd,
                                    none,
                                    faceless,
                                    Fill{},
                                    Fill{{{Segment::Kind::Close, {}, {}, {}}}, {}},
                                    Image{99, {}, {}},
                                    PushClip{},
                                    Begin{12345},
                                    PopClip{},
                                    Begin{-1},
                                    Link{{}, "https://x.example", 999}};
  const auto check = run_on(written(one_page(items)), "qpdf --check {}");
  CHECK_MESSAGE(check.status == 0, check.output);
}

TEST_CASE("one glyph for two texts still copies out as each of them") {
  // Two slashes, U+002F and U+2044, share the glyph of a fraction.
  const std::string bytes =
      written(one_page({sample::run("1/2 and 3\u20444", {millimetres(10), millimetres(20)})}));
  const auto text = run_on(bytes, "pdftotext -raw {} -");
  CHECK_MESSAGE(holds(text.output, "1/2 and 3\u20444"), text.output);
}

TEST_CASE("packing makes the file smaller and keeps what it says") {
  const std::string packed = written(), plain = written(loose());
  CHECK(packed.size() < plain.size());
  CHECK(run_on(packed, "pdftotext -raw {} -").output ==
        run_on(plain, "pdftotext -raw {} -").output);
  CHECK(run_on(packed, "pdfinfo -struct-text {}").output.find("\"Gate and trees\"") !=
        std::string::npos);
}

TEST_CASE("a mixed number set close together still copies out with its space") {
  // As the page room sets it: the space between whole and fraction a hair wide.
  const TextRun close = sample::closed_up(
      sample::run("cut 4\u00a01/4 × 5\u00a01/2 in", {millimetres(10), millimetres(20)}));
  const auto text = run_on(written(one_page({close})), "pdftotext -raw {} -");
  CHECK_MESSAGE(holds(text.output, "cut 4 1/4 × 5 1/2 in"), text.output);

  // The same in the structure tree: nothing after the number is lost.
  page::Laid tagged = sample::document();
  tagged.pages[0].items.insert(tagged.pages[0].items.begin(),
                               {Begin{2}, close, End{}}); // node 2 is the heading
  const auto tree = run_on(written(tagged), "pdfinfo -struct-text {}");
  CHECK_MESSAGE(holds(tree.output, "    H1 (block)\n"
                                   "      \"cut \"\n"
                                   "      \"4 1/4\"\n"
                                   "      \" × \"\n"
                                   "      \"5 1/2\"\n"
                                   "      \" in\"\n"
                                   "      \"Gate and trees\"\n"),
                tree.output);
}

TEST_CASE("a page for a print shop has its bleed and its crop marks beyond the trimmed page") {
  page::Laid laid = one_page({sample::run("cut here", {millimetres(10), millimetres(20)})});
  laid.pages[0].bleed = millimetres(3);
  const auto boxes = [](const page::Laid& of) {
    return run_on(written(of), "pdfinfo -box {}").output;
  };
  // 100 mm is 283.46 pt, 3 mm are 8.50, 9 mm 25.51.
  CHECK_MESSAGE(holds(boxes(laid), "MediaBox:           -8.50    -8.50   291.97   291.97"),
                boxes(laid));
  CHECK(holds(boxes(laid), "BleedBox:           -8.50    -8.50   291.97   291.97"));
  CHECK(holds(boxes(laid), "TrimBox:             0.00     0.00   283.46   283.46"));
  laid.pages[0].crop_marks = true;
  CHECK(holds(boxes(laid), "MediaBox:          -25.51   -25.51   308.98   308.98"));
  CHECK(holds(boxes(laid), "BleedBox:           -8.50    -8.50   291.97   291.97"));
  // Two strokes, one for each corner's two lines: white under black.
  pdf::PdfOptions plain = loose();
  plain.compress = false;
  const std::string bytes = written(laid, plain);
  std::size_t strokes = 0;
  for (std::size_t at = 0; (at = bytes.find("\nS\n", at)) != std::string::npos; ++at) ++strokes;
  CHECK(strokes == 16);
}
