#include "program.h"

#include "app/system/environment.h"
#include "page/template.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <regex>
#include <string>

// Handouts and editions as files. Outside checks: pdfinfo and pdftotext (poppler).

using namespace leafwright;
using test::run_program;
using test::sample;

namespace {

int pages_of(const std::string& pdf) {
  const tools::Outcome told = tools::run_on(pdf, "pdfinfo {} | sed -n 's/^Pages: *//p'");
  REQUIRE(told.status == 0);
  return std::stoi(told.output);
}

std::string words_of(const std::string& pdf) {
  return tools::run_on(pdf, "pdftotext -layout {} -").output;
}

} // namespace

TEST_CASE("each card of the sample stands on one side of a sheet") {
  tools::Folder folder;
  REQUIRE(run_program({"handouts", sample("orchard-gate"), "-o", folder.path()}).code == app::Done);
  CHECK(pages_of(tools::read_file(folder.path("orchard-gate-handouts.pdf"))) == 3);
}

TEST_CASE("no handout is set in type below 8.5 pt, and large print not below 13 pt") {
  const std::string folder = std::string(LEAFWRIGHT_SOURCE_DIR) + "/templates/";
  for (const std::string name : {"handout", "handout-close", "handout-easy", "handout-large",
                                 "handout-half", "handout-a5"}) {
    const page::TemplateReading reading =
        page::read_template(tools::read_file(folder + name + ".xml"), name);
    CHECK(reading.findings.empty());
    const Length least = points(name == "handout-large" ? 13 : 8.5);
    for (const auto& [style, set] : reading.page_template.styles) {
      CAPTURE(name);
      CAPTURE(style);
      CHECK(set.size >= least);
    }
  }
}

TEST_CASE("the teacher's set counts for the class that is named") {
  tools::Folder folder;
  REQUIRE(run_program({"handouts", sample("orchard-gate"), "--students", "12", "--tables", "3",
                       "-o", folder.path()})
              .code == app::Done);
  const std::string words =
      words_of(tools::read_file(folder.path("orchard-gate-handouts-teacher.pdf")));
  CHECK(words.find("12 students at three tables") != std::string::npos);
  CHECK(words.find("A table of four") != std::string::npos);
}

TEST_CASE("large print and the easy print are sets of their own") {
  tools::Folder folder;
  for (const char* print : {"large", "easy"})
    REQUIRE(run_program({"handouts", sample("five-minute"), "--print", print, "-o", folder.path()})
                .code == app::Done);
  for (const char* name : {"first-leaf-handouts-large.pdf", "first-leaf-handouts-easy.pdf",
                           "first-leaf-handouts-teacher-large.pdf"})
    CHECK_FALSE(tools::read_file(folder.path(name)).empty());
}

TEST_CASE("two handouts alike on a sheet stand side by side at full size") {
  tools::Folder folder;
  REQUIRE(run_program({"handouts", sample("five-minute"), "--per-sheet", "2", "-o", folder.path()})
              .code == app::Done);
  const std::string set = tools::read_file(folder.path("first-leaf-handouts-two.pdf"));
  // Letter paper on its side; the title stands twice, half a sheet (5 1/2 in = 396 pt) apart.
  const tools::Outcome size = tools::run_on(set, "pdfinfo {} | grep '^Page size'");
  CHECK(size.output.find("792 x 612") != std::string::npos);
  const tools::Outcome titles =
      tools::run_on(set, "pdftotext -f 1 -l 1 -bbox {} - | sed -n "
                         "'s/.*xMin=\"\\([0-9.]*\\)\".*>hello<.*/\\1/p' | sort -n"
                         " | awk '{ x[NR] = $1 } END { printf \"%.1f\", x[NR] - x[1] }'");
  CHECK(std::stod(titles.output) >= 395.0);
}

TEST_CASE("a buyer whose parts come cut finds envelopes and no cutting chapter") {
  tools::Folder folder;
  REQUIRE(run_program({"tutorial", sample("orchard-gate"), "--for", "full", "-o", folder.path()})
              .code == app::Done);
  const std::string words =
      words_of(tools::read_file(folder.path("orchard-gate-tutorial-full.pdf")));
  CHECK(words.find("Your envelopes") != std::string::npos);
  CHECK(words.find("How to cut it") == std::string::npos);
  CHECK(words.find("Full kit") != std::string::npos);
}

TEST_CASE("a tier that is not there is told with those that are") {
  tools::Folder folder;
  const test::Ran ran =
      run_program({"tutorial", sample("orchard-gate"), "--for", "fool", "-o", folder.path()});
  CHECK(ran.code == app::FoundErrors);
  CHECK(ran.error.find("no tier is called “fool”. Expected: one of full, cut-parts") !=
        std::string::npos);
  CHECK(tools::read_file(folder.path("orchard-gate-tutorial-fool.pdf")).empty());
}

TEST_CASE("a grey document holds no colour") {
  tools::Folder folder;
  REQUIRE(run_program({"handouts", sample("five-minute"), "--grey", "-o", folder.path()}).code ==
          app::Done);
  const std::string set = tools::read_file(folder.path("first-leaf-handouts.pdf"));
  // Colours are set in page contents by three numbers and rg or RG; all three must be alike.
  const tools::Outcome coloured = tools::run_on(
      set, "qpdf --qdf --object-streams=disable {} - | grep -aE '^([0-9.]+ ){3}(rg|RG)$'"
           " | awk '$1 != $2 || $2 != $3 { n++ } END { print n + 0 }'");
  CHECK(coloured.output == "0\n");
}

TEST_CASE("a grey web page holds no colour") {
  tools::Folder folder;
  REQUIRE(run_program({"html", sample("orchard-gate"), "--grey", "-o", folder.path()}).code ==
          app::Done);
  const std::string page = tools::read_file(folder.path("orchard-gate-tutorial.html"));
  const std::regex colour("#([0-9a-fA-F]{2})([0-9a-fA-F]{2})([0-9a-fA-F]{2})\\b");
  int seen = 0, coloured = 0;
  for (std::sregex_iterator at(page.begin(), page.end(), colour), end; at != end; ++at) {
    ++seen;
    if ((*at)[1] != (*at)[2] || (*at)[2] != (*at)[3]) ++coloured;
  }
  CHECK(seen > 100);
  CHECK(coloured == 0);
}

TEST_CASE("a fellow teacher's web page counts for her class") {
  tools::Folder folder;
  REQUIRE(
      run_program({"html", sample("five-minute"), "--students", "12", "-o", folder.path()}).code ==
      app::Done);
  const std::string page = tools::read_file(folder.path("first-leaf-tutorial-class-12.html"));
  CHECK(page.find("For a class of 12") != std::string::npos);
}
