#include "support.h"

using namespace leafwright;
using namespace leafwright::test;

namespace {

const Sources two_lines{
    SourceText("a.xml", "<a>\n\tw\xC3\xB6rter \xE6\x97\xA5\xE6\x9C\xAC mat\r\n</a>")};

Finding finding_at(std::int32_t line, std::int32_t column, std::int32_t length) {
  return {Severity::Warning, "read-x", {0, line, column, length}, "f", "e", "m", {}};
}

} // namespace

TEST_CASE("the caret stands under the word, wide characters and tabs counted as they are shown") {
  CHECK(finding_text(finding_at(2, 12, 3), two_lines) ==
        "a.xml:2:12: warning: f. Expected: e. Fix: m. [read-x]\n"
        "      wörter 日本 mat\n"
        "                  ^^^\n");
  CHECK(finding_text(finding_at(2, 9, 2), two_lines) ==
        "a.xml:2:9: warning: f. Expected: e. Fix: m. [read-x]\n"
        "      wörter 日本 mat\n"
        "             ^^^^\n");
}

TEST_CASE("a long line is shown in part, the marked word inside") {
  const Sources sources{
      SourceText("b.xml", std::string(500, 'a') + "HERE" + std::string(500, 'b'))};
  ReportStyle style;
  style.width = 24;
  CHECK(finding_text(finding_at(1, 501, 4), sources, style) ==
        "b.xml:1:501: warning: f. Expected: e. Fix: m. [read-x]\n"
        "  …aaaaaaaaaHEREbbbbbbbbb…\n"
        "            ^^^^\n");
}

TEST_CASE("a finding without a line names the file alone, one without a file nothing") {
  Finding finding = finding_at(0, 0, 0);
  CHECK(finding_text(finding, two_lines) == "a.xml: warning: f. Expected: e. Fix: m. [read-x]\n");
  finding.place.file = -1;
  CHECK(finding_text(finding, two_lines) == "warning: f. Expected: e. Fix: m. [read-x]\n");
  finding.place = {7, 99, 99, 99}; // a place that does not exist does no harm
  CHECK(finding_text(finding, two_lines) == "warning: f. Expected: e. Fix: m. [read-x]\n");
}

TEST_CASE("nothing in a file can steer the terminal") {
  const Sources sources{SourceText("x\x1b[2Jy.xml", "a\x1b[31mb\xFF")};
  Finding finding = finding_at(1, 2, 1);
  finding.found = "\x1b]0;title\x07";
  const std::string text = finding_text(finding, sources);
  CHECK(text.find('\x1b') == std::string::npos);
  CHECK(text.find('\x07') == std::string::npos);
  CHECK(text.find('\xFF') == std::string::npos);
}

TEST_CASE("the JSON form is one line with every part, escaped") {
  Finding finding = finding_at(2, 12, 3);
  finding.found = "say \"x\"\\\n\x01";
  finding.trace.push_back({{0, 1, 1, 3}, "first"});
  CHECK(
      finding_json(finding, two_lines) ==
      R"({"schema":1,"severity":"warning","code":"read-x","file":"a.xml","line":2,"column":12,"length":3,)"
      R"("found":"say \"x\"\\\u000a\u0001","expected":"e","mend":"m",)"
      R"("trace":[{"file":"a.xml","line":1,"column":1,"length":3,"text":"first"}]})"
      "\n");
}

TEST_CASE("the summary counts errors and warnings") {
  CHECK(findings_summary({}) == "no errors");
  CHECK(findings_summary({finding_at(1, 1, 1)}) == "no errors and 1 warning");
  Finding error = finding_at(1, 1, 1);
  error.severity = Severity::Error;
  CHECK(findings_summary({error, error}) == "2 errors");
}
