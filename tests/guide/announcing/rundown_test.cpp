#include "../orchard.h"

#include "guide/announcing/rundown.h"

#include "guide/announcing/internal/rundown_parts.h"
#include "guide/prose.h"
#include "model/item.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::guide;

using leafwright::test::kelp_lantern;
using leafwright::test::orchard_gate;

namespace {

Rundown told_of(const Project& project, Tier::Audience audience = Tier::Audience::Anyone) {
  return rundown(project, supply::needs_of_kit(project), audience);
}

// Everything said, a paragraph a line, with common blanks.
std::string said_in(const Rundown& told) {
  std::string text;
  for (const RundownPart& part : told.parts)
    for (const std::string& one : part.say) text += one + "\n";
  return std::regex_replace(text, std::regex("\u00A0"), " ");
}

bool says(const Rundown& told, std::string_view words) {
  return said_in(told).find(words) != std::string::npos;
}

std::vector<std::string> lines_in(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

} // namespace

TEST_CASE("a talk tells what is on the table, then the cards, the options and the dates") {
  std::vector<std::string> titles;
  for (const RundownPart& part : told_of(orchard_gate()).parts) titles.push_back(part.title);
  CHECK(titles == std::vector<std::string>{"Welcome", "Orchard Gate stamp set", "Dies", "Papers",
                                           "Ribbon and trims", "Card 1: Under the trees",
                                           "Card 2: The garden gate", "Card 3: Apple at the window",
                                           "Option 1: Full kit", "Option 2: Parts kit",
                                           "Option 3: Paper kit", "Option 4: Tutorial only",
                                           "Swaps", "Who else it suits", "Dates", "Close"});
}

TEST_CASE("every image and greeting of a stamp set is named, also one that no card uses") {
  Project project = orchard_gate();
  StampSet& set = project.stamp_sets.front();
  StampImage spare = set.images.front();
  spare.id = spare.name = "beehive";
  set.images.push_back(spare);
  const std::string said = said_in(told_of(project));
  for (const StampImage& image : set.images) {
    CAPTURE(image.name);
    CHECK(said.find(image.name) != std::string::npos);
  }
  CHECK(said.find("We don't use the beehive in this class.") != std::string::npos);
}

TEST_CASE("each die is told beside what it cuts, a window as a window") {
  const Rundown told = told_of(orchard_gate());
  CHECK(says(told, "The apple die cuts the apple."));
  CHECK(says(told, "cuts the window of the striped frame."));
}

TEST_CASE("a card is told with its inks and its greeting") {
  const Rundown told = told_of(orchard_gate());
  CHECK(says(told, "The inks are moss, rust and plum. The greeting is “come on in”."));
}

TEST_CASE("amounts, prices and what is free are those of the project") {
  Project project = orchard_gate();
  const Rundown told = told_of(project);
  CHECK(says(told, "36 in of rust grosgrain ribbon"));
  CHECK(says(told, "nine cream A2 envelopes"));
  CHECK(says(told, "Free with this kit: half of the Windfall paper pack, worth $4.00."));
  CHECK(says(told, "It's $79.00 plus shipping."));
  CHECK(says(told, "It's $29.00 plus $6.50 shipping."));
  CHECK(says(told, "It's $9.50, by e-mail."));
  project.tiers.front().price->minor = 8150;
  CHECK(says(told_of(project), "It's $81.50 plus shipping."));
  CHECK_FALSE(says(told_of(project), "$79.00"));
}

TEST_CASE("a talk says its dates with their weekdays") {
  // ISO 8601: 2027-W11-2, 2027-W13-5, 2027-W15-6.
  const Rundown told = told_of(orchard_gate());
  CHECK(says(told, "Order by Tuesday, March 16, 2027."));
  CHECK(says(told, "Kits ship by Friday, April 2, 2027."));
  CHECK(says(told, "I teach it on Saturday, April 17, 2027 at 10:00"));
}

TEST_CASE("what is shown before the options holds no measure beside those in names") {
  for (const Project* project : {&orchard_gate(), &kelp_lantern()}) {
    for (const RundownPart& part : told_of(*project).parts) {
      if (part.title.starts_with("Option")) break;
      std::string text = part.show;
      for (const std::string& one : part.say) text += " " + one;
      for_each_list(*project, [&](ItemKind kind, const auto& list) {
        for (std::size_t i = 0; i < list.size(); ++i) {
          const std::string name = item_noun(*project, {kind, static_cast<int>(i)});
          if (const auto at = text.find(name); at != std::string::npos) text.erase(at, name.size());
        }
      });
      CAPTURE(text);
      CHECK_FALSE(std::regex_search(text, std::regex("[0-9](\u00A0| )(in|mm|cm)\\b")));
    }
  }
}

TEST_CASE("of the team's options only the team's own talk tells") {
  CHECK_FALSE(says(told_of(kelp_lantern()), "Table set"));
  const Rundown team = told_of(kelp_lantern(), Tier::Audience::Team);
  CHECK(says(team, "Table set"));
  CHECK_FALSE(says(team, "Evening box"));
}

TEST_CASE("a talk in British English speaks of postage") {
  CHECK(says(told_of(kelp_lantern()), "plus €5.90 postage."));
}

TEST_CASE("the prompter has each sentence on a line of its own, with nothing lost") {
  const Rundown told = told_of(orchard_gate());
  const std::vector<std::string> lines = lines_in(prompter_text(orchard_gate(), told));
  int words = 0, wanted = 0;
  for (std::size_t i = 1; i < lines.size(); ++i)
    if (!lines[i].starts_with('[')) words += spoken_words(lines[i]);
  for (const RundownPart& part : told.parts) wanted += spoken_words(part);
  CHECK(words == wanted);
}

TEST_CASE("a full stop before a closing quote ends a sentence, one within a price does not") {
  CHECK(sentences_of("She says “Come in.” It's $9.50 now. Ready?") ==
        std::vector<std::string>{"She says “Come in.”", "It's $9.50 now.", "Ready?"});
}

TEST_CASE("cues follow each other without a gap, for as long as the words take") {
  const Rundown told = told_of(orchard_gate());
  int words = 0;
  for (const RundownPart& part : told.parts) words += spoken_words(part);
  std::string last = "00:00:00.000";
  for (const std::string& line : lines_in(cues_text(told))) {
    const auto arrow = line.find(" --> ");
    if (arrow == std::string::npos) {
      CHECK(std::count_if(line.begin(), line.end(), [](char c) {
              return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
            }) <= 42);
      continue;
    }
    CHECK(line.substr(0, arrow) == last);
    last = line.substr(arrow + 5);
  }
  // 150 words a minute are 0.4 s a word.
  const int tenths = words * 4;
  CHECK(last == fmt::format("00:{:02}:{:02}.{}00", tenths / 600, tenths / 10 % 60, tenths % 10));
}

TEST_CASE("words of a project cannot become markup of a cue") {
  // W3C WebVTT, 4.2.2.
  Project project = orchard_gate();
  project.title = "A & <b>";
  CHECK(cues_text(told_of(project)).find("A &amp; &lt;b&gt;") != std::string::npos);
}
