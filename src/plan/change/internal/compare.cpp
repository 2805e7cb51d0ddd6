#include "plan/change/compare.h"

#include "measure/index.h"
#include "measure/print_length.h"

#include <algorithm>
#include <map>
#include <utility>

namespace leafwright::change {

const FactChange* ThingChange::find(std::string_view fact) const {
  for (const FactChange& one : facts)
    if (one.name == fact) return &one;
  return nullptr;
}

bool BuyingChange::moved() const {
  return needed_before != needed_after || bought_before != bought_after ||
         length_before != length_after || mass_before != mass_after || cost_before != cost_after;
}

bool Comparison::empty() const {
  return things.empty() && findings.empty() && total_before == total_after &&
         std::none_of(sheets.begin(), sheets.end(),
                      [](const auto& one) { return one.kit.moved() || one.run.moved(); }) &&
         std::none_of(buying.begin(), buying.end(), [](const auto& one) { return one.moved(); });
}

namespace {

std::vector<FactChange> fact_changes(const Thing& before, const Thing& after) {
  std::vector<FactChange> changes;
  for (const Fact& now : after.facts) {
    const FactValue* old = before.find(now.name);
    if (old && *old == now.worth) continue;
    changes.push_back({now.name, old ? std::optional<FactValue>(*old) : std::nullopt, now.worth});
  }
  for (const Fact& old : before.facts)
    if (!after.find(old.name)) changes.push_back({old.name, old.worth, std::nullopt});
  return changes;
}

using Named = std::pair<Kind, std::string>;

std::vector<FindingChange> finding_changes(const Findings& before, const Findings& after,
                                           std::size_t& same) {
  // Places move with every line that is put in: a finding is known by what it says.
  std::multimap<std::pair<std::string, std::string>, std::size_t> known;
  for (std::size_t i = 0; i < before.size(); ++i)
    known.emplace(std::pair(before[i].code, before[i].found + "\n" + before[i].expected), i);
  std::vector<bool> kept(before.size(), false);
  std::vector<FindingChange> changes;
  for (const Finding& now : after) {
    const auto found = known.find({now.code, now.found + "\n" + now.expected});
    if (found == known.end()) {
      changes.push_back({false, now});
      continue;
    }
    kept[found->second] = true;
    known.erase(found);
    ++same;
  }
  for (std::size_t i = 0; i < before.size(); ++i)
    if (!kept[i]) changes.push_back({true, before[i]});
  return changes;
}

std::string key_of(const Project& project, ItemRef item) {
  return std::to_string(static_cast<int>(item.kind)) + " " + item_id(project, item);
}

// Rows of the new edition in its order, then those that only the old one has.
template <class Row>
class Joined {
 public:
  Row& at(const std::string& key) {
    const auto [found, fresh] = index_.try_emplace(key, rows_.size());
    if (fresh) {
      rows_.emplace_back();
      rows_.back().key = key;
    }
    return rows_[found->second];
  }
  std::vector<Row> take() { return std::move(rows_); }

