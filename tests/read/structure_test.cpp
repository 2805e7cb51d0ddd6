#include "structural_cases.h"
#include "support.h"

#include "read/vocabulary.h"

#include <set>

using namespace leafwright;
using namespace leafwright::test;

TEST_CASE("the base of the structural cases is a good project") {
  CHECK(all_text(read_text(structural_base)) == "");
}

TEST_CASE("each fault of structure is a finding of its own kind") {
  for (const StructuralCase& one : structural_cases) {
    CAPTURE(one.what);
    const std::string text = with_case(one);
    REQUIRE(text != structural_base);
    const Reading reading = read_text(text);
    CAPTURE(all_text(reading));
    CHECK(has_code(reading, one.code));
  }
}

TEST_CASE("every fault of a file is found in one pass") {
  const Reading reading = read_text(project_with(R"(<panel id="a" stock="krafft" size="1/0 x 2"/>
<panel id="b" stok="kraft" inset="1/8"/>
<panle/>
<stamp image="tre" ink="mos" on="frnt"/>
<step for="x">{y} {</step>)"));
  CHECK(codes(reading) ==
        std::vector<std::string>{"read-unknown-name", "read-measure",                // krafft, 1/0
                                 "read-missing-attribute", "read-unknown-attribute", // b, stok
                                 "read-unknown-element",                             // panle
                                 "read-unknown-name", "read-unknown-name",           // tre, mos
                                 "read-unknown-name",                                // frnt
                                 "read-unknown-name", "read-unknown-name", "read-braces"}); // x, y
}

TEST_CASE("a misspelt element is led to its name, a misplaced one to its home") {
  const Reading reading = read_text(project_with("<pannel/><tier id=\"t\"/>"));
  REQUIRE(reading.findings.size() >= 2);
  CHECK(reading.findings[0].fix == "did you mean panel?");
  CHECK(reading.findings[1].fix == "<tier> belongs into <project>");
}

TEST_CASE("every element that may hold another has a rule of its own") {
  std::set<std::string_view> keys;
  for (const reading::ElementRule& rule : reading::element_rules()) keys.insert(rule.key);
  CHECK(keys.size() == reading::element_rules().size());
  for (const reading::ElementRule& rule : reading::element_rules()) {
    std::string_view rest = rule.children;
    while (!rest.empty()) {
      const std::size_t end = std::min(rest.find(' '), rest.size());
      std::string_view child = rest.substr(0, end - 1);
      const std::size_t sign = child.find('=');
      if (sign != std::string_view::npos) child.remove_prefix(sign + 1);
      CAPTURE(child);
      CHECK(keys.contains(child));
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
  }
}

TEST_CASE("a piece that is meant to hang over the edge says so") {
  const auto hangs = [](const char* written) {
    const Reading reading = read_text(project_with(
        std::string("<panel id=\"p\" stock=\"kraft\" size=\"1 x 1\" at=\"0, 0\" over-edge=\"") +
        written + "\"/>"));
    return reading.project.cards.at(0).pieces.back().may_overhang;
  };
  CHECK(hangs("yes"));
  CHECK(!hangs("no"));
}

TEST_CASE("color is colour, as an attribute and as an element, and stands once") {
  const auto with_ink = [](const std::string& color) {
    std::string text(structural_base);
    const std::string last = "</supplies>";
    return text.insert(text.find(last), "<ink id=\"new-ink\" name=\"New\" " + color + "/>");
  };
  const Reading read = read_text(with_ink("color=\"#123456\""));
  CHECK(all_text(read) == "");
  CHECK(read.project.inks.back().colour == Colour{0x12, 0x34, 0x56});
  CHECK(has_code(read_text(with_ink("color=\"#123456\" colour=\"#123456\"")), "read-twice"));
}
