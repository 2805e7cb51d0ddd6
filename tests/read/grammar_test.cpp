#include "structural_cases.h"
#include "support.h"

#include "model/form.h"
#include "read/vocabulary.h"

#include <algorithm>
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

namespace {

constexpr std::string_view table_begins =
    "<!-- From here on written by the program from its own table. -->\n\n";

// With LEAFWRIGHT_WRITE set, a file is written anew instead of compared.
void compare_file(const std::string& path, const std::string& wanted) {
  if (std::getenv("LEAFWRIGHT_WRITE") != nullptr) std::ofstream(path, std::ios::binary) << wanted;
  CHECK(file_text(path) == wanted);
}

} // namespace

TEST_CASE("the grammar and the reference are what the table makes") {
  const std::string folder = std::string(LEAFWRIGHT_SOURCE_DIR) + "/templates/grammar/";
  compare_file(folder + "leafwright-project.rng", reading::grammar_xml());
  compare_file(folder + "leafwright-project.rnc", reading::grammar_compact());
  const std::string reference = file_text(folder + "REFERENCE.md");
  const std::size_t at = reference.find(table_begins);
  REQUIRE(at != std::string::npos);
  compare_file(folder + "REFERENCE.md",
               reference.substr(0, at) + std::string(table_begins) + reading::reference_tables());
}

TEST_CASE("every attribute has one row, a type and a line of help") {
  const auto rows = reading::attribute_rows();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CAPTURE(rows[i].element);
    CAPTURE(rows[i].name);
    CHECK_FALSE(rows[i].type.empty());
    if (rows[i].name != "version" && rows[i].name != "title") CHECK_FALSE(rows[i].help.empty());
    for (std::size_t j = 0; j < i; ++j)
      CHECK_FALSE((rows[i].element == rows[j].element && rows[i].name == rows[j].name));
  }
}

TEST_CASE("the form of a card is one of the forms that the model has") {
  const auto rows = reading::attribute_rows();
  const auto row = std::ranges::find_if(rows, [](const reading::Attribute& one) {
    return one.element == "card" && one.name == "form";
  });
  REQUIRE(row != rows.end());
  const std::string listed = "|" + std::string(row->type) + "|";
  for (const FormRow& form : form_rows())
    CHECK_MESSAGE(listed.find("|" + std::string(form.word) + "|") != std::string::npos, form.word);
  CHECK(std::ranges::count(listed, '|') == static_cast<std::ptrdiff_t>(form_rows().size() + 1));
}