 private:
  std::vector<Row> rows_;
  std::map<std::string, std::size_t> index_;
};

struct SheetRow : SheetCounts {
  std::string key;
};

std::vector<SheetCounts> sheet_counts(const Edition& before, const Edition& after) {
  Joined<SheetRow> joined;
  const auto add = [&](const Edition& edition, auto kit, auto run) {
    const auto row = [&](int stock) -> SheetRow& {
      const ItemRef item{ItemKind::Stock, stock};
      SheetRow& one = joined.at(item_id(edition.project, item));
      if (one.kit.name.empty()) {
        one.kit.key = one.run.key = "stock " + one.key;
        one.kit.name = one.run.name = item_name(edition.project, item);
      }
      return one;
    };
    for (const supply::StockSheets& stock : edition.kit.stocks)
      row(stock.stock).kit.*kit = stock.sheets;
    for (const supply::StockSheets& stock : edition.buying.sheets.stocks)
      row(stock.stock).run.*run = stock.sheets;
  };
  add(after, &Counts::after, &Counts::after);
  add(before, &Counts::before, &Counts::before);
  std::vector<SheetCounts> counts;
  for (SheetRow& row : joined.take()) counts.push_back(std::move(row));
  return counts;
}

std::vector<BuyingChange> buying_changes(const Edition& before, const Edition& after) {
  Joined<BuyingChange> joined;
  const auto add = [&](const Edition& edition, bool old) {
    const Project& project = edition.project;
    for (const supply::BuyingLine& line : edition.buying.lines) {
      std::string key = key_of(project, line.item);
      if (line.offer > 0) // another sheet size of the same paper
        key +=
            " " +
            exact_text(
                project.stocks.at(as_index(line.item.index)).sheets.at(as_index(line.offer)).size);
      BuyingChange& one = joined.at(key);
      if (one.name.empty()) one.name = item_name(project, line.item);
      one.unit = line.unit;
      (old ? one.needed_before : one.needed_after) += line.needed;
      (old ? one.bought_before : one.bought_after) += line.bought;
      (old ? one.length_before : one.length_after) += line.length;
      (old ? one.mass_before : one.mass_after) += line.mass;
    }
    for (const supply::Purchase& purchase : edition.buying.purchases) {
      BuyingChange& one = joined.at(key_of(project, purchase.item));
      if (one.name.empty()) {
        one.name = item_name(project, purchase.item);
        one.unit = supply::BuyingLine::CountedIn::Things;
      }
      Money& cost = old ? one.cost_before : one.cost_after;
      cost.currency = project.currency;
      cost.minor += purchase.cost.minor;
    }
  };
  add(after, false);
  add(before, true);
  std::vector<BuyingChange> rows = joined.take();
  for (BuyingChange& row : rows) {
    if (row.cost_before.minor == 0) row.cost_before.currency = before.project.currency;
    if (row.cost_after.minor == 0) row.cost_after.currency = after.project.currency;
  }
  return rows;
}

Findings all_findings(const Edition& edition) {
  Findings all = edition.findings;
  all.insert(all.end(), edition.buying.findings.begin(), edition.buying.findings.end());
  return all;
}

} // namespace

std::vector<ThingChange> differences(const std::vector<Thing>& before,
                                     const std::vector<Thing>& after, std::vector<Thing>* same) {
  std::map<Named, const Thing*> known;
  for (const Thing& old : before) known.emplace(Named{old.kind, old.key}, &old);
  std::vector<ThingChange> changes;
  for (const Thing& now : after) {
    const auto found = known.find({now.kind, now.key});
    ThingChange change;
    change.after = now;
    if (found == known.end()) {
      change.how = ThingChange::How::Added;
      changes.push_back(std::move(change));
      continue;
    }
    change.facts = fact_changes(*found->second, now);
    change.before = *found->second;
    known.erase(found);
    if (!change.facts.empty())
      changes.push_back(std::move(change));
    else if (same)
      same->push_back(now);
  }
  for (const Thing& old : before) {
    if (!known.contains({old.kind, old.key})) continue;
    ThingChange change;
    change.how = ThingChange::How::Gone;
    change.before = old;
    changes.push_back(std::move(change));
  }
  return changes;
}

Comparison compare(const Edition& before, const Edition& after, const CompareOptions& options) {
  Comparison out;
  out.things = differences(facts_of(before.project), facts_of(after.project), &out.same);
  out.findings = finding_changes(all_findings(before), all_findings(after), out.findings_same);
  out.sheets = sheet_counts(before, after);
  out.buying = buying_changes(before, after);
  out.total_before = before.buying.total;
  out.total_after = after.buying.total;
  if (options.table)
    out.table = judge(before.project, before.buying, after.project, after.buying, *options.table,
                      options.effort);
  return out;
}

} // namespace leafwright::change
