#include "../change/two_editions.h"

#include "guide/announcing/rundown.h"
#include "guide/block.h"
#include "guide/business/business.h"
#include "guide/parcels/parcel_documents.h"
#include "guide/prose.h"
#include "guide/shop/shop.h"
#include "guide/tutorial.h"
#include "language/english.h"
#include "measure/index.h"
#include "plan/calendar/day_plan.h"
#include "plan/calendar/work_time.h"
#include "plan/fit/check.h"
#include "plan/supply/buying.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

// Every sentence that buyers and the maker read of seven projects stands in a file beside this
// test, so that a change of wording is read there, as a whole, and asserted nowhere else.
// LEAFWRIGHT_WRITE_SENTENCES=1 writes the files anew.

using namespace leafwright;

namespace {

const std::string folder = LEAFWRIGHT_SOURCE_DIR "/tests/guide/sentences/";

struct Kept {
  const char* name;
  const char* project; // below the source folder
};
constexpr std::array kept{
    Kept{"orchard-gate", "samples/orchard-gate/project.xml"},
    Kept{"kelp-lantern", "samples/kelp-lantern/project.xml"},
    Kept{"five-minute", "samples/five-minute/project.xml"},
    Kept{"metric-british", "tests/guide/sentences/metric-british.xml"},
    Kept{"single-card", "tests/guide/sentences/single-card.xml"},
    Kept{"resale-edition", "tests/guide/sentences/resale-edition.xml"},
    Kept{"constructions", "tests/guide/sentences/constructions.xml"},
};

Project project_of(const Kept& one) {
  Reading reading = read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR "/") + one.project);
  REQUIRE(reading.ok());
  return std::move(reading.project);
}

std::string plain_blanks(std::string text) {
  for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
    text.replace(at, 2, " ");
  return text;
}

// Split where a full stop, a question mark or a colon with a blank ends what can be read alone.
std::vector<std::string> split(const std::string& text) {
  std::vector<std::string> out;
  std::size_t from = 0;
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    const bool ends = (text[i] == '.' || text[i] == '?' || text[i] == '!') && text[i + 1] == ' ';
    if (!ends) continue;
    out.push_back(text.substr(from, i + 1 - from));
    from = i + 2;
  }
  if (from < text.size()) out.push_back(text.substr(from));
  return out;
}

bool is_sentence(const std::string& text) {
  return words::count_of_words(text) >= 3 && (text.ends_with('.') || text.ends_with('?'));
}

// The sentences of a dump, each once, in order; drawings are told elsewhere.
void add_sentences(std::vector<std::string>& out, const std::string& dump) {
  std::istringstream lines(plain_blanks(dump));
  for (std::string line; std::getline(lines, line);) {
    line.erase(0, std::min(line.find_first_not_of(' '), line.size()));
    if (line.empty() || line.front() == '<' || line.front() == '[' || line.starts_with("==="))
      continue;
    for (const std::string_view mark : {"- ", "! ", "| "})
      if (line.starts_with(mark)) line.erase(0, mark.size());
    for (const std::string& sentence : split(line))
      if (is_sentence(sentence) && std::find(out.begin(), out.end(), sentence) == out.end())
        out.push_back(sentence);
  }
}

std::vector<std::string> offer_sentences(const Project& project) {
  std::vector<std::string> out;
  for (const auto audience : {Tier::Audience::Anyone, Tier::Audience::Team})
    if (guide::has_offer(project, audience))
      add_sentences(out,
                    guide::dump(guide::offer(project, supply::needs_of_kit(project), audience)));
  return out;
}

std::vector<std::string> talk_sentences(const Project& project) {
  std::vector<std::string> out;
  for (const auto audience : {Tier::Audience::Anyone, Tier::Audience::Team})
    if (guide::has_offer(project, audience))
      for (const guide::RundownPart& part :
           guide::rundown(project, supply::needs_of_kit(project), audience).parts)
        for (const std::string& one : part.say) add_sentences(out, one);
  return out;
}

