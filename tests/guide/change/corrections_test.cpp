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
  CHECK(says(sheet, "You have edition 3. In edition 4, these things have changed"));
  CHECK(says(sheet, "3 1/4 × 3 1/4 in"));
  CHECK(says(sheet, "3 × 3 in"));
  CHECK(says(sheet, "Changes in the steps"));
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
  CHECK(says(errata_sheet(told.story()), "nothing changes for you"));
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

TEST_CASE("cut diagrams that change stand in the sheet with their order of cuts") {
  const Told told({"trees/scene.size=3 1/2 x 3 1/2"});
  const ChangeStory story = told.story();
  const auto cutting = std::ranges::find_if(story.sections, [](const SectionChange& one) {
    return std::ranges::any_of(
        one.blocks, [](const Block& block) { return std::holds_alternative<Beside>(block.what); });
  });
  REQUIRE(cutting != story.sections.end());
  const Document sheet = errata_sheet(story);
  CHECK(says(sheet, cutting->title));
  const std::vector<Block>& blocks = sheet.sections.at(0).blocks;
  CHECK(std::ranges::any_of(
      blocks, [](const Block& block) { return std::holds_alternative<Beside>(block.what); }));
}

TEST_CASE("a step whose drawing alone changes is shown with its new drawing") {
  Told told({});
  for (Section& section : told.after.tutorial.sections)
    for (Block& block : section.blocks)
      if (auto* steps = std::get_if<Steps>(&block.what); steps && steps->steps.at(0).figure)
        steps->steps[0].figure->scene.dimensions.emplace_back().words = "7 in";
  const ChangeStory story = told.story();
  REQUIRE_FALSE(story.steps.empty());
  CHECK_FALSE(story.steps[0].words);
  CHECK(concerns_buyers(story));
  CHECK(says(errata_sheet(story), "Changes in the steps"));
}

TEST_CASE("pages that no longer hold are named, and only then the rest is said to hold") {
  const Told told({"trees/scene.size=3 x 3"});
  ChangeStory story = told.story();
  CHECK_FALSE(says(errata_sheet(story), "still hold"));
  story.pages = PageChanges{30, 30, {"9"}, {"9", "12"}};
  CHECK(says(errata_sheet(story), "in place of pages 9 and 12 of your booklet"));
  CHECK(says(errata_sheet(story), "All your other pages are still right"));
}

TEST_CASE("a paper that another replaces everywhere is said once") {
  std::vector<std::string> everywhere;
  for (const char* piece :
       {"trees/scene", "trees/label", "trees/greeting", "gate/left-leaf", "gate/right-leaf",
        "gate/roundel", "gate/welcome", "window/view", "window/note", "window/tag"})
    everywhere.push_back(std::string(piece) + ".stock=sky-card");
  everywhere.emplace_back("window/base.stock=sky-card");
  const Told told(everywhere);
  const Document sheet = errata_sheet(told.story());
  CHECK(says(sheet, "Use Sky in place of Cream."));
  CHECK_FALSE(says(sheet, "Sizes and papers"));
}

TEST_CASE("the maker's report tells what stays as it is") {
  const Told told({"trees/scene.size=3 x 3"});
  const Document report = change_report(told.story());
  CHECK(says(report, "What stays the same"));
  CHECK(says(report, "“The garden gate”"));
}

TEST_CASE("nothing changed is said so, and nothing else") {
  const Told told({});
  const Document report = change_report(told.story());
  CHECK(report.sections.size() == 1);
  CHECK(says(report, "Nothing changes"));
}
