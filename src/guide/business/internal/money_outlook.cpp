#include "guide/business/internal/money_outlook.h"

#include "guide/business/internal/money_cells.h"
#include "guide/business/internal/money_chart.h"
#include "language/words.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

// Left is what is brought in less the three, or two where nothing is paid once.
Row scenario_row(const std::string& name, const tiers::Scenario& one, Row::Kind kind,
                 const Money& planned, bool paid_once) {
  const Money change = one.result - planned;
  Row row{kind,
          {plain(name), cell(one.all), cell(one.brought), cell(one.goods), cell(one.selling)}};
  if (paid_once) row.cells.push_back(cell(one.outlays));
  row.cells.push_back(cell(one.result));
  row.cells.push_back(
      plain(change.minor == 0 ? "–" : (change.minor > 0 ? "+" : "") + money_text(change)));
  return row;
}

Table outlook_table(const Project& project, const tiers::Outlook& outlook) {
  Table table;
  table.caption = "If more or fewer sign up";
  table.columns = {words_column("", 1.6), money_column("Kits"), money_column("Income"),
                   money_column("Supplies"), money_column("Selling")};
  const bool paid_once = !project.selling.outlays.empty();
  if (paid_once) table.columns.push_back(money_column("Bought once"));
  table.columns.push_back(money_column("Profit"));
  table.columns.push_back(money_column("Change"));
  const Money planned = outlook.at(outlook.planned()).result;
  table.rows.push_back({Row::Kind::Group, {plain("More or fewer of every kit, estimated")}});
  for (const int more : {-10, -5, -1, 0, 1, 5, 10}) {
    const int kits = outlook.planned() + more;
    if (kits < 0) continue;
    const std::string name = more == 0  ? "As planned, exact"
                             : more < 0 ? words::count_words(-more) + " fewer"
                                        : words::count_words(more) + " more";
    table.rows.push_back(scenario_row(words::sentence_case(name), outlook.at(kits),
                                      more == 0 ? Row::Kind::Total : Row::Kind::Plain, planned,
                                      paid_once));
  }
  table.rows.push_back({Row::Kind::Group, {plain("One more or one fewer of one kit, estimated")}});
  for (std::size_t i = 0; i < project.tiers.size(); ++i) {
    if (!project.tiers[i].price) continue;
    const int tier = static_cast<int>(i);
    const tiers::Scenario fewer = outlook.beside(tier, -1), more = outlook.beside(tier, 1);
    if (fewer.all < outlook.planned())
      table.rows.push_back(scenario_row("One " + project.tiers[i].name + " fewer", fewer,
                                        Row::Kind::Plain, planned, paid_once));
    table.rows.push_back(scenario_row("One " + project.tiers[i].name + " more", more,
                                      Row::Kind::Plain, planned, paid_once));
  }
  return table;
}

} // namespace

Section outlook_section(const Project& project, const MoneyBook& book) {
  Section section{"money-outlook", "If more or fewer sign up", {}};
  if (book.outlook.planned() == 0) return section;
  add(section, heading(2, "money-outlook", "If more or fewer sign up"));
  const std::vector<tiers::Scenario> scenarios = charted(book.outlook);
  add(section, Figure{money_chart(project, scenarios, book.outlook.planned()),
                      plain("Profit by the number of kits. A ring marks where one more kit leaves "
                            "you with less, often because it needs another pack."),
                      Figure::Width::Full});
  const auto pays = std::find_if(scenarios.begin(), scenarios.end(), [](const auto& one) {
    return one.all > 0 && one.result.minor >= 0;
  });
  std::string words = pays == scenarios.end()
                          ? "This batch does not break even within the numbers shown. "
                          : "This batch breaks even at " + words::counted(pays->all, "kit") + ". ";
  words +=
      "Only the planned number is exact. The others are estimates to decide by. Each number buys "
      "the packs that cost least, and each further kit is an order of its own.";
  if (std::ranges::any_of(project.tiers, is_tutorial_alone))
    words += " A tutorial sold by itself counts as one kit here.";
  add(section, body(plain(words)));
  add(section, outlook_table(project, book.outlook));
  return section;
}

} // namespace leafwright::guide
