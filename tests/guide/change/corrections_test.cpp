#include "guide/plain/plain.h"
#include "two_editions.h"

#include <algorithm>

using namespace leafwright;
using namespace leafwright::guide;

namespace {

std::string all_words(const Document& document) {
  PlainLook look;
  look.width = 200;
  return plain_text(document, look);
}

bool says(const Document& document, std::string_view words) {
  std::string text = all_words(document);
  for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
    text.replace(at, 2, " ");
  return text.find(words) != std::string::npos;
}

struct Told {
  test::Edition before = test::edition();
  test::Edition after;
  change::Comparison comparison;
  explicit Told(const std::vector<std::string>& overrides)
      : after(test::edition(overrides)),
        comparison(change::compare(before.worked(), after.worked())) {}
  ChangeStory story() const { return test::story_of(before, after, comparison); }
};

} // namespace

TEST_CASE("a buyer learns the sizes that changed, was and is, and in which steps") {
  const Told told({"trees/scene.size=3 x 3"});
  const ChangeStory story = told.story();
  CHECK(concerns_buyers(story));
  const Document sheet = errata_sheet(story);
  CHECK(says(sheet, "You hold edition 3. Edition 4 changes"));
  CHECK(says(sheet, "3 1/4 × 3 1/4 in"));
  CHECK(says(sheet, "3 × 3 in"));
  CHECK(says(sheet, "In the steps read"));
}

TEST_CASE("prices and other money of the maker's never reach a buyer's corrections") {
  const Told told({"kraft.price=12.34", "full.price=81.00", "trees/scene.size=3 x 3"});
  const Document sheet = errata_sheet(told.story());
  CHECK_FALSE(says(sheet, "12.34"));
  CHECK_FALSE(says(sheet, "81.00"));
  CHECK_FALSE(says(sheet, "$"));
}

TEST_CASE("what a buyer need not know is said to be nothing") {
  const Told told({"kraft.price=12.34"});
  CHECK_FALSE(concerns_buyers(told.story()));
  CHECK(says(errata_sheet(told.story()), "needs to change nothing"));
}

TEST_CASE("papers are called by their names, not by the file's") {
  const Told told({"trees/scene.stock=sky-card"});
  const Document sheet = errata_sheet(told.story());
  CHECK(says(sheet, "Cream"));
  CHECK(says(sheet, "Sky"));
  CHECK_FALSE(says(sheet, "sky-card"));
}

TEST_CASE("a buyer is sent to the page of the booklet that she holds") {
  const Told told({"trees/scene.size=3 x 3"});
  ChangeStory story = told.story();
  for (const StepChange& step : story.steps) story.pages_before[step.anchor_before] = "77";
  CHECK(says(errata_sheet(story), "page 77"));
}

TEST_CASE("the maker's report tells what stays as it is") {
  const Told told({"trees/scene.size=3 x 3"});
  const Document report = change_report(told.story());
  CHECK(says(report, "Not affected"));
  CHECK(says(report, "“The garden gate”"));
}

TEST_CASE("nothing changed is said so, and nothing else") {
  const Told told({});
  const Document report = change_report(told.story());
  CHECK(report.sections.size() == 1);
  CHECK(says(report, "Nothing changes"));
}
