#include "structural_cases.h"
#include "support.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace leafwright;
using namespace leafwright::test;

// Outside check: xmllint (libxml2) validates against the RELAX NG grammar that editors use.

namespace {

bool there_is_xmllint() { return std::system("xmllint --version > /dev/null 2>&1") == 0; }

std::string grammar() {
  return std::string(LEAFWRIGHT_SOURCE_DIR) + "/templates/grammar/leafwright-project.rng";
}

bool grammar_accepts(const std::string& path) {
  const std::string command =
      "xmllint --noout --relaxng '" + grammar() + "' '" + path + "' > /dev/null 2>&1";
  return std::system(command.c_str()) == 0;
}

bool grammar_accepts_text(const std::string& text) {
  const std::filesystem::path path =
      std::filesystem::path(LEAFWRIGHT_BINARY_DIR) / "grammar-test.xml";
  std::ofstream(path, std::ios::binary) << text;
  const bool accepted = grammar_accepts(path.string());
  std::filesystem::remove(path);
  return accepted;
}

} // namespace

TEST_CASE("every sample and the first project of new follow the grammar") {
  if (!there_is_xmllint()) {
    MESSAGE("xmllint is not installed: the grammar is not tested");
    return;
  }
  for (const char* sample : {"orchard-gate", "kelp-lantern", "five-minute"}) {
    CAPTURE(sample);
    CHECK(grammar_accepts(sample_path(sample)));
  }
  std::string fresh = file_text(std::string(LEAFWRIGHT_SOURCE_DIR) + "/templates/new-project.xml");
  for (const auto& [mark, value] : {std::pair<std::string, std::string>{"@ID@", "spring"},
                                    std::pair<std::string, std::string>{"@TITLE@", "Spring"}}) {
    const std::size_t at = fresh.find(mark);
    REQUIRE(at != std::string::npos);
    fresh.replace(at, mark.size(), value);
  }
  CHECK(grammar_accepts_text(fresh));
  CHECK(all_text(read_text(fresh)) == "");
}

TEST_CASE("what the reader refuses by its structure the grammar refuses too") {
  if (!there_is_xmllint()) return;
  REQUIRE(grammar_accepts_text(std::string(structural_base)));
  for (const StructuralCase& one : structural_cases) {
    CAPTURE(one.what);
    CHECK_FALSE(grammar_accepts_text(with_case(one)));
  }
}
