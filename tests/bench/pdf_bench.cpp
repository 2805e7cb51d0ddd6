// How long a laid-out document takes to become a PDF, and a personal copy of it, against libharu
// writing the same pages, runs and paths. Prints the median of the rounds. Usage: pdf_bench [pages]
// [rounds]

#include "pdf_bench.h"

#include "output/copies.h"
#include "output/pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <functional>
#include <span>
#include <vector>

using namespace leafwright;
using bench::Load;

namespace {

Path rectangle(Rect box) {
  using Kind = Segment::Kind;
  return {{Kind::Move, {}, {}, box.origin},
          {Kind::Line, {}, {}, {box.right(), box.top()}},
          {Kind::Line, {}, {}, {box.right(), box.bottom()}},
          {Kind::Line, {}, {}, {box.left(), box.bottom()}},
          {Kind::Close, {}, {}, {}}};
}

int add_node(page::Laid& laid, const char* type, int parent) {
  page::Node node;
  node.type = type;
  node.parent = parent;
  laid.nodes.push_back(std::move(node));
  return static_cast<int>(laid.nodes.size()) - 1;
}

// A booklet page: a heading, 14 lines of text, 30 drawn pieces filled and outlined.
void add_page(page::Laid& laid, const text::Fonts& fonts, int number) {
  page::LaidPage page{{inches(8, 1, 2), inches(11)}, std::to_string(number), true, {}};
  const int section = add_node(laid, "Sect", 0);
  const auto run = [&](int node, std::string words, Length y, text::Role role, Length size) {
    page.items.emplace_back(Begin{node});
    TextRun made;
    made.shaped = fonts.shape(fonts.face(role), size, words);
    made.baseline = {millimetres(20), y};
    page.items.emplace_back(std::move(made));
    page.items.emplace_back(End{});
  };
  run(add_node(laid, "H1", section), fmt::format("Chapter {}", number), millimetres(25),
      text::Role::Display, points(20));
  const int paragraph = add_node(laid, "P", section);
  for (int line = 0; line < 14; ++line)
    run(paragraph,
        fmt::format("Tape piece {} of page {}, 4 {}/16 in wide, to the middle of the mat. ", line,
                    number, 2 * line + 1),
        millimetres(35 + 5 * line), text::Role::Text, points(10));
  page.items.emplace_back(Begin{add_node(laid, "Figure", section)});
  for (int piece = 0; piece < 30; ++piece) {
    const Rect box{{millimetres(20 + 27 * (piece % 6)), millimetres(115 + 27 * (piece / 6))},
                   {millimetres(24), micrometres(20'000 + 137 * piece)}};
    page.items.emplace_back(
        Fill{rectangle(box), {static_cast<std::uint8_t>(200 + piece), 214, 180}});
    Stroke outline;
    outline.path = rectangle(box);
    page.items.emplace_back(std::move(outline));
  }
  page.items.emplace_back(End{});
  laid.pages.push_back(std::move(page));
}

Load load_of(const page::Laid& laid) {
  Load load{laid.pages.size(), 0, 0, 0};
  for (const page::LaidPage& page : laid.pages)
    for (const DrawItem& item : page.items) {
      if (const auto* run = std::get_if<TextRun>(&item)) {
        ++load.runs;
        load.glyphs += run->shaped.glyphs.size();
      } else if (std::holds_alternative<Fill>(item) || std::holds_alternative<Stroke>(item)) {
        ++load.paths;
      }
    }
  return load;
}

void measure(const char* what, int rounds, const std::function<std::string()>& write) {
  std::vector<double> times;
  std::size_t bytes = 0;
  for (int round = 0; round < rounds; ++round) {
    const auto start = std::chrono::steady_clock::now();
    bytes = write().size();
    times.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
            .count());
  }
  std::sort(times.begin(), times.end());
  fmt::print("{:34} median {:8.2f} ms, best {:8.2f} ms, {:9} bytes\n", what,
             times[times.size() / 2], times.front(), bytes);
}

} // namespace

int main(int argc, char** argv) {
  const std::span arguments(argv, static_cast<std::size_t>(argc));
  const int pages = arguments.size() > 1 ? std::atoi(arguments[1]) : 24;
  const int rounds = arguments.size() > 2 ? std::max(1, std::atoi(arguments[2])) : 21;
  const std::string folder = LEAFWRIGHT_SOURCE_DIR "/fonts";
  const Parsed<text::Fonts> fonts = text::standard_fonts(folder);
  if (!fonts) {
    fmt::print(stderr, "{}\n", fonts.parse_error().found);
    return 1;
  }
  page::Laid laid;
  laid.title = "Benchmark";
  laid.language = "en-US";
  add_node(laid, "Document", -1);
  for (int page = 1; page <= pages; ++page) add_page(laid, *fonts, page);
  const Load load = load_of(laid);
  fmt::print("{} pages, {} runs, {} glyphs, {} paths, {} structure nodes\n", load.pages, load.runs,
             load.glyphs, load.paths, laid.nodes.size());

  const auto ours = [&](const page::Laid& document, pdf::PdfOptions options) {
    const Parsed<std::string> bytes = pdf::write_pdf(document, *fonts, {}, options);
    return bytes ? *bytes : std::string();
  };
  pdf::PdfOptions loose, plain;
  loose.compact = plain.compact = false;
  plain.compress = false;
  page::Laid untagged = laid;
  untagged.nodes.clear();
  measure("libharu alone, untagged (floor)", rounds,
          [&] { return bench::write_floor(laid, folder); });
  measure("write_pdf, untagged", rounds, [&] { return ours(untagged, {}); });
  measure("write_pdf, tagged", rounds, [&] { return ours(laid, {}); });
  measure("write_pdf, tagged, not compressed", rounds, [&] { return ours(laid, plain); });
  measure("write_pdf, tagged, objects not packed", rounds, [&] { return ours(laid, loose); });

  // Personal copies, each for another buyer.
  const Parsed<copies::CopyStamper> press = copies::CopyStamper::made(laid, *fonts, {}, {});
  if (!press) return 1;
  int buyer = 0;
  measure("one personal copy", 500, [&] {
    ++buyer;
    const Parsed<std::string> copy =
        (*press).copy({fmt::format("Ada Quillfeather-Åsgard the {}th", buyer),
                       std::to_string(buyer), "Edition 3"});
    return copy ? *copy : std::string();
  });
  copies::Lock lock;
  lock.owner_password = "a long walk";
  const Parsed<std::string> one = (*press).copy({"Ada Quillfeather", "1", "Edition 3"});
  measure("locking one copy", rounds, [&] {
    const Parsed<std::string> shut = copies::locked(*one, lock);
    return shut ? *shut : std::string();
  });
}
