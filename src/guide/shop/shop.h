#pragma once

#include "guide/block.h"
#include "guide/figure/drawing.h"
#include "model/project.h"
#include "plan/supply/buying.h"

#include <string>
#include <vector>

// The documents between the order list and the first parcel: how to cut everything, what to buy;
// the same as data, and drawings at true size.

namespace leafwright::guide {

struct ShopOptions {
  bool draft = false;
};

// One pattern after another: diagram, how many sheets, the cuts in order; totals and what is
// proven. Sections: cutting-summary, cutting-patterns.
Document cutting_plan(const Project& project, const supply::Buying& buying,
                      const ShopOptions& options = {});

// Needed, in hand, to buy, cost, left over; ribbon from the spool; what is worth keeping. Sections:
// buying-list, buying-ribbon, buying-kept.
Document buying_list(const Project& project, const supply::Buying& buying,
                     const ShopOptions& options = {});

// JSON (RFC 8259), one object; lengths in millimetres as exact decimals, money in minor units.
// Cutting plan: `lies` says how a piece comes to lie on its sheet against the width and height told
// for it: "upright" or, by a quarter turn, "turned", where its pattern or the grain leaves one way
// only; "either" where both will do. `may_turn` is true for "either" alone. Each placed piece says
// how it was laid in `turned`.
std::string cutting_plan_json(const Project& project, const supply::Buying& buying);
std::string buying_list_json(const Project& project, const supply::Buying& buying);

// CSV (RFC 4180, UTF-8, header row). Cells that a spreadsheet would take for a formula get an
// apostrophe in front.
std::string cutting_plan_csv(const Project& project,
                             const supply::Buying& buying); // one row a piece
std::string buying_list_csv(const Project& project,
                            const supply::Buying& buying); // one row an item

// Cuts and scores at true size: for each pattern of the plan, each die-cut shape, and the fold net
// of each card's base.
struct TrueSizeFile {
  std::string name; // "kraft-1.svg", "die-apple-die.svg", "net-trees.svg"
  figure::CutLines lines;
};
std::vector<TrueSizeFile> true_size_patterns(const Project& project,
                                             const supply::CuttingPlan& sheets);
std::vector<TrueSizeFile> true_size_shapes(const Project& project);

} // namespace leafwright::guide
