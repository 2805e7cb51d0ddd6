#include "guide/business/business.h"
#include "guide/business/internal/money_cells.h"
#include "guide/business/internal/money_outlook.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/tier/account.h"
#include "plan/tier/value.h"

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

namespace leafwright::guide {
namespace {

using tiers::TierAccount;

Notice warning(std::string title, const std::string& words) {
  return {Notice::Kind::Warning, std::move(title), plain(words)};
}

// "shipping", "postage"
std::string shipping_words(const Project& project) {
  return std::string(words::terms(project.language).shipping);
}
std::string shipping_title(const Project& project, std::string_view before) {
  const std::string words = std::string(before) + shipping_words(project) + ".";
  return words::sentence_case(words);
}

void add_gaps(Section& section, const Project& project, const tiers::Account& account) {
  std::vector<std::string> names;
  for (const int tier : account.tiers_unpriced) names.push_back(tier_at(project, tier).name);
  if (!names.empty())
    add(section,
        warning("No price.", words::listed(names) + " " + words::agreed("have", std::ssize(names)) +
                                 " no price yet, so we count no income from " +
                                 std::string(words::it_or_them(std::ssize(names))) + "."));
  names.clear();
  for (const ItemRef item : account.unpriced) names.push_back(item_name(project, item));
  if (!names.empty())
    add(section,
        warning("Goods without a price.",
                "We count these as free: " + words::listed(names) + ". Fix: give each a price."));
  if (project.selling.postage.empty())
    add(section,
        warning(shipping_title(project, "No "),
                "Your project has no cost of " + shipping_words(project) +
                    " yet, so it counts as nothing. Fix: ask your carrier and add the rates to "
                    "<selling>."));
  else if (!account.postage_known)
    add(section,
        warning(shipping_title(project, ""), "Some parcels are heavier than your last rate, so "
                                             "they count as free. Fix: add a rate for "
                                             "heavier parcels."));
}

Table account_table(const Project& project, const tiers::Account& account) {
  Table table;
  const std::string shipping = words::sentence_case(shipping_words(project));
  table.caption = "Income, costs and profit by kit";
  table.columns = {
      words_column("Kit", 1.4), money_column("Orders"),           money_column("Sold"),
      money_column("Sales"),    money_column(shipping + " paid"), money_column("Supplies"),
      money_column("Fees"),     money_column(shipping + " cost"), money_column("Packing"),
      money_column("Profit")};
  const auto row_of = [&](const TierAccount& one, std::string_view name, Row::Kind kind) {
    return Row{kind,
               {plain(name), cell(one.orders), cell(one.kits), cell(one.price), paid(one.charged),
                paid(one.goods), paid(one.fees), paid(one.postage), paid(one.packing),
                cell(one.margin)}};
  };
  for (const TierAccount& one : account.tiers)
    table.rows.push_back(row_of(one, tier_at(project, one.tier).name, Row::Kind::Plain));
  table.rows.push_back(row_of(account.all, "Total", Row::Kind::Total));
  return table;
}

Table result_table(const Project& project, const tiers::Account& account) {
  Table table;
  table.caption = "From profit by kit to profit of the batch";
  table.columns = {words_column("", 3.0), money_column("")};
  const auto line = [&](std::string_view words, const Money& money, Row::Kind kind) {
    table.rows.push_back({kind, {plain(words), cell(money)}});
  };
  line("Profit of all kits", account.all.margin, Row::Kind::Plain);
  for (const Selling::Outlay& outlay : project.selling.outlays)
    line(outlay.words.empty() ? std::string("Paid once") : outlay.words,
         Money{-outlay.cost.minor, project.currency}, Row::Kind::Plain);
  line(account.result.minor < 0 ? "Loss of the batch" : "Profit of the batch", account.result,
       Row::Kind::Total);
  return table;
}

// "27 kits and one tutorial": a PDF alone is no kit.
std::string sold_words(const Project& project, const tiers::Account& account) {
  std::int64_t kits = 0, tutorials = 0;
  for (const TierAccount& one : account.tiers)
    (is_tutorial_alone(tier_at(project, one.tier)) ? tutorials : kits) += one.kits;
  std::vector<std::string> parts;
  if (kits > 0 || tutorials == 0) parts.push_back(words::counted(kits, "kit"));
  if (tutorials > 0) parts.push_back(words::counted(tutorials, "tutorial"));
  return words::listed(parts);
}

// What is on the account so far; nothing where the list gives no amounts.
std::string ledger_words(const tiers::Ledger& ledger) {
  if (!ledger.amounts) return {};
  const tiers::LedgerAmounts& all = ledger.all;
  std::string words = "So far " + money_text(all.paid) + " came in";
  if (all.refunded.minor > 0) words += ", " + money_text(all.refunded) + " went back";
  if (all.fees.minor > 0) words += ", " + money_text(all.fees) + " went into fees";
  words += ": " + money_text(all.booked) + " is yours.";
  if (ledger.owing > 0)
    words += " " + words::sentence_case(words::counted(ledger.owing, "order")) + " still " +
             words::agreed("owe", ledger.owing) + " you " + money_text(all.owed) + ".";
  if (ledger.returning > 0)
    words += " You have " + money_text(all.to_return) + " to give back, for " +
             words::counted(ledger.returning, "order") + ".";
  return words;
}

Section account_section(const Project& project, const MoneyBook& book) {
  Section section{"money", "What this batch earns", {}};
  const tiers::Account& account = book.account;
  add(section, heading(1, "money", "What this batch earns", {}, "For you only"));
  if (account.tiers.empty()) {
    add(section, lead(plain("No kits are ordered or expected yet.")));
    return section;
  }
  const Money brought = account.all.price + account.all.charged;
  const bool loss = account.result.minor < 0;
  const std::string kits = sold_words(project, account);
  const bool expected = project.run.orders.empty();
  std::string words = expected ? "Assuming " + kits + ", this batch "
                               : words::sentence_case(kits) + " sold: this batch ";
  words += loss ? "loses " + money_text(Money{-account.result.minor, project.currency})
                : "makes a profit of " + money_text(account.result);
  words += ". You take in " + money_text(brought) + " and pay for supplies, fees, " +
           shipping_words(project) + " and packing";
  words += project.selling.outlays.empty() ? "." : ", and for what you buy once.";
  if (account.orders_open > 0)
    words += " Of what you take in, " + money_text(account.open) + " from " +
             words::counted(account.orders_open, "open order") + " is not paid yet.";
  if (expected)
    words += project.run.set_aside.empty()
                 ? " Nobody has ordered yet, so these are the kits you expect."
                 : " No order counts yet, so these are the kits you expect.";
  add(section, lead(plain(words)));
  if (const std::string said = ledger_words(book.ledger); !said.empty())
    add(section, body(plain(said)));
  add_gaps(section, project, account);
  add(section, account_table(project, account));
  add(section,
      small(
          plain("Every amount is exact to the cent, and every total is the sum of its lines. Each "
                "kit pays for its share of a pack.")));
  if (!project.selling.outlays.empty()) add(section, result_table(project, account));
  std::string stranded;
  if (account.stranded.minor > 0)
    stranded = "Of the supplies you pay for, " + money_text(account.stranded) +
               " is left over at the end: whole sheets, full " +
               std::string(words::terms(project.language).spool) +
               "s, loose pieces, ribbon and tape. See the shopping list. Offcuts count as "
               "nothing. ";
  stranded += "What you had on hand before counts as free.";
  add(section, body(plain(stranded)));
  add(section, Notice{Notice::Kind::Caution, "Not tax advice.",
                      plain("These numbers are for your own planning. They leave out taxes, "
                            "insurance and your own time. Check the rates with your carrier, and "
                            "keep this page to yourself.")});
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
  add(section, heading(2, "money-order", "One order of each kit"));
  const std::string shipping = words::sentence_case(shipping_words(project));
  Table table;
  table.caption = "What one order earns before you pay for supplies";
  table.columns = {words_column("Kit", 1.3),
                   money_column("Shop value"),
                   money_column("Price"),
                   money_column(shipping + " paid"),
                   money_column("Fees"),
                   money_column(shipping + " cost"),
                   money_column("Packing"),
                   money_column("Earns"),
                   {plain("Break-even"), Column::Align::Left, 1.6, false}};
  std::vector<ItemRef> unweighed;
  bool all_exact = true, envelopes_unweighed = false;
  for (std::size_t i = 0; i < project.tiers.size(); ++i) {
    const int index = static_cast<int>(i);
    const Tier& tier = project.tiers[i];
    const tiers::OrderTerms terms = tiers::terms_of(project, index);
    const tiers::TierValue& value = at(book.values, index);
    for (const ItemRef item : terms.unweighed)
      if (std::find(unweighed.begin(), unweighed.end(), item) == unweighed.end())
        unweighed.push_back(item);
    envelopes_unweighed = envelopes_unweighed || terms.envelopes_unweighed;
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
      "Shop value is what a buyer would pay for the same things, free gifts included. Break-even "
      "is "
      "the number of orders from which this kit alone loses nothing, with every pack bought new. "
      "In between, one more pack can mean a loss again.";
  if (!all_exact) words += " “About” marks an estimate.";
  if (!unweighed.empty() || envelopes_unweighed) {
    std::vector<std::string> names;
    names.reserve(unweighed.size());
    for (const ItemRef item : unweighed) names.push_back(item_noun(project, item));
    if (envelopes_unweighed) names.emplace_back("lettered envelopes");
    words += " We don't know the weight of " + words::listed(names) + ", so " +
             shipping_words(project) + " may cost more.";
  }
  add(section, small(plain(words)));
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

Section ladder_section(const Project& project, const MoneyBook& book) {
  Section section{"money-ladder", "What a higher price adds", {}};
  if (book.ladder.empty()) return section;
  add(section, heading(2, "money-ladder", "What a higher price adds"));
  Table table;
  table.caption = "What each kit adds over the next cheaper one";
  table.columns = {words_column("Over the kit before", 4.0), money_column("Shop value")};
  for (const tiers::TierDifference& one : book.ladder) {
    const std::string step = tier_at(project, one.to).name + " over " +
                             tier_at(project, one.from).name +
                             (one.price ? ": " + money_text(*one.price) + " more" : "");
    table.rows.push_back({Row::Kind::Group, {plain(step)}});
    for (const tiers::Difference& line : one.lines)
      table.rows.push_back(
          {Row::Kind::Plain,
           {plain(line_words(project, line)), line.value ? cell(*line.value) : plain("no price")}});
    for (const Requirement* asked : one.asked)
      table.rows.push_back({Row::Kind::Plain,
                            {plain("You need to own " + owned_words(project, *asked)), plain("")}});
    for (const Requirement* freed : one.freed)
      table.rows.push_back(
          {Row::Kind::Plain, {plain("No need to own " + owned_words(project, *freed)), plain("")}});
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
  tiers::TierValues known(project);
  std::vector<tiers::TierValue> values;
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    values.push_back(known.of(static_cast<int>(i)));
  return {std::move(account), std::move(outlook), tiers::ledger_of(project),
          buying.sheets,      std::move(values),  tiers::ladder_of(known)};
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
  take(ladder_section(project, book));
  return document;
}

} // namespace leafwright::guide
