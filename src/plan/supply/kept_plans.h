#pragma once

#include "measure/fingerprint.h"
#include "plan/supply/sheets.h"

#include <map>

namespace leafwright::supply {

// Plans of kits made before, found again by all that they depend on: most changes to a project
// leave most of its stocks as they were.
class KeptPlans {
 public:
  const cut::Plan* find(const Fingerprint& job) {
    const auto known = plans_.find(job);
    if (known == plans_.end()) return nullptr;
    known->second.round = round_;
    return &known->second.plan;
  }
  void keep(const Fingerprint& job, const cut::Plan& plan) {
    plans_.insert_or_assign(job, Entry{plan, round_});
  }
  // Before everything is made again: what the last two rounds had no use for is let go.
  void next_round() {
    std::erase_if(plans_, [this](const auto& one) { return one.second.round + 1 < round_; });
    ++round_;
  }

 private:
  struct Entry {
    cut::Plan plan;
    int round = 0;
  };
  std::map<Fingerprint, Entry> plans_;
  int round_ = 0;
};

// The same as sheets_for(project) for one kit.
KitSheets sheets_for(const Project& project, KeptPlans& kept);

} // namespace leafwright::supply
