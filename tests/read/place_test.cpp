#include "read/document.h"
#include "support.h"

using namespace leafwright;
using namespace leafwright::test;

TEST_CASE("lines end at LF, CR LF or CR, and a byte order mark takes no column") {
  const SourceText source("a", "\xEF\xBB\xBF"
                               "ab\r\ncd\ref\ngh");
  CHECK(source.place(0, 3, 2) == Place{0, 1, 1, 2});
  CHECK(source.place(0, 8, 1) == Place{0, 2, 2, 1});
  CHECK(source.place(0, 10, 2) == Place{0, 3, 1, 2});
  CHECK(source.place(0, 13, 2) == Place{0, 4, 1, 2});
  CHECK(source.line(2) == "cd");
  CHECK(source.line(99).empty());
  CHECK(source.place(0, 9999, 5) == Place{0, 4, 3, 1}); // beyond the end is the end
}

TEST_CASE("columns count characters, not bytes") {
  const SourceText source("a", "\xC3\xA4\xE6\x97\xA5\xF0\x9F\x8D\x8Ex");
  CHECK(source.place(0, 9, 1) == Place{0, 1, 4, 1});
  CHECK(source.place(0, 0, 9) == Place{0, 1, 1, 3});
}

TEST_CASE("a place inside a value looks through entities and line ends") {
  const std::string text = "v=\"a &amp; b &#189;\r\n4 1 4\"";
  const SourceText source("a", text);
  const reading::Value value(source, 0, 3, text.size() - 4, reading::Value::As::Attribute);
  CHECK(value.text() == "a & b \xC2\xBD 4 1 4");
  CHECK(value.place(4, 1) == Place{0, 1, 12, 1}); // b
  CHECK(value.place(6, 2) == Place{0, 1, 14, 6}); // the whole &#189;
  CHECK(value.place(value.view().find('4'), 5) == Place{0, 2, 1, 5});
  CHECK(value.place(value.text().size(), 0).line == 2); // behind the end
}

TEST_CASE("prose keeps one blank where there were many, and its places") {
  const std::string text = "\n   Tape   {mat}\n   to &lt;front&gt; ";
  const SourceText source("a", text);
  const reading::Value value(source, 0, 0, text.size(), reading::Value::As::Prose);
  CHECK(value.text() == "Tape {mat} to <front>");
  CHECK(value.place(5, 5) == Place{0, 2, 11, 5});
  CHECK(value.place(14, 1) == Place{0, 3, 7, 4});
}

TEST_CASE("a finding stands under the very character, whatever stands before it") {
  for (const char* before : {"", "\xEF\xBB\xBF", "\r\n\r\n", "\t", "<!-- \xE6\x97\xA5 -->"}) {
    CAPTURE(before);
    std::string text =
        project_with("<panel id=\"p\" stock=\"kraft\" title=\"x\" size='4 1/4 &#120; 5 1/0'/>");
    const bool blank = *before == '\r' || *before == '\t';
    text = blank ? text.insert(text.find("<card"), before) : before + text;
    const Reading reading = read_text(text);
    REQUIRE(reading.findings.size() == 2);
    CHECK(marked(reading, reading.findings[0]) == "title");
    CHECK(marked(reading, reading.findings[1]) == "1/0");
  }
}

TEST_CASE("what a step replaces and uses is read, and other words are findings") {
  const auto step = [](std::string_view attributes) {
    return read_text(
        project_with(std::string(R"(<panel id="mat" stock="kraft" inset="1/8"/><step )") +
                     std::string(attributes) + ">Lay it on.</step>"));
  };
  const Reading good = step(R"(for="mat" instead-of="cut stick")");
  CHECK(all_text(good) == "");
  CHECK(good.project.cards.at(0).steps.at(0).instead_of == Works{Work::Cut, Work::Stick});
  CHECK(has_code(step(R"(for="mat" instead-of="cutt")"), "read-word"));
  CHECK(has_code(step(R"(instead-of="cut")"), "read-missing-attribute"));
  CHECK(has_code(step(R"(uses="kraft")"), "read-wrong-kind"));
  CHECK(has_code(step(R"(uses="nothing-such")"), "read-unknown-name"));
}
