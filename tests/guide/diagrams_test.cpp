#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "plan/supply/sheets.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <set>
#include <string>

using namespace leafwright;

namespace {

std::string with_plain_spaces(std::string text) {
  for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
    text.replace(at, 2, " ");
  return text;
}

// Whether a number stands in a text as a whole: not 5 in 5 1/2 or 1/2 in 3 1/2.
bool tells(const std::string& text, const std::string& number) {
  const auto part = [](char c) { return (c >= '0' && c <= '9') || c == '/' || c == '.'; };
  for (std::size_t at = text.find(number); at != std::string::npos;
       at = text.find(number, at + 1)) {
    const std::size_t end = at + number.size();
    const bool begins =
        at == 0 || !(part(text[at - 1]) || (at > 1 && text[at - 1] == ' ' && part(text[at - 2])));
    const bool ends =
        end >= text.size() ||
        !(part(text[end]) || (end + 2 < text.size() && text[end] == ' ' && part(text[end + 1]) &&
                              text.find('/', end) < text.find(' ', end + 1)));
    if (begins && ends) return true;
  }
  return false;
}

void check_diagrams(const Project& project, const supply::CuttingPlan& plan) {
  for (const supply::StockSheets& stock : plan.stocks)
    for (const supply::SheetLayout& layout : stock.layouts) {
      std::string list = size_text(layout.sheet, project.printing, true) + ". ";
      for (const guide::Inlines& item : guide::cutting_order(project, plan, layout).items)
        list += guide::spoken(item) + " ";
      list = with_plain_spaces(list);
      const figure::Scene scene = figure::sheet(project, plan, layout);
      INFO(project.title, ", ", project.stocks.at(static_cast<std::size_t>(stock.stock)).name, ": ",
           list);
      for (const figure::Dimension& one : scene.dimensions) {
        const std::string number = with_plain_spaces(one.words);
        CHECK_MESSAGE(tells(list, number), "drawn: ", number);
      }
      const auto settings = static_cast<std::size_t>(layout.work.settings);
      std::set<std::string> cuts;
      for (const figure::Badge& badge : scene.badges)
        if (badge.kind == figure::Badge::Kind::Number) cuts.insert(badge.letter);
      CHECK(cuts.size() == settings);
      for (std::size_t i = 1; i <= settings; ++i) CHECK(cuts.count(std::to_string(i)) == 1);
    }
}

} // namespace

TEST_CASE("every number in a cut diagram is in the list beside it") {
  for (const char* path :
       {"samples/orchard-gate/project.xml", "samples/kelp-lantern/project.xml",
        "samples/five-minute/project.xml", "tests/guide/sentences/metric-british.xml",
        "tests/guide/sentences/resale-edition.xml"}) {
    const Reading reading = read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/" + path);
    REQUIRE(reading.ok());
    check_diagrams(reading.project, supply::sheets_for(reading.project));
    check_diagrams(reading.project, supply::sheets_for(reading.project, 5));
  }
}
