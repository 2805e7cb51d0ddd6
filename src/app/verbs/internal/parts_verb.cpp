#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/system/progress.h"
#include "app/verbs/internal/verb_table.h"
#include "app/verbs/piece_list.h"
#include "measure/index.h"
#include "plan/supply/sheets.h"
#include "read/read.h"
#include "records/records.h"

#include <fmt/format.h>

#include <ostream>
#include <string>
#include <utility>

namespace leafwright::app {

namespace {

using records::Json;

class PlanJson {
 public:
  explicit PlanJson(const PartsJob& parts) : parts_(parts) {}

  std::string write(const cut::Plan& plan) {
    json_.open_object();
    json_.key("schema").text("parts-plan/1");
    json_.key("unit").text(parts_.unit_name);
    json_.key("sheets").number(plan.sheets);
    json_.key("cost").decimal(price(plan.cost));
    json_.key("bound_sheets");
    if (plan.bound_sheets > 0)
      json_.number(plan.bound_sheets);
    else
      json_.nothing(); // several prices: only the cost is bounded
    json_.key("bound_cost").decimal(price(plan.bound_cost));
    json_.key("proven").truth(plan.proven);
    json_.key("words").text(supply::proof_in_words(plan, parts_.job));
    json_.key("seconds").decimal(fmt::format("{:.3f}", plan.statistics.seconds));
    json_.key("stopped_by").text(stopped(plan.stopped));
    json_.key("patterns").open_array();
    for (const cut::Pattern& pattern : plan.patterns) write_pattern(pattern);
    json_.close_array();
    json_.close_object();
    return json_.take();
  }

 private:
  static std::string_view stopped(cut::StoppedBy by) {
    switch (by) {
    case cut::StoppedBy::Nothing: return "nothing";
    case cut::StoppedBy::Work: return "work";
    case cut::StoppedBy::Time: return "time";
    case cut::StoppedBy::Caller: return "caller";
    }
    return "nothing";
  }

  std::string price(std::int64_t scaled) const {
    if (parts_.price_scale == 1) return std::to_string(scaled);
    return fmt::format("{}.{:04d}", scaled / parts_.price_scale, scaled % parts_.price_scale);
  }

  std::string length(cut::Length value) const {
    return parts_.in_nanometres ? records::millimetre_text({value}) : std::to_string(value);
  }

  void write_pattern(const cut::Pattern& pattern) {
    const cut::SheetType& sheet = parts_.job.sheets.at(as_index(pattern.sheet));
    json_.open_object();
    json_.key("count").number(pattern.count);
    json_.key("sheet").text(sheet.id);
    json_.key("width").decimal(length(sheet.width));
    json_.key("height").decimal(length(sheet.height));
    json_.key("pieces").open_array();
    for (const cut::Part& part : pattern.parts) {
      if (part.kind != cut::PartKind::Piece) continue;
      json_.open_object();
      json_.key("id").text(parts_.job.pieces.at(as_index(part.piece)).id);
      json_.key("x").decimal(length(part.x));
      json_.key("y").decimal(length(part.y));
      json_.key("width").decimal(length(part.width));
      json_.key("height").decimal(length(part.height));
      json_.key("turned").truth(part.turned);
      json_.close_object();
    }
    json_.close_array();
    json_.close_object();
  }

  const PartsJob& parts_;
  Json json_;
};

constexpr std::size_t most_list_bytes = 32'000'000;

} // namespace

std::string plan_parts(PartsJob& parts, const cut::Effort& effort) {
  if (has_errors(parts.findings)) return {};
  const cut::Plan plan = cut::plan(parts.job, effort);
  for (const cut::JobFault& found : plan.findings) {
    Finding finding;
    finding.code = "parts-impossible";
    finding.place.file = found.piece >= 0 ? 0 : 1;
    finding.found = supply::fault_in_words(found, parts.job);
    finding.expected = "pieces that the sheets can give";
    finding.fix = "change the piece, or add a sheet";
    if (found.kind == cut::FindingKind::PieceFitsNoSheet && found.needs_width > 0) {
      const auto text = [&](cut::Length value) {
        return parts.in_nanometres ? records::millimetre_text({value}) : std::to_string(value);
      };
      finding.fix = fmt::format("add a sheet of at least {} × {} {}", text(found.needs_width),
                                text(found.needs_height), parts.unit_name);
    }
    parts.findings.push_back(std::move(finding));
  }
  return PlanJson(parts).write(plan);
}

int run_parts(const Arguments& arguments, Environment& environment) {
  Sources sources;
  std::string texts[2];
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string& name = arguments.inputs.at(i);
    FileBytes bytes = disk_access().read(name, most_list_bytes);
    if (const auto* why = std::get_if<FileFault>(&bytes)) {
      report(fmt::format("{}: {}", name, why->words), environment);
      return NotWritten;
    }
    texts[i] = std::get<std::string>(std::move(bytes));
    sources.emplace_back(name, texts[i]);
  }
  PartsOptions options;
  if (arguments.list.measures == "inch") options.measures = Unit::Inch;
  if (arguments.list.measures == "mm") options.measures = Unit::Millimetre;
  options.unit_name = arguments.list.unit_name;
  options.blade = arguments.list.blade;
  options.trim = arguments.list.trim;
  options.smallest_strip = arguments.list.smallest_strip;
  options.stages = arguments.list.stages;
  PartsJob parts = read_parts(texts[0], texts[1], options);
  std::string answer;
  if (!has_errors(parts.findings)) {
    ProgressLine line(arguments, environment);
    line.show(planning_words);
    answer = plan_parts(parts, line.effort());
  }
  print_findings(parts.findings, sources, arguments, environment);
  if (stops(parts.findings, arguments)) return FoundErrors;
  environment.out << answer;
  return Done;
}

} // namespace leafwright::app
