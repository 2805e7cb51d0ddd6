#include "app/exit_codes.h"
#include "app/parts/parts.h"
#include "app/progress.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "read/files.h"

#include <fmt/format.h>

#include <ostream>
#include <string>
#include <utility>

namespace leafwright::app {

namespace {

constexpr std::size_t most_list_bytes = 32'000'000;

} // namespace

int plan_parts_list(const Arguments& arguments, Surroundings& surroundings) {
  Sources sources;
  std::string texts[2];
  for (std::size_t i = 0; i < 2; ++i) {
    const std::string& name = arguments.inputs.at(i);
    FileBytes bytes = disk_access().read(name, most_list_bytes);
    if (const auto* why = std::get_if<FileFault>(&bytes)) {
      complain(fmt::format("{}: {}", name, why->words), surroundings);
      return NotWritten;
    }
    texts[i] = std::get<std::string>(std::move(bytes));
    sources.emplace_back(name, texts[i]);
  }
  PartsOptions options;
  if (arguments.measures == "inch") options.measures = Unit::Inch;
  if (arguments.measures == "mm") options.measures = Unit::Millimetre;
  options.unit_name = arguments.unit_name;
  options.blade = arguments.blade;
  options.trim = arguments.trim;
  options.smallest_strip = arguments.smallest_strip;
  options.stages = arguments.stages;
  PartsJob parts = read_parts(texts[0], texts[1], options);
  std::string answer;
  if (!has_errors(parts.findings)) {
    ProgressLine line(arguments, surroundings);
    answer = plan_parts(parts, line.effort());
  }
  print_findings(parts.findings, sources, arguments, surroundings);
  if (stops(parts.findings, arguments)) return FoundErrors;
  surroundings.out << answer;
  return Done;
}

} // namespace leafwright::app
