#include "../orchard.h"

#include "guide/business/business.h"

#include "guide/block.h"
#include "guide/business/internal/money_chart.h"
#include "guide/prose.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <sstream>

using namespace leafwright;
using namespace leafwright::guide;

using leafwright::test::orchard_buying;
using leafwright::test::orchard_gate;

namespace {

const MoneyBook& orchard_book() {
  static const MoneyBook book = [] {
    std::vector<supply::KitKind> kinds;
    const std::vector<int> kits = supply::planned_kits(orchard_gate());
    for (std::size_t i = 0; i < kits.size(); ++i)
      kinds.push_back(supply::kit_kind(orchard_gate(), static_cast<int>(i), kits[i]));
    return money_book(orchard_gate(), kinds, orchard_buying());
  }();
  return book;
}

// A printed amount in minor units: "−$1,234.50" is -123450, a dash is nil.
std::int64_t minor_of(const Inlines& cell) {
  std::int64_t minor = 0;
  const std::string text = spoken(cell);
  for (const char c : text)
    if (c >= '0' && c <= '9') minor = minor * 10 + (c - '0');
  return text.starts_with("−") ? -minor : minor;
}

bool holds(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells{""};
  for (const char c : line)
    if (c == ',')
      cells.emplace_back();
    else if (c != '\r')
      cells.back() += c;
  return cells;
}

} // namespace

TEST_CASE("printed totals are the sums of the printed lines") {
  const Document report = money_report(orchard_gate(), orchard_book());
  const Table* account = nullptr;
  for (const Block& block : report.sections.at(0).blocks)
    if (const auto* table = std::get_if<Table>(&block.what); table && table->columns.size() == 10)
      account = table;
  REQUIRE(account);
  for (std::size_t column = 1; column < account->columns.size(); ++column) {
    std::int64_t sum = 0;
    for (const Row& row : account->rows)
      if (row.kind == Row::Kind::Plain) sum += minor_of(row.cells.at(column));
    CHECK(sum == minor_of(account->rows.back().cells.at(column)));
  }
  for (const Row& row : account->rows) { // across: price + charged - the rest
    std::int64_t margin = minor_of(row.cells.at(3)) + minor_of(row.cells.at(4));
    for (std::size_t column = 5; column < 9; ++column) margin -= minor_of(row.cells.at(column));
    CHECK(margin == minor_of(row.cells.at(9)));
  }
}

TEST_CASE("what is left is the sum of the printed line, for each number that may sign up") {
  const Document report = money_report(orchard_gate(), orchard_book());
  std::size_t lines = 0;
  for (const Section& section : report.sections)
    for (const Block& block : section.blocks) {
      const auto* table = std::get_if<Table>(&block.what);
      if (section.name != "money-outlook" || !table) continue;
      REQUIRE(table->columns.size() == 8);
      for (const Row& row : table->rows) {
        if (row.kind == Row::Kind::Group) continue;
        const auto at = [&](std::size_t column) { return minor_of(row.cells.at(column)); };
        CHECK(at(2) - at(3) - at(4) - at(5) == at(6));
        ++lines;
      }
    }
  CHECK(lines > 10);
  CHECK(holds(dump(report), "The others are estimates"));
}

TEST_CASE("the goods of the report are the total of the buying list") {
  CHECK(orchard_book().account.all.goods == orchard_buying().total);
  CHECK(holds(dump(money_report(orchard_gate(), orchard_book())),
              money_text(orchard_buying().total)));
}

TEST_CASE("the report says that it is private and no tax advice") {
  const std::string text = dump(money_report(orchard_gate(), orchard_book()));
  CHECK(holds(text, "Not tax advice."));
  CHECK(holds(text, "For you only"));
  CHECK(holds(text, "with your carrier"));
}

TEST_CASE("the CSV adds up and carries its currency") {
  std::istringstream lines(money_csv(orchard_gate(), orchard_book()));
  std::int64_t margin = 0, total = 0;
  const auto minor = [](std::string text) {
    std::erase(text, '.');
    return std::stoll(text);
  };
  for (std::string line; std::getline(lines, line);) {
    const std::vector<std::string> cells = cells_of(line);
    REQUIRE(cells.size() == 13);
    if (cells[0] == "tier") margin += minor(cells[11]);
    if (cells[0] == "total") total = minor(cells[11]);
    if (cells[0] != "row") CHECK(cells[12] == "USD");
  }
  CHECK(margin == total);
  CHECK(total == orchard_book().account.all.margin.minor);
}

TEST_CASE("the JSON opens and closes and names its shape") {
  const std::string json = money_json(orchard_gate(), orchard_book());
  CHECK(holds(json, "\"schema\": \"money/1\""));
  CHECK(std::count(json.begin(), json.end(), '{') == std::count(json.begin(), json.end(), '}'));
}

TEST_CASE("the chart meets the account at the planned number and marks each setback") {
  const auto scenarios = charted(orchard_book().outlook);
  REQUIRE(scenarios.size() == 55); // none to twice 27
  CHECK(scenarios[27].result == orchard_book().account.result);
  const auto rings = setbacks(scenarios);
  for (std::size_t i = 1; i < scenarios.size(); ++i) {
    const bool fell = scenarios[i].result.minor < scenarios[i - 1].result.minor;
    CHECK(fell == (std::find(rings.begin(), rings.end(), i) != rings.end()));
  }
  const figure::Scene chart = money_chart(orchard_gate(), scenarios, 27);
  CHECK(chart.fixed_scale == 1.0);
  CHECK(!chart.alternative.empty());
}

TEST_CASE("a run without kits has a report that says so") {
  Project project = orchard_gate();
  project.run.planned.clear();
  const std::vector<int> none(project.tiers.size(), 0);
  const supply::Buying buying = supply::buying_for(project, none);
  const Document report = money_report(project, money_book(project, {}, buying));
  CHECK(holds(dump(report), "No kits are ordered or expected yet."));
}