std::vector<std::string> finding_sentences(const Project& project) {
  std::vector<std::string> out;
  for (const Finding& finding : fit::check(project, nullptr)) {
    out.push_back(plain_blanks(finding.found) + ".");
    if (!finding.expected.empty())
      out.push_back("Expected: " + plain_blanks(finding.expected) + ".");
    if (!finding.fix.empty()) out.push_back("Fix: " + plain_blanks(finding.fix) + ".");
    for (const Finding::Trace& also : finding.trace)
      out.push_back("Also: " + plain_blanks(also.text) + ".");
  }
  return out;
}

cut::Effort brief() {
  cut::Effort effort;
  effort.work = 1'000'000; // the same on every machine
  return effort;
}

std::vector<std::string> handout_sentences(const Project& project,
                                           const supply::CuttingPlan& sheets) {
  std::vector<std::string> out;
  for (const bool teacher : {false, true}) {
    guide::HandoutOptions options;
    options.teacher = teacher;
    add_sentences(out, guide::dump(guide::handouts(project, sheets, options)));
  }
  return out;
}

std::vector<std::string> edition_sentences(const Project& project,
                                           const supply::CuttingPlan& sheets) {
  std::vector<std::string> out;
  for (int tier = 0; tier < static_cast<int>(project.tiers.size()); ++tier) {
    guide::TutorialOptions options;
    options.tier = tier;
    add_sentences(out, guide::dump(guide::holds_tutorial(project.tiers.at(as_index(tier)))
                                       ? guide::tutorial(project, sheets, options)
                                       : guide::letter_key(project, sheets, tier)));
  }
  return out;
}

// The papers of the batch, which only the maker sees.
std::vector<std::string> batch_sentences(const Project& project) {
  std::vector<std::string> out;
  const guide::PackingList list = guide::packing_list(project, orders::parcels_of(project));
  const supply::Buying buying = supply::buying_for(project, list.parcels.kinds, brief());
  const calendar::WorkTime work =
      calendar::work_time_of(project, buying, list.parcels, list.contents);
  for (const guide::Document& document :
       {guide::cutting_plan(project, buying, {}), guide::buying_list(project, buying, {}),
        guide::packing_slips(project, list), guide::totals(project, list),
        guide::calendar_page(project, calendar::plan_days(project, work, buying)),
        guide::run_sheet(project),
        guide::money_report(project, guide::money_book(project, list.parcels.kinds, buying))})
    add_sentences(out, guide::dump(document));
  return out;
}

// What is told when a mat lets more show all around, for the maker and for buyers.
std::vector<std::string> change_sentences(const Kept& one) {
  test::Edition before = test::edition_of(one.project, {}, brief());
  test::Edition after = test::edition_of(
      one.project,
      {before.project().printing.unit == Unit::Inch ? "mat.inset=3/16" : "mat.inset=5"}, brief());
  const change::Comparison comparison = change::compare(before.worked(), after.worked());
  const guide::ChangeStory story = test::story_of(before, after, comparison);
  std::vector<std::string> out;
  add_sentences(out, guide::dump(guide::change_report(story)));
  add_sentences(out, guide::dump(guide::errata_sheet(story)));
  return out;
}

// Without what stands in `said` before.
std::vector<std::string> further(std::vector<std::string> sentences,
                                 const std::vector<std::string>& said) {
  std::erase_if(sentences, [&](const std::string& one) {
    return std::find(said.begin(), said.end(), one) != said.end();
  });
  return sentences;
}

std::string kept_text(const Kept& source, const Project& project) {
  std::string out;
  const auto part = [&](std::string_view head, const std::vector<std::string>& sentences) {
    out += "# " + std::string(head) + "\n";
    for (const std::string& one : sentences) out += one + "\n";
  };
  std::vector<std::string> tutorial;
  add_sentences(tutorial, guide::dump(guide::tutorial(project, {})));
  part("Tutorial", tutorial);
  const std::vector<std::string> offer = offer_sentences(project);
  part("Offer", offer);
  part("Talk", further(talk_sentences(project), offer));
  part("Findings", finding_sentences(project));
  const supply::CuttingPlan sheets = supply::sheets_for(project);
  part("Editions", further(edition_sentences(project, sheets), tutorial));
  part("Handouts", further(handout_sentences(project, sheets), tutorial));
  part("Batch", further(batch_sentences(project), tutorial));
  part("Changes", further(change_sentences(source), tutorial));
  return out;
}

