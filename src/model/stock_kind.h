#pragma once

#include "model/finding.h"
#include "model/supply.h"

#include <span>
#include <string_view>

// The kinds of stock and what each bears.
//
//   stock_row(Stock::Kind::Clear).words                       // "acetate"
//   for (const Unborne& row : unborne(Stock::Kind::Clear))    // what it does not bear, and why

namespace leafwright {

struct StockRow {
  Stock::Kind kind;
  std::string_view words;   // in a sentence: "acetate"
  std::string_view caution; // for whoever works with it; empty where there is none
  bool seen_through = false;
  bool glossy = false;      // water-based ink does not dry on it
  bool takes_water = false; // made for a wash
};

// One row for each, in the order of the enumeration.
std::span<const StockRow> stock_rows();
const StockRow& stock_row(Stock::Kind kind);

// A work that a kind of stock does not bear (common practice).
struct Unborne {
  Stock::Kind kind;
  Work work;
  Severity severity;
  std::string_view why;     // "acetate warps and melts in hot air"
  std::string_view instead; // "heat emboss the paper behind it"
};
std::span<const Unborne> unborne();

} // namespace leafwright
