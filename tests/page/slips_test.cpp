#include "sample.h"

#include "page/layout.h"

#include <doctest/doctest.h>

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>
#include <variant>
#include <vector>

// Slips four on a page, or one where it needs the whole: far more of them than are laid in one run.

using namespace leafwright;
using namespace leafwright::page;

namespace {

Template slips_template() {
  std::ifstream file(LEAFWRIGHT_SOURCE_DIR "/templates/slips.xml", std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  TemplateReading reading = read_template(text, "slips.xml");
  REQUIRE(reading.findings.empty());
  return std::move(reading.page_template);
}

constexpr int count = 347;
// Every seventh slip takes more than three quarters of a page.
bool is_long(int slip) { return slip % 7 == 3; }

guide::Document document() {
  guide::Slips slips;
  for (int i = 0; i < count; ++i) {
    guide::Slip slip;
    slip.blocks.push_back({guide::Heading{2, {}, fmt::format("Buyer-{}", i), {}, {}}, {}});
    for (int line = 0; line < (is_long(i) ? 40 : 2); ++line)
      slip.blocks.push_back(
          {guide::Paragraph{guide::Paragraph::Kind::Body, sample::words("Laid in.")}, {}});
    slips.slips.push_back(std::move(slip));
  }
  guide::Document document;
  document.title = "Slips";
  document.language = "en-US";
  guide::Section section{"slips", "Packing slips", {}};
  section.blocks.push_back({std::move(slips), {}});
  document.sections.push_back(std::move(section));
  return document;
}

const Laid& laid() {
  static const Laid made = lay_out(document(), slips_template(), sample::fonts(), {});
  return made;
}

// The pages by hand: four short ones share a page, a long one stands alone on its own.
std::vector<std::size_t> pages_by_hand() {
  std::vector<std::size_t> pages;
  std::size_t next = 0;
  int on_page = 0;
  for (int i = 0; i < count; ++i) {
    if (is_long(i) || on_page == 0 || on_page == 4) {
      ++next;
      on_page = 0;
    }
    pages.push_back(next - 1);
    on_page = is_long(i) ? 4 : on_page + 1;
  }
  return pages;
}

} // namespace

TEST_CASE("however many slips there are, each stands where counting by hand puts it") {
  const std::vector<std::size_t> wanted = pages_by_hand();
  REQUIRE(laid().pages.size() == wanted.back() + 1);
  std::vector<std::size_t> found(count, laid().pages.size());
  for (std::size_t p = 0; p < laid().pages.size(); ++p)
    for (const DrawItem& item : laid().pages[p].items)
      if (const auto* run = std::get_if<TextRun>(&item);
          run && run->shaped.text.starts_with("Buyer-"))
        found.at(std::stoul(run->shaped.text.substr(6))) = p;
  CHECK(found == wanted);
  CHECK(laid().findings.empty());
}

TEST_CASE("every slip is a part of its own in the structure, all in one section") {
  const std::vector<Node>& nodes = laid().nodes;
  const auto section = std::find_if(nodes.begin(), nodes.end(),
                                    [](const Node& node) { return node.type == "Sect"; });
  REQUIRE(section != nodes.end());
  const auto parent = static_cast<int>(section - nodes.begin());
  const auto parts = std::count_if(nodes.begin(), nodes.end(), [&](const Node& node) {
    return node.type == "Sect" && node.parent == parent;
  });
  CHECK(parts == count);
}
