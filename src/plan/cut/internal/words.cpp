#include "plan/cut/words.h"

#include <fmt/format.h>

namespace leafwright::cut {

namespace {

std::string sheets(std::int64_t count) {
  return fmt::format("{} {}", count, count == 1 ? "sheet" : "sheets");
}

std::string range(std::int64_t from, std::int64_t to) {
  return to == from + 1 ? fmt::format("{} or {}", from, to) : fmt::format("{} to {}", from, to);
}

std::string proven_part(const Plan& plan, const Job& job) {
  const bool ruled = job.rules.smallest_strip > 0 || job.rules.stages > 0;
  const char* plans = ruled ? "straight-cut plan that keeps these rules" : "straight-cut plan";
  if (plan.bound_sheets > 0) {
    if (plan.proven) {
      return fmt::format("{}; no {} can use fewer than {}", sheets(plan.sheets), plans,
                         plan.sheets);
    }
    return fmt::format("{}; the best possible is {}", sheets(plan.sheets),
                       range(plan.bound_sheets, plan.sheets));
  }
  if (plan.proven) {
    return fmt::format("{}, cost {}; no {} can cost less", sheets(plan.sheets), plan.cost, plans);
  }
  return fmt::format("{}, cost {}; the least possible is {} to {}", sheets(plan.sheets), plan.cost,
                     plan.bound_cost, plan.cost);
}

} // namespace

std::string hurry_in_words(const Plan& plan) {
  switch (plan.stopped) {
  case StoppedBy::Time: return "; the clock ended the search, so another run may end elsewhere";
  case StoppedBy::Caller: return "; the search was broken off";
  case StoppedBy::Nothing:
  case StoppedBy::Work: break;
  }
  return {};
}

std::string proof_in_words(const Plan& plan, const Job& job) {
  return proven_part(plan, job) + hurry_in_words(plan);
}

} // namespace leafwright::cut
