#include "guide/business/business.h"
#include "guide/business/internal/money_chart.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/words.h"
#include "plan/tier/account.h"
#include "plan/tier/value.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

using tiers::TierAccount;

Inlines cell(const Money& money) { return plain(money_text(money)); }
Inlines cell(std::int64_t count) { return plain(std::to_string(count)); }
// Something paid away; nil is a dash.
Inlines paid(const Money& money) { return plain(money.minor == 0 ? "–" : money_text(money)); }

Column words_column(std::string_view head, double share) {
  return {plain(head), Column::Align::Left, share, true};
}
Column money_column(std::string_view head) {
  return {plain(head), Column::Align::Right, 1.0, false};
}

Notice warning(std::string title, const std::string& words) {
  return {Notice::Kind::Warning, std::move(title), plain(words)};
}

void add_gaps(Section& section, const Project& project, const tiers::Account& account) {
  std::vector<std::string> names;
  for (const int tier : account.tiers_unpriced) names.push_back(tier_at(project, tier).name);
  if (!names.empty())
    add(section,
        warning("No price.", words::listed(names) + (names.size() == 1 ? " has" : " have") +
                                 " no price and count as bringing nothing."));
  names.clear();
  for (const ItemRef item : account.unpriced) names.push_back(item_name(project, item));
  if (!names.empty())
    add(section, warning("Goods without a price.",
                         words::listed(names) + ": bought, but counted as costing nothing."));
  if (project.selling.postage.empty())
    add(section,
        warning("No postage.", "The project gives no cost of postage, so it counts as "
                               "nothing. Check with your carrier and write the postage into "
                               "what selling costs (README: Offer and money)."));
  else if (!account.postage_known)
    add(section, warning("Postage.", "Some parcels are heavier than the last step of postage and "
                                     "count as costing nothing to post."));
}

Table account_table(const Project& project, const tiers::Account& account) {
  Table table;
  table.caption = "What each tier brings and costs";
  table.columns = {words_column("Tier", 1.4), money_column("Orders"),  money_column("Kits"),
                   money_column("Price"),     money_column("Charged"), money_column("Goods"),
                   money_column("Fees"),      money_column("Postage"), money_column("Packing"),
                   money_column("Margin")};
  const auto row_of = [&](const TierAccount& one, std::string_view name, Row::Kind kind) {
    return Row{kind,
               {plain(name), cell(one.orders), cell(one.kits), cell(one.price), paid(one.charged),
                paid(one.goods), paid(one.fees), paid(one.postage), paid(one.packing),
                cell(one.margin)}};
  };
  for (const TierAccount& one : account.tiers)
    table.rows.push_back(row_of(one, tier_at(project, one.tier).name, Row::Kind::Plain));
  table.rows.push_back(row_of(account.all, "All together", Row::Kind::Total));
  return table;
}

Table result_table(const Project& project, const tiers::Account& account) {
  Table table;
  table.caption = "From margin to result";
  table.columns = {words_column("", 3.0), money_column("")};
  const auto line = [&](std::string_view words, const Money& money, Row::Kind kind) {
    table.rows.push_back({kind, {plain(words), cell(money)}});
  };
  line("Margin of all tiers", account.all.margin, Row::Kind::Plain);
  for (const Selling::Outlay& outlay : project.selling.outlays)
    line(outlay.words.empty() ? std::string("Paid once") : outlay.words,
         Money{-outlay.cost.minor, project.currency}, Row::Kind::Plain);
  line("Left of the run", account.result, Row::Kind::Total);
  return table;
}

std::string kits_plain(std::int64_t kits) { return words::counted(kits, "kit"); }

Section account_section(const Project& project, const MoneyBook& book) {
  Section section{"money", "What the run earns", {}};
  const tiers::Account& account = book.account;
  add(section, heading(1, "money", "What the run earns", {}, "For the maker alone"));
  if (account.tiers.empty()) {
    add(section, lead(plain("No kits are ordered or expected yet.")));
    return section;
  }
  const Money brought = account.all.price + account.all.charged;
  const bool loss = account.result.minor < 0;
  std::string words =
      words::sentence_case(kits_plain(account.all.kits)) + " bring " + money_text(brought) + ". ";
  words += loss ? "The run loses " + money_text(Money{-account.result.minor, project.currency})
                : "Of this " + money_text(account.result) + " are left";
  words += project.selling.outlays.empty()
               ? " when goods, fees, postage and packing are paid."
               : " when goods, fees, postage, packing and the outlays of the run are paid.";
  if (project.run.orders.empty())
    words += " Nobody has ordered yet: these are the kits that the project expects.";
  add(section, lead(plain(words)));
  add_gaps(section, project, account);
  add(section, account_table(project, account));
  add(section,
      small(
          plain("Every amount is exact to the last cent of its line, and each total is the sum of "
                "the lines above it. What a pack costs falls on the tiers in proportion to how "
                "much of it their kits take; the cents over go to the largest remainders.")));
  if (!project.selling.outlays.empty()) add(section, result_table(project, account));
  std::string stranded;
  if (account.stranded.minor > 0)
    stranded =
        "Of the goods, " + money_text(account.stranded) +
        " lie unused at the end, at the price of their packs: whole sheets, unopened spools, "
        "loose pieces, rests of ribbon and tape. The buying list names them. Offcuts are not "
        "valued. ";
  stranded += "Things in hand before the run cost nothing here.";
  add(section, body(plain(stranded)));
  add(section, Notice{Notice::Kind::Caution, "Not tax advice.",
                      plain("This is arithmetic for your own planning. It knows nothing of taxes, "
                            "insurance or your own hours; ask someone who does. Postage is to be "
                            "checked with your carrier. Keep this paper to yourself.")});
  return section;
}

