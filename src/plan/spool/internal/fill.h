#pragma once

#include "plan/spool/spool.h"

#include <cstdint>
#include <vector>

// The problem in whole numbers and the quick ways to fill spools. Inside this room only.

namespace leafwright::spool {

using Units = std::int64_t; // lengths over their greatest common divisor

// Lengths that differ, longest first, and how many of each are still to be cut.
struct Task {
  std::vector<Units> lengths;
  std::vector<std::int64_t> wanted;
  Units spool = 0;
  std::vector<Units> rests; // in the order in which they are filled
};

// How many of each length are cut from one spool or rest.
using Filling = std::vector<std::int64_t>;

struct Filled {
  std::vector<Filling> rests; // one for each of Task::rests
  std::vector<Filling> spools;
};

Units total(const std::vector<Units>& lengths, const std::vector<std::int64_t>& counts);

// The fullest filling of `room` with what is wanted; with `longest`, one that takes the longest
// piece wanted. Exact unless the search grows beyond some 20 000 steps; then the best found.
Filling fullest(const Task& task, Units room, bool longest);

// Longest pieces first, each into the first spool with room.
Filled first_fit(const Task& task);
// Spool after spool, each as full as can be around the longest piece left.
Filled fullest_first(const Task& task);

// Whether all pieces fit into the rests and `spools` new spools.
enum class Answer { Yes, No, GivenUp };
struct Search {
  Answer answer = Answer::GivenUp;
  Filled filled;
};
// Tries every maximal filling, spool by spool, within the length that may be lost in all. `steps`
// is reduced by the steps taken.
Search fit_into(const Task& task, std::int64_t spools, std::int64_t& steps);

} // namespace leafwright::spool
