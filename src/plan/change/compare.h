#pragma once

#include "plan/change/facts.h"
#include "plan/change/table.h"
#include "plan/supply/buying.h"
#include "plan/supply/sheets.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// Two editions of a project, or one project before and after a measurement changes, side by side.

namespace leafwright::change {

// A project with what was worked out from it.
struct Edition {
  const Project& project;
  const supply::KitSheets& kit;
  const Findings& findings; // of reading and of the rules
  const supply::Buying& buying;
};

struct FactChange {
  std::string name;
  std::optional<Worth> before, after; // nothing: there was no such fact
};
struct ThingChange {
  enum class How { Added, Gone, Changed };
  How how = How::Changed;
  Thing before, after; // one of them is empty when it was added or is gone
  std::vector<FactChange> facts;
  const Thing& now() const { return how == How::Gone ? before : after; }
  const FactChange* find(std::string_view fact) const;
};

struct FindingChange {
  bool gone = false; // else it is new
  Finding finding;
};

// Two numbers of one thing. Names and units come from the item.
struct Counts {
  std::string key, name; // "stock kraft"
  std::int64_t before = 0, after = 0;
  bool moved() const { return before != after; }
};
struct SheetCounts {
  Counts kit, run; // sheets of one kit; of the whole run
};
// What is needed and bought of one item, in its unit, and what that costs.
struct BuyingChange {
  std::string key, name;
  supply::BuyingLine::Unit unit = supply::BuyingLine::Unit::Pieces;
  std::int64_t needed_before = 0, needed_after = 0;
  std::int64_t bought_before = 0, bought_after = 0;
  Length length_before{}, length_after{}; // ribbon, tape
  Mass mass_before{}, mass_after{};       // glue
  Money cost_before, cost_after;
  bool moved() const;
};

struct Comparison {
  std::vector<ThingChange> things; // what differs, in the order of the new edition; gone ones last
  std::vector<Thing> same;         // what does not, in the same order
  std::vector<FindingChange> findings;
  std::size_t findings_same = 0;
  std::vector<SheetCounts> sheets;  // by stock, moved or not
  std::vector<BuyingChange> buying; // by item, moved or not
  Money total_before, total_after;  // of the run's buying
  std::optional<TableVerdict> table;

  // Nothing differs, worked out or said.
  bool empty() const;
};

struct CompareOptions {
  std::optional<OnTable> table; // nothing: cut pieces are not asked about
  cut::Effort effort;           // for the recutting
};

Comparison compare(const Edition& before, const Edition& after, const CompareOptions& options = {});

// The facts alone.
std::vector<ThingChange> differences(const std::vector<Thing>& before,
                                     const std::vector<Thing>& after, std::vector<Thing>* same);

} // namespace leafwright::change
