#include "guide/ordering/order_form.h"
#include "guide/sections.h"
#include "model/item.h"
#include "read/csv/csv.h"
#include "read/read.h"
#include "read/roster/roster.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

using namespace leafwright;
using guide::OrderForm;
using guide::OrderQuestion;

namespace {

constexpr const char* sample = LEAFWRIGHT_SOURCE_DIR "/samples/orchard-gate/project.xml";

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

// The sample, with other words in the place of its one <column>.
Project sample_with(const std::string& columns) {
  std::string text = text_of(sample);
  const std::string_view own = R"(<column heading="Heard of us" means="kept"/>)";
  const std::size_t at = text.find(own);
  REQUIRE(at != std::string::npos);
  text.replace(at, own.size(), columns);
  Reading reading = read_project(text, sample);
  REQUIRE(reading.ok());
  return std::move(reading.project);
}

const OrderQuestion* question(const OrderForm& form, std::string_view column) {
  const auto found = std::ranges::find(form.questions, column, &OrderQuestion::column);
  return found == form.questions.end() ? nullptr : &*found;
}

// Answers to one question that a buyer of the tier is offered.
std::vector<const OrderQuestion::Answer*> offered(const OrderForm& form, std::string_view column,
                                                  int tier) {
  std::vector<const OrderQuestion::Answer*> answers;
  if (const OrderQuestion* asked = question(form, column))
    for (const OrderQuestion::Answer& one : asked->answers)
      if (one.tiers.empty() || std::ranges::find(one.tiers, tier) != one.tiers.end())
        answers.push_back(&one);
  return answers;
}

using Answers = std::map<std::string, std::vector<const OrderQuestion::Answer*>>;

// As the page composes it: our columns and the roster's words; or as a form service exports it:
// what was asked, and the words that were ticked, parted by commas.
std::string table(const OrderForm& form, const Answers& answers, bool by_service) {
  std::string head, row;
  for (const OrderQuestion& one : form.questions) {
    std::string cell = one.column == "name" ? "Ada \"the\" Reed" : "";
    if (one.column == "address") cell = "1 Lane,\nFenmoor";
    if (const auto given = answers.find(one.column); given != answers.end())
      for (const OrderQuestion::Answer* answer : given->second)
        cell += (cell.empty() ? ""
                 : by_service ? ", "
                              : "; ") +
                (by_service ? answer->words : answer->value);
    const std::string_view comma = head.empty() ? "" : ",";
    head += std::string(comma) + csv::quoted(by_service ? one.asked : one.column);
    row += std::string(comma) + csv::quoted(cell);
  }
  return head + "\r\n" + row + "\r\n";
}

std::vector<std::string> ids(const Project& project, const Order& order, bool swaps) {
  std::vector<std::string> all;
  if (swaps)
    for (const Swap& one : order.swaps) all.push_back(item_id(project, one.item));
  else
    for (const ItemRef item : order.owned) all.push_back(item_id(project, item));
  return all;
}
std::vector<std::string> values(const std::vector<const OrderQuestion::Answer*>& answers) {
  std::vector<std::string> all;
  for (const OrderQuestion::Answer* one : answers) all.push_back(one->value);
  return all;
}

} // namespace

TEST_CASE("what the form answers is read by the roster, for every option, thing and swap") {
  int read = 0;
  for (const Tier::Audience audience : {Tier::Audience::Anyone, Tier::Audience::Team}) {
    const OrderForm form = guide::order_form(sample_with(""), audience);
    for (const bool by_service : {false, true}) {
      const Project project = sample_with(by_service ? guide::order_mapping(form) : "");
      for (const int tier : guide::tiers_for(project, audience)) {
        const OrderQuestion::Answer* option = nullptr;
        for (const OrderQuestion::Answer& one : question(form, "tier")->answers)
          if (one.value == tier_at(project, tier).id) option = &one;
        REQUIRE(option != nullptr);
        const auto owned = offered(form, "owned", tier), swaps = offered(form, "swaps", tier);
        std::vector<Answers> all{{{"tier", {option}}},
                                 {{"tier", {option}}, {"owned", owned}, {"swaps", swaps}}};
        for (const auto* one : owned) all.push_back({{"tier", {option}}, {"owned", {one}}});
        for (const auto* one : swaps) all.push_back({{"tier", {option}}, {"swaps", {one}}});
        for (const Answers& answers : all) {
          const std::string csv = table(form, answers, by_service);
          CAPTURE(csv);
          const Roster roster = read_roster(csv, project, 1);
          std::string told;
          for (const Finding& one : roster.findings) told += one.code + ": " + one.found + " ";
          CHECK(told.empty());
          REQUIRE(roster.orders.size() == 1);
          const Order& order = roster.orders[0];
          CHECK(order.tier == tier);
          CHECK(order.name == "Ada \"the\" Reed");
          CHECK(order.address.find("Fenmoor") != std::string::npos);
          if (answers.contains("owned"))
            CHECK(ids(project, order, false) == values(answers.at("owned")));
          if (answers.contains("swaps"))
            CHECK(ids(project, order, true) == values(answers.at("swaps")));
          ++read;
        }
      }
    }
  }
  CHECK(read > 40);
}

TEST_CASE("the page asks for nothing from elsewhere and says what each field is") {
  const Project project = sample_with("");
  const OrderForm form = guide::order_form(project, Tier::Audience::Anyone);
  const std::string page =
      guide::order_page(form, project, text_of(LEAFWRIGHT_SOURCE_DIR "/templates/order-form.html"));
  for (const std::string reach : {"=\"http", "src=", "@import", "url(", "fetch(", "<link"}) {
    CAPTURE(reach);
    CHECK(page.find(reach) == std::string::npos);
  }
  CHECK(page.find("{questions}") == std::string::npos);
  CHECK(page.find("data-mail=\"" + form.mail + "\"") != std::string::npos);
  CHECK(form.mail.find('@') != std::string::npos);
  for (const OrderQuestion& one : form.questions) {
    CAPTURE(one.column);
    const bool labelled = page.find("for=\"q-" + one.column + "\"") != std::string::npos;
    const bool legend =
        page.find("data-column=\"" + one.column + "\"><legend>") != std::string::npos;
    CHECK((labelled || legend));
  }
}

TEST_CASE("words of the maker cannot leave their place on the page") {
  Project project = sample_with("");
  project.title = "\"><script>alert(1)</script>{mail}";
  project.tiers[0].name = "A & B <b>";
  const OrderForm form = guide::order_form(project, Tier::Audience::Anyone);
  const std::string page = guide::order_page(form, project, "<title>{title}</title>{questions}");
  CHECK(page.find("<script>") == std::string::npos);
  CHECK(page.find("{mail}") != std::string::npos); // not filled in a second time
  CHECK(page.find("A &amp; B &lt;b&gt;") != std::string::npos);
}

TEST_CASE("the questions say how each is asked, and its answers") {
  const OrderForm form = guide::order_form(sample_with(""), Tier::Audience::Anyone);
  const std::string text = guide::order_questions(form);
  CHECK(text.find("1. Your name\n   (short answer, required; column: name)\n") !=
        std::string::npos);
  for (const OrderQuestion& one : form.questions)
    for (const OrderQuestion::Answer& answer : one.answers)
      CHECK(text.find("   - " + answer.words + "\n") != std::string::npos);
}
