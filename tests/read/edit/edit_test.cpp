#include "plan/change/compare.h"
#include "read/edit/edit.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

using namespace leafwright;

namespace {

std::string with_line_ends(std::string text, std::string_view end) {
  for (std::size_t at = text.find('\n'); at != std::string::npos;
       at = text.find('\n', at + end.size()))
    text.replace(at, 1, end);
  return text;
}

const std::string small = R"(<?xml version="1.0" encoding="UTF-8"?>
<!-- kept: <panel id="mat" size="9 x 9"/> -->
<project xmlns="urn:leafwright:project" version="1" id="p" title="P">
  <supplies>
    <stock   id='kraft'  sheet="letter"	weight="80 lb cover"/> <!-- two blanks -->
    <adhesive id="tape" kind="tape" length="300"/>
  </supplies>
  <card id="c" title="C &amp; D" form="top-fold" size="A2">
    <base stock="kraft"/>
    <panel id="mat" stock="kraft" on="front" size='4 x 5 1/4' at="centre"/>
    <panel id="top" like="mat" on="mat" size="mat.size - 1/4"/>
  </card>
</project>
<!-- and this -->
)";

std::string set(const std::string& text, const std::vector<std::string>& overrides) {
  const edit::Editing editing = edit::set_values(text, "here/p.xml", overrides);
  REQUIRE(editing.ok());
  return edit::applied(text, editing.edits);
}

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  const std::size_t at = text.find(what, text.find("<project"));
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), with);
}

std::vector<change::Thing> facts(const std::string& text,
                                 const std::vector<std::string>& overrides = {}) {
  ReadOptions options;
  options.overrides = overrides;
  const Reading reading = read_project(text, "here/p.xml", options);
  return change::facts_of(reading.project);
}

bool alike(const std::vector<change::Thing>& a, const std::vector<change::Thing>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i)
    if (a[i].key != b[i].key || a[i].facts != b[i].facts) return false;
  return true;
}

std::string sample(const char* name) {
  std::ifstream file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + name + "/project.xml",
                     std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

} // namespace

TEST_CASE("a value is changed between its own quotes and nothing else, whatever the line ends") {
  for (const std::string_view end : {"\n", "\r\n", "\r"}) {
    const std::string text = with_line_ends(small, end);
    CHECK(set(text, {"mat.size=3 x 5"}) == replaced(text, "size='4 x 5 1/4'", "size='3 x 5'"));
  }
}

TEST_CASE("a width is one side of a size") {
  CHECK(set(small, {"mat.width=3 7/8"}) == replaced(small, "'4 x 5 1/4'", "'3 7/8 x 5 1/4'"));
  CHECK(set(small, {"mat.height=5"}) == replaced(small, "'4 x 5 1/4'", "'4 x 5'"));
}

TEST_CASE("one side of a size that has no two sides is refused with what would do") {
  const edit::Editing editing = edit::set_values(small, "here/p.xml", {"top.width=3"});
  CHECK_FALSE(editing.ok());
  CHECK(editing.edits.empty());
  REQUIRE_FALSE(editing.findings.empty());
  CHECK(editing.findings.front().code == "edit-size");
}

TEST_CASE("a side beside a whole size is refused") {
  CHECK_FALSE(edit::set_values(small, "here/p.xml", {"mat.size=3 x 3", "mat.width=3"}).ok());
}

TEST_CASE("an attribute that is not there comes behind the last") {
  CHECK(set(small, {"c.minutes=40"}) == replaced(small, R"(form="top-fold" size="A2">)",
                                                 R"(form="top-fold" size="A2" minutes="40">)"));
}

TEST_CASE("signs that XML keeps for itself are written as entities") {
  CHECK(set(small, {"c.title=A \"B\" & <C>"}) ==
        replaced(small, "C &amp; D", "A &quot;B&quot; &amp; &lt;C>"));
}

TEST_CASE("several values at once, each in its place") {
  const std::string text = set(small, {"mat.width=3", "c.minutes=40", "kraft.weight=216 gsm"});
  CHECK(alike(facts(text), facts(small, {"mat.width=3", "c.minutes=40", "kraft.weight=216 gsm"})));
}

TEST_CASE("a name that nothing has is told and nothing is edited") {
  const edit::Editing editing = edit::set_values(small, "here/p.xml", {"mat.widht=3"});
  CHECK_FALSE(editing.ok());
  CHECK(editing.edits.empty());
}