std::string break_even_words(const tiers::BreakEven& found) {
  const std::string about = found.exact ? "" : "about ";
  if (found.first == 0) return "not within " + std::to_string(found.searched);
  if (found.lasting == found.first) return "from " + about + std::to_string(found.first);
  std::string words = "first " + about + std::to_string(found.first);
  if (found.lasting > 0) return words + ", safe from " + std::to_string(found.lasting);
  return words + ", not safe within " + std::to_string(found.searched);
}

Section order_section(const Project& project, const MoneyBook& book) {
  Section section{"money-order", "One order", {}};
  add(section, heading(2, "money-order", "One order of each tier"));
  Table table;
  table.caption = "What one order of one kit brings before the goods are paid";
  table.columns = {words_column("Tier", 1.3),
                   money_column("Shop value"),
                   money_column("Price"),
                   money_column("Charged"),
                   money_column("Fees"),
                   money_column("Postage"),
                   money_column("Packing"),
                   money_column("Brings"),
                   {plain("Pays alone"), Column::Align::Left, 1.6, false}};
  std::vector<ItemRef> unweighed;
  bool all_exact = true;
  for (std::size_t i = 0; i < project.tiers.size(); ++i) {
    const int index = static_cast<int>(i);
    const Tier& tier = project.tiers[i];
    const tiers::OrderTerms terms = tiers::terms_of(project, index);
    const tiers::TierValue value = tiers::value_of(project, index);
    for (const ItemRef item : terms.unweighed)
      if (std::find(unweighed.begin(), unweighed.end(), item) == unweighed.end())
        unweighed.push_back(item);
    std::string alone = "–";
    if (tier.price) {
      const tiers::BreakEven found = tiers::break_even_of(project, index, book.sheets);
      all_exact = all_exact && found.exact;
      alone = break_even_words(found);
    }
    table.rows.push_back(
        {Row::Kind::Plain,
         {plain(tier.name), plain(money_text(value.total) + (value.unpriced.empty() ? "" : " +")),
          tier.price ? cell(*tier.price) : plain("none"), paid(terms.charged), paid(terms.fees),
          paid(terms.postage), paid(terms.packing), cell(terms.brought()), plain(alone)}});
  }
  add(section, std::move(table));
  std::string words =
      "Shop value: what the same things cost a buyer by their share of a pack, gifts included; cut "
      "parts at the price of the sheets they come from. Pays alone: the number of orders from "
      "which "
      "a tier sold by itself loses nothing, everything bought new in whole packs, with a cutting "
      "plan of its own. Where two numbers stand, a further pack brings a loss again between them; "
      "from the second on there is none, "
      "whatever the number.";
  if (!all_exact)
    words +=
        " About: an estimate, by how well the cutting plan of the planned kits uses its sheets.";
  if (!unweighed.empty()) {
    std::vector<std::string> names;
    names.reserve(unweighed.size());
    for (const ItemRef item : unweighed) names.push_back(item_noun(project, item));
    words += " No mass is given for " + words::listed(names) +
             ": they weigh nothing here, so postage may be more.";
  }
  add(section, small(plain(words)));
  return section;
}

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
  table.columns = {words_column("", 1.6), money_column("Kits"), money_column("Brought in"),
                   money_column("Goods"), money_column("Selling")};
  const bool paid_once = !project.selling.outlays.empty();
  if (paid_once) table.columns.push_back(money_column("Paid once"));
  table.columns.push_back(money_column("Left"));
  table.columns.push_back(money_column("Change"));
  const Money planned = outlook.at(outlook.planned()).result;
  table.rows.push_back({Row::Kind::Group, {plain("In the proportions planned, estimated")}});
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
  table.rows.push_back(
      {Row::Kind::Group, {plain("One kit of one tier, the others as planned, estimated")}});
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

