#pragma once

#include "plan/tier/check_tiers.h"

#include <string>

// One function for each rule; what a rule is about is said in the table in check.cpp. For this room
// only.

namespace leafwright::tiers {

struct Facts {
  const Project& project;
  const supply::CuttingPlan* sheets;
};

class Reporter {
 public:
  Reporter(const fit::Rule& rule, Findings& findings) : rule_(rule), findings_(findings) {}

  Finding& operator()(Place place, std::string found, std::string expected, std::string fix) {
    findings_.push_back({rule_.severity,
                         std::string(rule_.id),
                         place,
                         std::move(found),
                         std::move(expected),
                         std::move(fix),
                         {}});
    return findings_.back();
  }

 private:
  const fit::Rule& rule_;
  Findings& findings_;
};

// What a buyer would pay (tier_rules.cpp)
void shop_beats(const Facts& facts, Reporter& report);

// What a kit holds and asks for (tier_rules.cpp)
void owns_included(const Facts& facts, Reporter& report);
void dies_for_ready(const Facts& facts, Reporter& report);
void paper_short(const Facts& facts, Reporter& report);
void parts_missing(const Facts& facts, Reporter& report);
void as_needed_nothing(const Facts& facts, Reporter& report);
void choice_unpriced(const Facts& facts, Reporter& report);

// What the maker earns (check_tiers.cpp)
void gift_loss(const Facts& facts, Reporter& report);
void loss(const Facts& facts, Reporter& report);

} // namespace leafwright::tiers
