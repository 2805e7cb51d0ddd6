#pragma once

#include "plan/cut/cut.h"

#include <cstdint>
#include <utility>
#include <vector>

// The job in small integers: the blade added to every piece and sheet, lengths divided by their
// greatest common divisor, pieces of equal size merged.

namespace leafwright::cut {

struct Type {
  int width = 0, height = 0;              // small units, blade included
  Length real_width = 0, real_height = 0; // the job's unit, blade included
  bool may_turn = false;                  // and it would make a difference
  std::int64_t demand = 0;
  std::vector<std::pair<int, std::int64_t>> pieces; // (index in Job::pieces, copies)
};

struct StockSize {
  int width = 0, height = 0;
  std::int64_t price = 1;
  std::int64_t limit = -1; // -1: unlimited
  bool may_turn = true;
  int sheet = 0; // index in Job::sheets
};

// A type as it may lie on one stock: a type that may turn gives two.
struct OrientedType {
  int width = 0, height = 0;
  int type = 0;
  bool turned = false;
};

struct Normal {
  std::vector<Type> types; // largest area first
  std::vector<StockSize> stocks;
  std::vector<std::vector<OrientedType>> shapes; // per stock, only those that fit
  Length unit_x = 1, unit_y = 1;                 // length of one small unit
  Length blade = 0;
  int strip_x = 0, strip_y = 0; // smallest strip and blade in small units, 0: none
  int stages = 0;
  bool coarse = false; // sizes had to be rounded: plans stay valid, bounds are then by area alone
  std::vector<JobFault> findings; // any of these forbids a plan

  // Patterns are rigid: every cut, waste included, is planned exactly.
  bool rigid() const { return strip_x > 0 || stages > 0; }
};

Normal normalise(const Job& job);

} // namespace leafwright::cut
