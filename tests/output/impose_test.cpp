#include "output/booklet.h"
#include "output/pdf.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

using namespace leafwright;
using tools::run_on;

namespace {

constexpr Size letter{inches(8, 1, 2), inches(11)};
constexpr Size half_letter{inches(5, 1, 2), inches(8, 1, 2)};

// psbook's order of the same pages, 0 for a blank: read from the PostScript that it writes.
std::vector<int> psbook(int pages, int signature) {
  std::string script = fmt::format("%!PS-Adobe-3.0\n%%Pages: {}\n%%EndComments\n", pages);
  for (int page = 1; page <= pages; ++page)
    script += fmt::format("%%Page: ({0}) {0}\nshowpage\n", page);
  script += "%%Trailer\n%%EOF\n";
  const std::string option = signature > 0 ? fmt::format(" -s{}", signature) : "";
  const auto made = run_on(script, "psbook -q" + option + " {}", ".ps");
  std::vector<int> order;
  std::istringstream lines(made.output);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("%%Page:")) continue;
    order.push_back(line[8] == '*' ? 0 : std::stoi(line.substr(9)));
  }
  return order;
}

std::vector<int> ours(int pages, const impose::Binding& binding) {
  std::vector<int> order;
  for (const impose::Side& side : impose::sides(impose::filled_up(pages, binding), binding)) {
    order.push_back(side.left + 1);
    order.push_back(side.right + 1);
  }
  return order;
}

std::vector<page::LaidPage> numbered_pages(int count, Size size = half_letter) {
  std::vector<page::LaidPage> pages;
  for (int i = 1; i <= count; ++i) {
    page::LaidPage page;
    page.size = size;
    page.label = fmt::format("{}", i);
    // A word at one inch from the left and top edges tells where the page came to lie.
    page.items.emplace_back(sample::run(fmt::format("page{}", i), {inches(1), inches(1)}));
    pages.push_back(std::move(page));
  }
  return pages;
}

std::string imposed(int count, const impose::BookletOptions& options, Size page = half_letter) {
  page::Laid laid;
  laid.title = "Numbered";
  laid.pages = numbered_pages(count, page);
  impose::Imposition made = impose::booklet(laid.pages, options, sample::fonts());
  made.marks.title = "Numbered, to be folded";
  const auto pages = pdf::write_pdf(laid, sample::fonts(), {});
  const auto marks = pdf::write_pdf(made.marks, sample::fonts(), {});
  REQUIRE(pages.ok());
  REQUIRE(marks.ok());
  const auto bytes = impose::composed(
      *marks, *pages, made.sheets,
      options.flip == impose::Flip::ShortEdge ? "DuplexFlipShortEdge" : "DuplexFlipLongEdge");
  REQUIRE_MESSAGE(bytes.ok(), (bytes.ok() ? "" : bytes.parse_error().found));
  return *bytes;
}

struct Word {
  int sheet = 0;
  double x = 0, y = 0; // left and top, points from the top left corner
  std::string text;
};
// What poppler sees, and where.
std::vector<Word> words(const std::string& pdf) {
  std::vector<Word> found;
  std::istringstream lines(run_on(pdf, "pdftotext -bbox {} -").output);
  int sheet = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<page ") != std::string::npos) ++sheet;
    double left = 0, top = 0, right = 0, bottom = 0;
    char text[64] = {};
    if (std::sscanf(line.c_str(),
                    " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%63[^<]", &left,
                    &top, &right, &bottom, text) == 5)
      found.push_back({sheet, left, top, text});
  }
  return found;
}
Word word(const std::vector<Word>& all, std::string_view text) {
  const auto at =
      std::find_if(all.begin(), all.end(), [text](const Word& one) { return one.text == text; });
  REQUIRE_MESSAGE(at != all.end(), text);
  return *at;
}

impose::BookletOptions plain() {
  impose::BookletOptions options;
  options.sheet = letter;
  options.caliper = {};
  options.binding.sided = true;
  return options;
}

} // namespace

TEST_CASE("a booklet's pages come in psbook's order, whatever their number") {
  impose::Binding binding;
  binding.sided = true; // psbook puts every blank at the end
  for (const int pages : {4, 5, 6, 7, 8, 12, 23, 24, 43, 44, 64, 100})
    CHECK_MESSAGE(ours(pages, binding) == psbook(pages, 0), pages);
}

TEST_CASE("signatures come in psbook's order") {
  impose::Binding binding;
  binding.sided = true;
  binding.full_signatures = true;
  for (const int signature : {4, 8, 12, 16, 32})
    for (const int pages : {1, 16, 24, 43, 64}) {
      binding.signature = signature;
      CHECK_MESSAGE(ours(pages, binding) == psbook(pages, signature), pages, " by ", signature);
    }
}

TEST_CASE("a last signature that is not full has no more sheets than it needs") {
  impose::Binding binding;
  binding.signature = 16;
  const auto all = impose::sides(impose::filled_up(24, binding), binding);
  CHECK(all.size() == 12);
  CHECK(all.back().sheets == 2);
}