std::string read_file(const std::string& path) {
  std::ifstream in(path);
  std::stringstream out;
  out << in.rdbuf();
  return out.str();
}

// "is taped", "was not yet glued": a form of "be" and a participle, adverbs aside.
bool is_passive(const std::string& sentence) {
  constexpr std::array be{"am", "are", "be", "been", "being", "is", "was", "were"};
  constexpr std::array adverbs{"already", "also", "just", "not", "now", "still", "then", "yet"};
  constexpr std::array irregular{"bent",  "bound", "built",  "caught", "cut",    "done",   "drawn",
                                 "found", "given", "held",   "hung",   "kept",   "known",  "laid",
                                 "left",  "made",  "put",    "seen",   "sent",   "set",    "shown",
                                 "shut",  "split", "spread", "spun",   "struck", "stuck",  "sunk",
                                 "taken", "told",  "torn",   "wound",  "wrung",  "written"};
  const auto is_one = [](const auto& list, const std::string& word) {
    return std::find(list.begin(), list.end(), word) != list.end();
  };
  std::istringstream words(sentence);
  bool after_be = false;
  for (std::string word; words >> word;) {
    while (!word.empty() && std::ispunct(static_cast<unsigned char>(word.back()))) word.pop_back();
    const bool participle =
        (word.size() > 3 && word.ends_with("ed")) || is_one(irregular, word); // not "is red"
    if (after_be && participle) return true;
    after_be = is_one(be, word) || (after_be && (is_one(adverbs, word) || word.ends_with("ly")));
  }
  return false;
}

// All steps in our own words: what the author wrote is taken away.
std::vector<guide::Steps> own_steps(Project project) {
  std::vector<guide::Steps> out;
  for (Card& card : project.cards) {
    card.steps.clear();
    out.push_back(guide::steps_of({project, card}, "card"));
  }
  return out;
}

template <class Act>
void for_each_sentence(const Project& project, Act act) {
  for (const guide::Steps& steps : own_steps(project))
    for (const guide::Step& step : steps.steps)
      for (const guide::Inlines& text : step.text)
        for (const std::string& one : split(plain_blanks(guide::spoken(text)))) act(one);
}

} // namespace

TEST_CASE("the sentences of seven projects are as they are kept") {
  for (const Kept& one : kept) {
    CAPTURE(one.name);
    const std::string path = folder + one.name + ".txt";
    const std::string now = kept_text(one, project_of(one));
    if (std::getenv("LEAFWRIGHT_WRITE_SENTENCES")) std::ofstream(path) << now;
    CHECK(now == read_file(path));
  }
}

TEST_CASE("a sentence of a step has at most 20 words, 12 on average") {
  // ASD-STE100 Simplified Technical English, procedural writing: at most 20 words a sentence. The
  // average, over all seven projects, is our own.
  int sentences = 0, all = 0;
  for (const Kept& one : kept)
    for_each_sentence(project_of(one), [&](const std::string& sentence) {
      CAPTURE(one.name);
      CAPTURE(sentence);
      const int count = words::count_of_words(sentence);
      CHECK(count <= 20);
      ++sentences;
      all += count;
    });
  CAPTURE(sentences);
  CHECK(all <= 12 * sentences);
}

TEST_CASE("a step has at most three sentences") {
  for (const Kept& one : kept)
    for (const guide::Steps& steps : own_steps(project_of(one)))
      for (const guide::Step& step : steps.steps) {
        CAPTURE(one.name);
        CAPTURE(step.title);
        std::size_t count = 0;
        for (const guide::Inlines& text : step.text)
          count += split(plain_blanks(guide::spoken(text))).size();
        CHECK(count <= 3);
      }
}

