#include "app/documents/planned_project.h"

#include "app/system/diagnostics.h"
#include "plan/calendar/work_time.h"
#include "plan/fit/check.h"
#include "plan/orders/label_sheet.h"
#include "read/read.h"
#include "read/roster/roster.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>
#include <variant>

namespace leafwright::app {

PlannedProject plan_project(const std::string& path, const std::vector<std::string>& overrides,
                            supply::PlanCache* kept) {
  ReadOptions options;
  options.overrides = overrides;
  return plan_project(read_project_file(path, options), kept);
}

PlannedProject plan_project(Reading reading, supply::PlanCache* kept) {
  PlannedProject planned;
  planned.reading = std::move(reading);
  planned.findings = planned.reading.findings;
  if (!planned.reading.ok()) return planned;
  const Project& project = planned.reading.project;
  planned.sheets =
      kept != nullptr ? supply::sheets_for(project, *kept) : supply::sheets_for(project);
  append(planned.findings, fit::check(project, &planned.sheets));
  return planned;
}

void plan_run(PlannedProject& planned, const cut::Effort& effort) {
  take_orders(planned);
  const Project& project = planned.reading.project;
  planned.buying = supply::buying_for(project, planned.packing.value().parcels.kinds, effort);
}

namespace {

constexpr std::size_t most_roster_bytes = 32'000'000;

Finding unreadable(const Run& run, const std::string& why) {
  Finding finding;
  finding.code = "roster-no-file";
  finding.place = run.roster_place;
  finding.found = fmt::format("{}: {}", run.roster, why);
  finding.expected = "the list of orders";
  finding.fix = "put it beside the project, or take roster away";
  return finding;
}

// How many rows of the roster were left out.
std::size_t read_roster_file(PlannedProject& planned) {
  Project& project = planned.reading.project;
  const FileAccess files = disk_access();
  const std::string path =
      project.folder == "." ? project.run.roster : project.folder + "/" + project.run.roster;
  // Links may not lead out of the folder either.
  const std::string real = files.real_path(path);
  if (!real.empty() && !lies_inside(real, files.real_path(project.folder))) {
    planned.order_findings.push_back(
        unreadable(project.run, "it leads out of the project's folder"));
    return 0;
  }
  FileBytes bytes = files.read(path, most_roster_bytes);
  if (const auto* fault = std::get_if<FileFault>(&bytes)) {
    planned.order_findings.push_back(unreadable(project.run, fault->words));
    return 0;
  }
  Sources& sources = planned.reading.sources;
  const auto file = static_cast<std::int32_t>(sources.size());
  sources.emplace_back(path, std::get<std::string>(std::move(bytes)));
  Roster roster = read_roster(sources.back().text(), project, file);
  append(planned.order_findings, std::move(roster.findings));
  std::vector<Order>& orders = project.run.orders;
  orders.insert(orders.end(), std::make_move_iterator(roster.orders.begin()),
                std::make_move_iterator(roster.orders.end()));
  std::vector<Order>& set_aside = project.run.set_aside;
  set_aside.insert(set_aside.end(), std::make_move_iterator(roster.set_aside.begin()),
                   std::make_move_iterator(roster.set_aside.end()));
  return roster.left_out.size();
}

} // namespace

void take_orders(PlannedProject& planned) {
  if (planned.packing || !planned.reading.ok()) return;
  const Project& project = planned.reading.project;
  const std::size_t left_out = project.run.roster.empty() ? 0 : read_roster_file(planned);
  orders::Parcels parcels = orders::parcels_of(project);
  append(planned.order_findings, std::exchange(parcels.findings, {}));
  if (project.run.labels)
    append(planned.order_findings, orders::check_label_sheet(project, *project.run.labels));
  planned.packing = guide::packing_list(project, std::move(parcels), left_out);
}

calendar::DayPlan day_plan(const PlannedProject& planned) {
  const Project& project = planned.reading.project;
  const guide::PackingList& list = planned.packing.value();
  const supply::Buying& buying = planned.buying.value();
  return calendar::plan_days(
      project, calendar::work_time_of(project, buying, list.parcels, list.contents), buying);
}

namespace {

bool too_late(const Findings& findings) {
  return std::ranges::any_of(findings, [](const Finding& one) {
    return one.code == "date-supplies-late" || one.code == "date-no-time";
  });
}

// Too little effort may leave a stock without any plan, which would take no time at all.
bool all_is_cut(const supply::Buying& buying) {
  return std::ranges::none_of(
      buying.sheets.stocks, [](const supply::StockSheets& stock) { return stock.layouts.empty(); });
}

} // namespace

Findings check_dates(PlannedProject& planned, const cut::Effort& effort) {
  const Project& project = planned.reading.project;
  if (!project.run.reply_by || !project.run.ship_by)
    return calendar::plan_days(project, {}, {}).findings;
  // A plan of little effort wastes more, so that the work takes longer, if anything: only where
  // that is too long does a better one matter, and at last the one the calendar is made from.
  constexpr std::int64_t least = 1'000'000;   // a thousandth of a second for each stock
  constexpr std::int64_t little = 50'000'000; // a few hundredths
  Findings findings;
  for (const std::int64_t work : {least, little, effort.work}) {
    cut::Effort brief = effort;
    brief.work = std::min(effort.work, work);
    plan_run(planned, brief);
    findings = day_plan(planned).findings;
    if (all_is_cut(*planned.buying) && !too_late(findings)) break;
  }
  planned.buying.reset(); // nobody shall take it for the plan of the run
  return findings;
}

} // namespace leafwright::app