TEST_CASE("what is written says what was tried: random values in a real project") {
  const std::string text = sample("orchard-gate");
  const std::vector<std::string> names = {"trees/scene.size", "trees/mat.inset", "label.raised",
                                          "trees.minutes",    "gate/latch.at",   "kraft.price",
                                          "window/tag.turn",  "full.price",      "run.of-each",
                                          "scene.width",      "scene.height",    "tie.length"};
  const std::vector<std::string> values = {"3 x 3", "1/8",   "foam", "40", "centre", "9.00",
                                           "1",     "75.00", "4",    "3",  "3 1/8",  "5"};
  std::mt19937 random(7); // NOLINT(*-msc51-cpp): the same tries each time
  for (int round = 0; round < 60; ++round) {
    std::vector<std::string> overrides;
    for (std::size_t i = 0; i < names.size(); ++i)
      if (random() % 3 == 0) overrides.push_back(names[i] + "=" + values[i]);
    const bool whole = !overrides.empty() && overrides.front().find("scene.size") == 6;
    if (whole) // sides beside a size are refused: the test below
      std::erase_if(overrides, [](const auto& one) { return one.starts_with("scene."); });
    CAPTURE(round);
    const edit::Editing editing = edit::set_values(text, "here/p.xml", overrides);
    REQUIRE(editing.ok());
    const std::string edited = edit::applied(text, editing.edits);
    CHECK(alike(facts(edited), facts(text, overrides)));
    // Comments are a good measure of what was not meant.
    CHECK(std::count(edited.begin(), edited.end(), '\n') ==
          std::count(text.begin(), text.end(), '\n'));
  }
}

TEST_CASE("a file is no different from itself") {
  CHECK(edit::patch(small, small).edits.empty());
  CHECK(edit::patch(small, with_line_ends(small, "\r\n")).edits.empty());
}

TEST_CASE("a patch gives the other file's model and keeps what it does not mean") {
  const std::string other =
      replaced(replaced(small, R"(<panel id="top" like="mat" on="mat" size="mat.size - 1/4"/>)",
                        R"(<panel id="new" stock="kraft" on="mat" inset="1/4"/>)"),
               "4 x 5 1/4", "3 x 5");
  const edit::Editing patch = edit::patch(small, other);
  const std::string patched = edit::applied(small, patch.edits);
  CHECK(alike(facts(patched), facts(other)));
  CHECK(patched.find("<!-- two blanks -->") != std::string::npos);
  CHECK(patched.find("<!-- and this -->") != std::string::npos);
}

TEST_CASE("random parts of a project taken out, put back and moved: the patch gives the model") {
  const std::string text = sample("orchard-gate");
  std::mt19937 random(11); // NOLINT(*-msc51-cpp): the same tries each time
  std::vector<std::string> lines(1);
  for (const char c : text)
    if (c == '\n')
      lines.emplace_back();
    else
      lines.back() += c;
  const auto joined = [](const std::vector<std::string>& all) {
    std::string out;
    for (const std::string& line : all) out += line + "\n";
    return out;
  };
  int tried = 0;
  for (int round = 0; round < 300; ++round) {
    std::vector<std::string> other = lines;
    for (auto n = 1 + random() % 3; n > 0; --n) {
      // Lines that hold a whole element can go or change places.
      const std::size_t i = random() % other.size();
      if (other[i].find("/>") == std::string::npos) continue;
      if (random() % 2 == 0)
        other.erase(other.begin() + static_cast<std::ptrdiff_t>(i));
      else
        std::swap(other[i], other[(i + 1) % other.size()]);
    }
    const std::string changed = joined(other);
    const Reading reading = read_project(changed, "here/p.xml");
    if (reading.project.cards.empty() || reading.project.id.empty()) continue;
    ++tried;
    CAPTURE(round);
    const std::string patched = edit::applied(text, edit::patch(text, changed).edits);
    CHECK(alike(facts(patched), facts(changed)));
  }
  CHECK(tried > 50);
}

TEST_CASE("a value that is no text is not written into the project") {
  const edit::Editing editing = edit::set_values(small, "p.xml", {"c.title=A\uFFFFB"});
  CHECK_FALSE(editing.ok());
  CHECK(editing.edits.empty());
}
