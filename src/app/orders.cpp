#include "app/orders.h"

#include "app/findings.h"
#include "plan/orders/label_sheet.h"
#include "read/files.h"
#include "read/roster/roster.h"

#include <fmt/format.h>

#include <iterator>
#include <utility>
#include <variant>

namespace leafwright::app {

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
std::size_t read_roster_file(Prepared& prepared) {
  Project& project = prepared.reading.project;
  const FileAccess files = disk_access();
  const std::string path =
      project.folder == "." ? project.run.roster : project.folder + "/" + project.run.roster;
  // Links may not lead out of the folder either.
  const std::string real = files.real_path(path);
  if (!real.empty() && !lies_inside(real, files.real_path(project.folder))) {
    prepared.order_findings.push_back(
        unreadable(project.run, "it leads out of the project's folder"));
    return 0;
  }
  FileBytes bytes = files.read(path, most_roster_bytes);
  if (const auto* fault = std::get_if<FileFault>(&bytes)) {
    prepared.order_findings.push_back(unreadable(project.run, fault->words));
    return 0;
  }
  Sources& sources = prepared.reading.sources;
  const auto file = static_cast<std::int32_t>(sources.size());
  sources.emplace_back(path, std::get<std::string>(std::move(bytes)));
  Roster roster = read_roster(sources.back().text(), project, file);
  append(prepared.order_findings, std::move(roster.findings));
  std::vector<Order>& orders = project.run.orders;
  orders.insert(orders.end(), std::make_move_iterator(roster.orders.begin()),
                std::make_move_iterator(roster.orders.end()));
  return roster.left_out.size();
}

} // namespace

void take_orders(Prepared& prepared) {
  if (prepared.packing || !prepared.reading.ok()) return;
  const Project& project = prepared.reading.project;
  const std::size_t left_out = project.run.roster.empty() ? 0 : read_roster_file(prepared);
  orders::Parcels parcels = orders::parcels_of(project);
  append(prepared.order_findings, std::exchange(parcels.findings, {}));
  if (project.run.labels)
    append(prepared.order_findings, orders::check_label_sheet(project, *project.run.labels));
  prepared.packing = guide::packing_list(project, std::move(parcels), left_out);
}

} // namespace leafwright::app