Section outlook_section(const Project& project, const MoneyBook& book) {
  Section section{"money-outlook", "If more or fewer sign up", {}};
  if (book.outlook.planned() == 0) return section;
  add(section, heading(2, "money-outlook", "If more or fewer sign up"));
  const std::vector<tiers::Scenario> scenarios = charted(book.outlook);
  add(section, Figure{money_chart(project, scenarios, book.outlook.planned()),
                      plain("What is left, by the number of kits. A ring stands where a further "
                            "pack, or a kit that costs more than it brings, leaves less than one "
                            "kit fewer would."),
                      Figure::Width::Full});
  const auto pays = std::find_if(scenarios.begin(), scenarios.end(), [](const auto& one) {
    return one.all > 0 && one.result.minor >= 0;
  });
  std::string words =
      pays == scenarios.end()
          ? "In these proportions the run does not pay within the numbers shown. "
          : "In these proportions the run first pays at " + kits_plain(pays->all) + ". ";
  words +=
      "Only the planned number is reckoned exactly; the others are estimates, good for a decision "
      "but not for a till. For each number the goods are bought anew in the packs that cost least; "
      "paper is estimated by its yield, that is, by how well the cutting plan of the planned kits "
      "uses its sheets. A further kit is an order of its own.";
  add(section, body(plain(words)));
  add(section, outlook_table(project, book.outlook));
  return section;
}

std::string line_words(const Project& project, const tiers::Difference& line) {
  const auto amount = [&](const Inclusion* one) {
    if (line.item.kind == ItemKind::Parts) return std::string();
    return included_words(project, line.item, one->amount, nullptr);
  };
  std::string name = line.item.kind == ItemKind::Parts      ? std::string("The parts of the cards")
                     : line.item.kind == ItemKind::Tutorial ? std::string("The tutorial")
                                                            : item_name(project, line.item);
  const auto with = [&](const Inclusion* one) {
    const std::string words = amount(one);
    return words.empty() ? name : name + ", " + words;
  };
  switch (line.kind) {
  case tiers::Difference::Kind::Added: return with(line.to) + (line.to->gift ? ", a gift" : "");
  case tiers::Difference::Kind::More:
  case tiers::Difference::Kind::Less: {
    const std::string after = amount(line.to), before = amount(line.from);
    return after.empty() ? name : name + ", " + after + " instead of " + before;
  }
  case tiers::Difference::Kind::Otherwise: return name + ", made ready in another way";
  case tiers::Difference::Kind::Missing: {
    const std::string words = amount(line.from);
    return "Without " + in_sentence(name) + (words.empty() ? "" : ", " + words);
  }
  }
  return name;
}

std::string owned_words(const Project& project, const Requirement& one) {
  std::vector<std::string> names;
  for (const ItemRef item : one.any_of) names.push_back(words::with_the(item_noun(project, item)));
  return words::listed(names, "or");
}

Section ladder_section(const Project& project) {
  Section section{"money-ladder", "What a dearer tier adds", {}};
  const std::vector<tiers::TierDifference> ladder = tiers::ladder_of(project);
  if (ladder.empty()) return section;
  add(section, heading(2, "money-ladder", "What a dearer tier adds"));
  Table table;
  table.caption = "What each tier adds over the next cheaper one";
  table.columns = {words_column("Over the tier before", 4.0), money_column("Shop value")};
  for (const tiers::TierDifference& one : ladder) {
    const std::string step = tier_at(project, one.to).name + " over " +
                             tier_at(project, one.from).name +
                             (one.price ? ": " + money_text(*one.price) + " dearer" : "");
    table.rows.push_back({Row::Kind::Group, {plain(step)}});
    for (const tiers::Difference& line : one.lines)
      table.rows.push_back(
          {Row::Kind::Plain,
           {plain(line_words(project, line)), line.value ? cell(*line.value) : plain("no price")}});
    for (const Requirement* asked : one.asked)
      table.rows.push_back(
          {Row::Kind::Plain, {plain("Must own " + owned_words(project, *asked)), plain("")}});
    for (const Requirement* freed : one.freed)
      table.rows.push_back(
          {Row::Kind::Plain, {plain("Need not own " + owned_words(project, *freed)), plain("")}});
    table.rows.push_back({Row::Kind::Total, {plain("Worth more"), cell(one.value)}});
  }
  add(section, std::move(table));
  return section;
}

} // namespace

MoneyBook money_book(const Project& project, const std::vector<supply::KitKind>& kinds,
                     const supply::Buying& buying) {
  const std::vector<tiers::Sale> sales = tiers::sales_of(project);
  tiers::Account account = tiers::account_of(project, sales, kinds, buying);
  tiers::Outlook outlook(project, account, buying);
  return {std::move(account), std::move(outlook), buying.sheets};
}

Document money_report(const Project& project, const MoneyBook& book,
                      const BusinessOptions& options) {
  Document document = shop_document(project, "Money", options.draft);
  const auto take = [&](Section section) {
    if (!section.blocks.empty()) document.sections.push_back(std::move(section));
  };
  take(account_section(project, book));
  if (!project.tiers.empty()) take(order_section(project, book));
  take(outlook_section(project, book));
  take(ladder_section(project));
  return document;
}

} // namespace leafwright::guide
