#pragma once

#include "model/project.h"
#include "plan/cut/cut.h"
#include "plan/supply/sheets.h"

#include <cstdint>
#include <vector>

namespace leafwright::supply {

// The project's straight trimmer: the first tool with a cutting length; nullptr when there is none.
const Tool* trimmer_of(const Project& project);

// What straight cuts may do, for one kit as for a run: anything. A trimmer's smallest strip is the
// least that its guard holds down, and what is held is the part that is kept: the sliver falls off
// beyond the blade. So trimmings may be as narrow as they like; only a piece that is itself too
// narrow cannot be held, and the rule fit-strip speaks of it.
cut::Rules cutting_rules();

// The cuts of a pattern as work at a straight trimmer: settings of the fence in order, strips
// first, stacks as high as the trimmer cuts.

// Every pass of the blade at one setting of the fence.
struct Setting {
  int number = 1;         // printed beside each of its cuts in the diagram
  Length fence{};         // what is left of (above) the blade
  int cuts = 1;           // of one part
  std::vector<int> moves; // indices into SheetLayout::moves, all parts together
  std::vector<int> gives; // indices into SheetLayout::pieces finished by them, on one sheet
};

// Parts alike that are cut up in one direction: the sheets themselves, then strips.
struct Round {
  Size part;
  bool across = false;     // the blade runs along the width
  std::int64_t parts = 1;  // on all sheets of the pattern
  std::int64_t stack = 1;  // parts under the blade at once
  std::int64_t stacks = 1; // parts / stack, rounded up
  std::vector<Setting> settings;
  std::int64_t strokes() const { // of the blade, all stacks
    std::int64_t all = 0;
    for (const Setting& setting : settings) all += setting.cuts * stacks;
    return all;
  }
};

struct WorkOrder {
  std::vector<Round> rounds;
  std::int64_t strokes = 0; // of the blade over all sheets of the pattern
  int settings = 0;
};

// How many sheets go under the blade at once: the trimmer's capacity over the paper's caliper, at
// least 1; 1 where either is unknown.
std::int64_t stack_of(const Project& project, int stock);

// Works out the order and writes its numbers into `layout.moves`.
WorkOrder work_order(SheetLayout& layout, std::int64_t stack);

} // namespace leafwright::supply
