#include "program.h"

#include "app/system/environment.h"
#include "output/pdf.h"
#include "tools.h"
#include "ua_rules.h"

#include <doctest/doctest.h>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace fs = std::filesystem;
using namespace leafwright;
using app::Done;
using tools::Folder;
using tools::read_file;
using tools::run_on;

using leafwright::test::Ran;
using leafwright::test::sample;

namespace {

const char* some_variable(const char* name) {
  return std::string_view(name) == "CLASS_LOCK" ? "owner-password: apple pie\nallow: print"
                                                : nullptr;
}

test::Ran run_with_lock(const std::vector<std::string>& words) {
  return test::run_program(words, {nullptr, some_variable});
}

std::vector<fs::path> pdfs_in(const std::string& folder) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.path().extension() == ".pdf") found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

} // namespace

TEST_CASE("every document of every sample keeps the rules of PDF/UA-1 that a program can check") {
  for (const auto& [name, id] :
       {std::pair{"five-minute", "first-leaf"}, std::pair{"orchard-gate", "orchard-gate"},
        std::pair{"kelp-lantern", "kelp-lantern"}}) {
    const Folder folder;
    const Ran ran = run_with_lock({"all", sample(name), "-o", folder.path(), "--seconds", "0.1"});
    REQUIRE_MESSAGE(ran.code == Done, ran.error);
    for (const fs::path& path : pdfs_in(folder.path())) {
      CAPTURE(path.filename().string());
      CHECK(fmt::format("{}", fmt::join(ua::breaches(read_file(path.string())), "\n")) == "");
    }
    CHECK(ua::count_of(read_file(folder.path(fmt::format("{}-tutorial.pdf", id))), "Figure") > 0);
  }
}

TEST_CASE("a booklet comes as sheets to print and as pages to read") {
  const Folder folder;
  const Ran ran = run_with_lock({"booklet", sample("five-minute"), "-o", folder.path()});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  CHECK(ran.out.find("printed on both sides at 100 % and turned on the short edge") !=
        std::string::npos);
  const std::string sheets = read_file(folder.path("first-leaf-booklet.pdf"));
  const std::string pages = read_file(folder.path("first-leaf-booklet-pages.pdf"));
  CHECK(run_on(sheets, "pdfinfo {}").output.find("792 x 612 pts (letter)") != std::string::npos);
  CHECK(run_on(pages, "pdfinfo {}").output.find("396 x 612 pts") != std::string::npos);
  CHECK(ua::breaches(pages).empty());
  CHECK(run_on(sheets, "qpdf --check {}").status == 0);
}

TEST_CASE("the guides of a booklet are on whole sheets apart") {
  const Folder folder;
  const Ran ran = run_with_lock({"booklet", sample("orchard-gate"), "-o", folder.path()});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  CHECK(ran.out.find("on one side only") != std::string::npos);
  const std::string guides = read_file(folder.path("orchard-gate-booklet-guides.pdf"));
  CHECK(run_on(guides, "pdfinfo {}").output.find("612 x 792 pts (letter)") != std::string::npos);
  CHECK(ua::breaches(guides).empty());
  const std::string pages = read_file(folder.path("orchard-gate-booklet-pages.pdf"));
  CHECK(run_on(pages, "pdftotext {} -").output.find("Full-size guides") == std::string::npos);
}

TEST_CASE("a booklet for A4 has A5 pages") {
  const Folder folder;
  REQUIRE(run_with_lock({"booklet", sample("five-minute"), "--paper", "a4", "-o", folder.path()})
              .code == Done);
  CHECK(run_on(read_file(folder.path("first-leaf-booklet-pages.pdf")), "pdfinfo {}")
            .output.find("419.528 x 595.276 pts") != std::string::npos);
}

TEST_CASE("a copy for one buyer carries her name and number, and her name is in no file's name") {
  const Folder folder;
  const Ran ran = run_with_lock({"copies", sample("five-minute"), "--name", "Zoë Ångström",
                                 "--number", "2027/14", "-o", folder.path()});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  const std::string copy = read_file(folder.path("copies/first-leaf-tutorial-2027-14.pdf"));
  CHECK(run_on(copy, "pdftotext -l 1 {} -").output.find("Prepared for Zoë Ångström") !=
        std::string::npos);
  CHECK(ua::breaches(copy).empty());
}

TEST_CASE("a buyer whose parts come cut gets her edition, without the cutting") {
  const Folder folder;
  const std::string project = sample("orchard-gate");
  REQUIRE(run_with_lock({"copies", project, "--name", "Ada", "--number", "1", "--for", "full", "-o",
                         folder.path()})
              .code == Done);
  REQUIRE(run_with_lock({"copies", project, "--name", "Ada", "--number", "2", "-o", folder.path()})
              .code == Done);
  const auto text = [&folder](const char* name) {
    return run_on(read_file(folder.path(name)), "pdftotext {} -").output;
  };
  CHECK(text("copies/orchard-gate-tutorial-1.pdf").find("How to cut it") == std::string::npos);
  CHECK(text("copies/orchard-gate-tutorial-2.pdf").find("How to cut it") != std::string::npos);
  CHECK(run_with_lock({"copies", project, "--name", "Ada", "--for", "no-such-tier"}).code ==
        app::WrongUse);
}

