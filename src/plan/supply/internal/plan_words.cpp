#include "plan/supply/sheets.h"

#include "language/agreement.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::supply {

namespace {

std::string sheets(std::int64_t count) {
  return fmt::format("{} {}", count, words::noun_for(count, "sheet"));
}

std::string range(std::int64_t from, std::int64_t to) {
  return to == from + 1 ? fmt::format("{} or {}", from, to) : fmt::format("{} to {}", from, to);
}

std::string proven_part(const cut::Plan& plan, const cut::Job& job) {
  const bool ruled = job.rules.smallest_strip > 0 || job.rules.stages > 0;
  const char* plans = ruled ? "straight-cut plan that keeps these rules" : "straight-cut plan";
  if (plan.patterns.empty()) return plan.proven ? "nothing to cut" : "";
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

std::string hurry_in_words(const cut::Plan& plan) {
  switch (plan.stopped) {
  case cut::StoppedBy::Time:
    return "; the clock ended the search, so another run may end elsewhere";
  case cut::StoppedBy::Caller: return "; the search was broken off";
  case cut::StoppedBy::Nothing:
  case cut::StoppedBy::Work: break;
  }
  return {};
}

std::string proof_in_words(const cut::Plan& plan, const cut::Job& job) {
  return proven_part(plan, job) + hurry_in_words(plan);
}

namespace {

std::string number_in_words(const cut::JobFault& fault, const cut::Job& job) {
  using Number = cut::JobFault::Number;
  const cut::PieceType* piece = find_at(job.pieces, fault.piece);
  const cut::SheetType* sheet = find_at(job.sheets, fault.sheet);
  switch (fault.number) {
  case Number::Size:
    if (piece)
      return fmt::format("piece {} measures {} x {}; both must be above 0", piece->id, piece->width,
                         piece->height);
    if (sheet)
      return fmt::format("sheet {} measures {} x {}; both must be above 0", sheet->id, sheet->width,
                         sheet->height);
    break;
  case Number::Copies:
    if (piece)
      return fmt::format("piece {} is wanted {} times; 0 to {} can be planned", piece->id,
                         piece->copies, cut::most_copies);
    break;
  case Number::Price:
    if (sheet)
      return fmt::format("sheet {} has the price {}; it must be 0 to {}", sheet->id, sheet->price,
                         cut::highest_price);
    break;
  case Number::Limit:
    if (sheet)
      return fmt::format("sheet {} has the limit {}; it must not be negative", sheet->id,
                         sheet->limit.value_or(0));
    break;
  case Number::Margin: return "blade, margins and smallest strip must not be negative";
  case Number::Stages: return "the number of stages must not be negative";
  }
  return {};
}

} // namespace

std::string fault_in_words(const cut::JobFault& fault, const cut::Job& job) {
  switch (fault.kind) {
  case cut::FindingKind::BadNumber: return number_in_words(fault, job);
  case cut::FindingKind::TooFewSheets: {
    const cut::SheetType& sheet = at(job.sheets, fault.sheet);
    const std::int64_t limit = sheet.limit.value_or(0);
    return fmt::format("there are {} of sheet {}; {} would be enough", limit, sheet.id,
                       limit + fault.missing);
  }
  case cut::FindingKind::RulesForbid:
    return fmt::format("piece {} cannot be cut by these rules", at(job.pieces, fault.piece).id);
  case cut::FindingKind::PieceFitsNoSheet: break;
  }
  const cut::PieceType& piece = at(job.pieces, fault.piece);
  const bool turnable =
      piece.may_turn && std::any_of(job.sheets.begin(), job.sheets.end(),
                                    [](const cut::SheetType& one) { return one.pieces_may_turn; });
  return fmt::format(
      "piece {} ({} x {}) fits on no sheet{}; the smallest sheet that would do is {} x {}",
      piece.id, piece.width, piece.height, turnable ? ", turned or not" : "", fault.needs_width,
      fault.needs_height);
}

std::string most_saved(std::int64_t cost, std::int64_t bound) {
  const std::int64_t gap = cost <= bound ? 0 : ((cost - bound) * 1000 - 1) / cost + 1;
  return fmt::format("{}.{} %", gap / 10, gap % 10);
}

} // namespace leafwright::supply