TEST_CASE("a sentence of a step begins with what to do, or a short condition and a comma") {
  // ASD-STE100: instructions are in the imperative, and a condition comes before its instruction.
  constexpr std::array verbs{
      "Add",    "Back",   "Begin", "Blend",  "Brush", "Burnish", "Center", "Centre",   "Color",
      "Colour", "Cover",  "Dot",   "Flick",  "Foil",  "Let",     "Run",    "Set",      "Slide",
      "Spread", "Stitch", "Tear",  "Touch",  "Cut",   "Dab",     "Die",    "Distress", "Dry",
      "Even",   "Fasten", "Fold",  "Glue",   "Ink",   "Knot",    "Lay",    "Leave",    "Lift",
      "Place",  "Press",  "Pull",  "Punch",  "Raise", "Round",   "Score",  "Stamp",    "Stick",
      "Take",   "Tap",    "Tape",  "Thread", "Tie",   "Trace",   "Tuck",   "Wrap"};
  constexpr std::array conditions{"While", "Without", "With", "Each"};
  for (const Kept& one : kept)
    for_each_sentence(project_of(one), [&](const std::string& sentence) {
      CAPTURE(one.name);
      CAPTURE(sentence);
      const std::string first = sentence.substr(0, sentence.find(' '));
      const bool act = std::find(verbs.begin(), verbs.end(), first) != verbs.end();
      const bool condition =
          std::find(conditions.begin(), conditions.end(), first) != conditions.end() &&
          words::count_of_words(sentence.substr(0, sentence.find(','))) <= 6;
      CHECK((act || condition));
    });
}

TEST_CASE("no sentence of a step is in the passive voice") {
  // ASD-STE100, section 3 (verbs): procedures are in the active voice. The participles are those
  // of acts with paper, from memory.
  CHECK(is_passive("The mat is taped to the front."));
  CHECK(is_passive("The label was not yet cut."));
  CHECK_FALSE(is_passive("While the ink is wet, cover it with embossing powder."));
  CHECK_FALSE(is_passive("Tape the folded card shut until the glue is red."));
  for (const Kept& one : kept)
    for_each_sentence(project_of(one), [&](const std::string& sentence) {
      CAPTURE(one.name);
      CAPTURE(sentence);
      CHECK_FALSE(is_passive(sentence));
    });
}

TEST_CASE("no sentence for a buyer or of a finding has more than 25 words") {
  // GOV.UK content design: sentences of at most 25 words. What the author wrote is hers.
  for (const Kept& one : kept) {
    const Project project = project_of(one);
    for (const std::vector<std::string>& part :
         {offer_sentences(project), finding_sentences(project)})
      for (const std::string& sentence : part) {
        CAPTURE(one.name);
        CAPTURE(sentence);
        const bool authors = project.intro.size() > 0 &&
                             !guide::spoken(guide::author_text(project, project.intro)).empty() &&
                             plain_blanks(guide::spoken(guide::author_text(project, project.intro)))
                                     .find(sentence) != std::string::npos;
        const bool a_list = sentence.starts_with("You'll also need");
        if (!authors && !a_list) CHECK(words::count_of_words(sentence) <= 25);
      }
  }
}

TEST_CASE("no sentence of the help has more than 25 words") {
  // GOV.UK content design, as above. Headings and examples are no sentences.
  for (const auto& entry :
       std::filesystem::directory_iterator(LEAFWRIGHT_SOURCE_DIR "/templates/help")) {
    std::istringstream lines(read_file(entry.path().string()));
    std::string paragraph;
    const auto check = [&] {
      for (const std::string& sentence : split(paragraph)) {
        CAPTURE(entry.path().filename().string());
        CAPTURE(sentence);
        CHECK(words::count_of_words(sentence) <= 25);
      }
      paragraph.clear();
    };
    for (std::string line; std::getline(lines, line);) {
      const bool apart = line.empty() || line.starts_with("#") || line.starts_with("    ");
      if (apart || line.starts_with("- ")) check();
      if (!apart) paragraph += (paragraph.empty() ? "" : " ") + line;
    }
    check();
  }
}