TEST_CASE("a name the fonts cannot set stops the copies with its character") {
  const Folder folder;
  const Ran ran = run_with_lock(
      {"copies", sample("five-minute"), "--name", "李", "--number", "1", "-o", folder.path()});
  CHECK(ran.code == app::FoundErrors);
  CHECK(ran.error.find("U+674E") != std::string::npos);
  CHECK(pdfs_in(folder.path()).empty());
}

TEST_CASE("everybody on the roster gets a copy; a folder that cannot be made is told once") {
  const Folder folder;
  const Ran ran = run_with_lock({"copies", sample("orchard-gate"), "-o", folder.path()});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  const std::vector<fs::path> copies = pdfs_in(folder.path("copies"));
  CHECK(ran.out.find(fmt::format("{} copies in ", copies.size())) != std::string::npos);
  CHECK(copies.size() > 10);

  std::ofstream(folder.path("a-file")) << "in the way";
  const Ran stopped = run_with_lock({"copies", sample("five-minute"), "--name", "Ada", "--number",
                                     "1", "-o", folder.path("a-file")});
  CHECK(stopped.code == app::NotWritten);
  CHECK(stopped.error.find("cannot be made") != std::string::npos);
}

TEST_CASE("buyers whose kit has no tutorial get no copy of it, and it is said how many") {
  const Folder folder;
  fs::copy(fs::path(sample("orchard-gate")).parent_path(), folder.path("class"),
           fs::copy_options::recursive);
  std::string xml = read_file(folder.path("class/project.xml"));
  const std::size_t tier = xml.find("<tier id=\"cut-parts\"");
  REQUIRE(tier != std::string::npos);
  const std::string line = "<include item=\"tutorial\"/>";
  xml.erase(xml.find(line, tier), line.size());
  std::ofstream(folder.path("class/project.xml")) << xml;
  const std::string project = folder.path("class/project.xml");
  const auto made = [&](const std::string& from, const std::string& to) {
    REQUIRE(run_with_lock({"copies", from, "-o", folder.path(to)}).code == Done);
    return pdfs_in(folder.path(to + "/copies")).size();
  };
  const std::size_t all = made(sample("orchard-gate"), "all"), some = made(project, "some");
  CHECK(some < all);
  CHECK(run_with_lock({"copies", project, "-o", folder.path("again")})
            .out.find(fmt::format("{} orders include no tutorial", all - some)) !=
        std::string::npos);
  CHECK(run_with_lock({"copies", project, "--name", "Ada", "--for", "cut-parts"}).code ==
        app::WrongUse);
}

TEST_CASE("copies are locked from the environment, and the password is said nowhere") {
  const Folder folder;
  const Ran ran = run_with_lock({"copies", sample("five-minute"), "--name", "Ada", "--number", "1",
                                 "--lock-from", "CLASS_LOCK", "-o", folder.path()});
  REQUIRE_MESSAGE(ran.code == Done, ran.error);
  CHECK((ran.out + ran.error).find("apple") == std::string::npos);
  const std::string copy = read_file(folder.path("copies/first-leaf-tutorial-1.pdf"));
  CHECK(run_on(copy, "qpdf --show-encryption {}").output.find("AESv3") != std::string::npos);
  CHECK(run_with_lock({"copies", sample("five-minute"), "--name", "Ada", "--lock-from", "NO_SUCH"})
            .code == app::WrongUse);
}

TEST_CASE("a document says which files and settings it was made from") {
  const Folder folder;
  REQUIRE(run_with_lock({"tutorial", sample("five-minute"), "--paper", "a4", "--with-project", "-o",
                         folder.path()})
              .code == Done);
  const auto read = provenance::read_provenance(read_file(folder.path("first-leaf-tutorial.pdf")));
  REQUIRE(read.ok());
  REQUIRE((*read).provenance.has_value());
  const provenance::Provenance& from = *(*read).provenance;
  const std::string project = read_file(sample("five-minute"));
  CHECK(from.project == "first-leaf");
  CHECK(from.document == "tutorial");
  CHECK(from.settings == std::vector<std::string>{"project.paper=a4"});
  REQUIRE(from.inputs.size() >= 2);
  CHECK(from.inputs.front() == provenance::Input{"project.xml", digest::sha256(project)});
  CHECK(from.inputs.back().name == "template booklet.xml");
  REQUIRE((*read).attachments.size() == 1);
  CHECK((*read).attachments[0].bytes == project);
  CHECK(provenance::content_digest(from) == (*read).digest);
}
