#pragma once

#include "measure/length.h"

#include <cstdint>
#include <vector>

// One-dimensional cutting stock: ribbon and twine from spools. A piece is cut from one spool or one
// rest in hand and never spans two.

namespace leafwright::spool {

struct Cut {
  Length length{};
  std::int64_t count = 0;
};

struct Job {
  std::vector<Cut> cuts;
  Length spool{};            // of a new one
  std::vector<Length> rests; // in hand: each of these once, before a new spool is begun
};

// What is cut from one spool or rest; spools cut alike stand together.
struct Reel {
  std::int64_t times = 1;
  int rest = -1;         // index into Job::rests; -1 a new spool
  std::vector<Cut> cuts; // longest first
  Length left{};
};

struct Plan {
  std::vector<Reel> reels;   // rests first
  std::int64_t spools = 0;   // new ones
  std::int64_t at_least = 0; // proven lower bound of that
  bool proven = false;       // the two are equal
  // Cuts longer than the spool and every rest; they are in no reel.
  std::vector<Cut> impossible;
};

// Fewest new spools. Exact by search; where the search is given up (hostile lengths), `proven`
// tells.
Plan plan(const Job& job);

// At least this many new spools: by dual feasible functions (Fekete & Schepers, Mathematical
// Programming 91 (2001)), rests counted as spools of which a part is taken already.
std::int64_t spools_at_least(const Job& job);

} // namespace leafwright::spool
