#include "../orchard.h"

#include "guide/announcing/announcements.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::guide;

using leafwright::test::kelp_lantern;
using leafwright::test::orchard_gate;

namespace {

Announcements filled_in(const Project& project, const std::string& text,
                        const std::string& name = "note.txt") {
  const std::vector<TextTemplate> templates{{name, text}};
  return announcements(project, supply::needs_of_kit(project), templates);
}

std::string text_of(const Project& project, const std::string& text) {
  const Announcements made = filled_in(project, text);
  REQUIRE(made.texts.size() == 1);
  return made.texts.front().text;
}

} // namespace

TEST_CASE("fields of a template become the project's words") {
  CHECK(text_of(orchard_gate(), "{title}: {makes}, by {order-by}.\n") ==
        "Orchard Gate: nine cards, by Tuesday, March 16, 2027.\n");
  CHECK(
      text_of(orchard_gate(), "{always-options}") ==
      "- Tutorial only: $9.50, by e-mail. A PDF by e-mail. Print it at home and start tonight.\n");
}

TEST_CASE("every field that is named in the help exists and says something of the sample") {
  for (const AnnouncingField& field : announcing_fields()) {
    CAPTURE(field.name);
    CHECK_FALSE(text_of(orchard_gate(), "{" + std::string(field.name) + "}").empty());
  }
}

TEST_CASE("a line is left out when a field in it has nothing to say") {
  Project project = orchard_gate();
  project.maker.web.clear();
  CHECK(text_of(project, "A\n\nSee {web}.\n\nB\n") == "A\n\nB\n");
}

TEST_CASE("two braces are a brace") { CHECK(text_of(orchard_gate(), "{{title}") == "{title}\n"); }

TEST_CASE("an unknown field is told with its line and the fields there are") {
  const Announcements made = filled_in(orchard_gate(), "Hello\n{tittle}\n");
  CHECK(made.texts.empty());
  REQUIRE(made.findings.size() == 1);
  CHECK(made.findings.front().found ==
        "line 2 of note.txt names a field {tittle}, and there is none");
  CHECK(made.findings.front().expected.find("{title}") != std::string::npos);
}

TEST_CASE("a brace that nothing closes is told") {
  const Announcements made = filled_in(orchard_gate(), "{title\n");
  REQUIRE(made.findings.size() == 1);
  CHECK(made.findings.front().severity == Severity::Error);
}

TEST_CASE("a text that is sent some days from the last day to order says on which") {
  // Tuesday 16 March 2027 less three days.
  const Announcements made = filled_in(orchard_gate(), "{send -3}\nSoon\n");
  REQUIRE(made.texts.size() == 1);
  REQUIRE(made.texts.front().send);
  CHECK(iso_text(*made.texts.front().send) == "2027-03-13");
  CHECK(made.texts.front().text == "Soon\n");
}

TEST_CASE("no text is made that speaks of what is always available where nothing is") {
  Project project = orchard_gate();
  CHECK(filled_in(project, "{only-with always}\nStill here\n").texts.size() == 1);
  for (Tier& tier : project.tiers) tier.open = Tier::Open::UntilReplyBy;
  CHECK(filled_in(project, "{only-with always}\nStill here\n").texts.empty());
}

TEST_CASE("a text longer than its name allows is told with its length") {
  // The line end is not counted.
  CHECK(filled_in(orchard_gate(), "12345\n", "caption-5.txt").findings.empty());
  const Announcements made = filled_in(orchard_gate(), "123456\n", "caption-5.txt");
  REQUIRE(made.findings.size() == 1);
  CHECK(made.findings.front().found == "caption-5.txt has 6 characters");
}

TEST_CASE("announcements say nothing of the team's options") {
  CHECK(text_of(kelp_lantern(), "{options}\n{closing}\n").find("Table set") == std::string::npos);
}

TEST_CASE("what is free is told with the option that it comes with") {
  CHECK(text_of(orchard_gate(), "{free}") ==
        "Free with “Full kit”: half of the Windfall paper pack.\n");
}

TEST_CASE("beside the texts stands what they were made for") {
  const Announcements made = filled_in(orchard_gate(), "{send -3}\nSoon\n");
  const std::string json = announcements_json(orchard_gate(), made);
  for (const char* words : {R"("edition": 3)", R"("order_by": "2027-03-16")", R"("price": 79.00)",
                            R"("send": "2027-03-13")"}) {
    CAPTURE(words);
    CHECK(json.find(words) != std::string::npos);
  }
}