TEST_CASE("blanks stand where they do least harm") {
  constexpr int none = impose::blank;
  const auto filled = [](int pages, bool back_cover, bool sided) {
    impose::Binding binding;
    binding.back_cover = back_cover;
    binding.sided = sided;
    return impose::filled_up(pages, binding);
  };
  CHECK(filled(3, false, false) == std::vector<int>{0, 1, 2, none});
  CHECK(filled(3, true, false) == std::vector<int>{0, 1, none, 2});
  CHECK(filled(6, false, false) == std::vector<int>{0, 1, 2, 3, 4, 5, none, none});
  CHECK(filled(6, true, false) == std::vector<int>{0, none, 1, 2, 3, 4, none, 5});
  // Three: one inside the front cover, unless pages know left from right.
  CHECK(filled(5, false, false) == std::vector<int>{0, none, 1, 2, 3, 4, none, none});
  CHECK(filled(5, false, true) == std::vector<int>{0, 1, 2, 3, 4, none, none, none});
  CHECK(filled(5, true, true) == std::vector<int>{0, 1, 2, 3, none, none, none, 4});
}

TEST_CASE("a half-letter page stands on letter paper at its own size") {
  const std::string bytes = imposed(8, plain());
  CHECK(run_on(bytes, "qpdf --check {}").status == 0);
  CHECK(run_on(bytes, "pdfinfo {}").output.find("792 x 612 pts (letter)") != std::string::npos);
  const auto seen = words(bytes);
  // Outside of the first sheet: page 8 left, page 1 right of the fold, both an inch in.
  CHECK(word(seen, "page8").sheet == 1);
  CHECK(word(seen, "page8").x == doctest::Approx(72).epsilon(0.001));
  CHECK(word(seen, "page1").sheet == 1);
  CHECK(word(seen, "page1").x == doctest::Approx(396 + 72).epsilon(0.001));
  CHECK(word(seen, "page2").sheet == 2);
  CHECK(word(seen, "page2").x == doctest::Approx(72).epsilon(0.001));
  CHECK(word(seen, "page5").sheet == 4);
  CHECK(word(seen, "page5").y == doctest::Approx(word(seen, "page1").y).epsilon(0.001));
}

TEST_CASE("turned on the long edge, the inside of each sheet stands on its head") {
  impose::BookletOptions options = plain();
  options.flip = impose::Flip::LongEdge;
  const auto upright = words(imposed(8, plain())), turned = words(imposed(8, options));
  CHECK(word(turned, "page1").x == doctest::Approx(word(upright, "page1").x));
  // Half a turn about the sheet's middle: the word's right bottom corner comes to its left top.
  CHECK(word(turned, "page2").x > 396);
  CHECK(word(turned, "page2").y > 306);
}

TEST_CASE("inner sheets move towards the fold by what the outer ones push them out") {
  impose::BookletOptions options = plain();
  options.caliper = millimetres(1);
  const auto seen = words(imposed(16, options));
  const double step = in_points(millimetres(1));
  // Pages 1, 3, 5, 7 stand right of the fold on sheets 0 to 3, their even neighbours left of it.
  for (int sheet = 0; sheet < 4; ++sheet) {
    CHECK(word(seen, fmt::format("page{}", 1 + 2 * sheet)).x ==
          doctest::Approx(396 + 72 - step * sheet).epsilon(0.0005));
    CHECK(word(seen, fmt::format("page{}", 2 + 2 * sheet)).x ==
          doctest::Approx(72 + step * sheet).epsilon(0.0005));
  }
}

TEST_CASE("pages to be glued stand clear of the back that is taken off") {
  impose::BookletOptions options = plain();
  options.sheet = {inches(11), inches(17)};
  options.binding.signature = 8;
  options.spine = millimetres(3);
  options.staples = false;
  const auto seen = words(imposed(16, options));
  const double fold = in_points(inches(17)) / 2;
  CHECK(word(seen, "page1").x ==
        doctest::Approx(fold + in_points(millimetres(3)) + 72).epsilon(0.0005));
  CHECK(word(seen, "page9").sheet == 5); // the second signature begins
}

TEST_CASE("pages made for larger paper are shrunk and say so") {
  const std::string bytes = imposed(4, plain(), letter);
  const auto text = run_on(bytes, "pdftotext -layout {} -").output;
  CHECK_MESSAGE(text.find("shrunk to 65 %: measure nothing on these pages") != std::string::npos,
                text);
}

TEST_CASE("the print dialog begins with the right way to turn, and without scaling") {
  const std::string all =
      run_on(imposed(4, plain()), "qpdf --qdf --object-streams=disable {} -").output;
  CHECK(all.find("/Duplex /DuplexFlipShortEdge") != std::string::npos);
  CHECK(all.find("/PrintScaling /None") != std::string::npos);
  CHECK(all.find("/StructTreeRoot") == std::string::npos);
}

TEST_CASE("the same booklet gives the same bytes") {
  CHECK(imposed(6, plain()) == imposed(6, plain()));
}

TEST_CASE("proof sheets show every page once, in reading order") {
  page::Laid laid;
  laid.title = "Numbered";
  laid.pages = numbered_pages(7);
  impose::Imposition made = impose::proof(laid.pages, letter, 4, sample::fonts());
  REQUIRE(made.sheets.size() == 2);
  CHECK(made.scale < 1.0);
  std::vector<int> order;
  for (const impose::Sheet& sheet : made.sheets)
    for (const impose::PlacedPage& placed : sheet.pages) {
      order.push_back(placed.page);
      CHECK(Rect{{}, sheet.size}.contains(placed.clip));
    }
  CHECK(order == std::vector<int>{0, 1, 2, 3, 4, 5, 6});
  for (std::size_t a = 0; a < 4; ++a)
    for (std::size_t b = 0; b < a; ++b)
      CHECK_FALSE(made.sheets[0].pages[a].clip.overlaps(made.sheets[0].pages[b].clip));
}
