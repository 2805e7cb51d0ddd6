#include "app/documents/session.h"

#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/system/operating_system.h"
#include "output/write_file.h"

#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <ostream>
#include <string_view>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

// SOURCE_DATE_EPOCH: whole seconds since 1970, UTC (reproducible-builds.org). Malformed is an
// error.
bool read_epoch(const char* text, std::optional<std::int64_t>& to) {
  if (text == nullptr || *text == '\0') return true;
  const std::string_view words = text;
  std::int64_t seconds = 0;
  const auto [end, fault] = std::from_chars(words.data(), words.data() + words.size(), seconds);
  if (fault != std::errc() || end != words.data() + words.size() || seconds < 0) return false;
  to = seconds;
  return true;
}

} // namespace

std::variant<RenderSettings, int> open_settings(const Arguments& arguments,
                                                Environment& environment) {
  RenderSettings settings;
  settings.page_template = arguments.page_template;
  settings.draft = arguments.draft;
  settings.with_project = arguments.with_project;
  settings.style_sheet = arguments.style_sheet;
  settings.audience = arguments.audience;
  if (!read_epoch(environment.source_date_epoch, settings.created)) {
    report("SOURCE_DATE_EPOCH must be a whole number of seconds since 1970", environment);
    return WrongUse;
  }
  const auto data = find_data_folder(environment.data);
  if (!data) {
    report("the folder with fonts/ and templates/ was not found; set LEAFWRIGHT_DATA to it",
           environment);
    return NotWritten;
  }
  settings.data_folder = *data;
  settings.overrides = arguments.set;
  if (!arguments.paper.empty()) settings.overrides.push_back("project.paper=" + arguments.paper);
  Parsed<text::Fonts> fonts = text::standard_fonts(*data + "/fonts");
  if (!fonts) {
    report(fonts.parse_error(), environment);
    return NotWritten;
  }
  settings.fonts = std::move(fonts).value();
  return settings;
}

std::variant<Session, int> open_session(const Arguments& arguments, Environment& environment) {
  std::variant<RenderSettings, int> opened = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  Session session;
  session.settings = std::get<RenderSettings>(std::move(opened));
  {
    ProgressLine line(arguments, environment);
    line.show(fmt::format("Reading {}", arguments.inputs.at(0)));
    session.planned = plan_project(arguments.inputs.at(0), session.settings.overrides);
  }
  const PlannedProject& planned = session.planned;
  const bool readable = planned.reading.ok();
  if (!readable || (stops(planned.findings, arguments) && !arguments.draft)) {
    print_findings(planned.findings, planned.reading.sources, arguments, environment);
    if (!arguments.json())
      report(readable ? "nothing was made; --draft makes it all the same, marked DRAFT on each page"
                      : "nothing was made",
             environment);
    return FoundErrors;
  }
  return session;
}

std::optional<int> stopped_by(const Findings& findings, const Sources& sources,
                              const Arguments& arguments, Environment& environment) {
  print_findings(findings, sources, arguments, environment);
  if (!stops(findings, arguments) || arguments.draft) return std::nullopt;
  report("nothing was written", environment);
  return FoundErrors;
}

int write_all(const std::vector<OutputFile>& files, const Arguments& arguments, bool quiet,
              Environment& environment) {
  std::error_code failed;
  fs::create_directories(arguments.out, failed);
  if (failed) {
    report(fmt::format("the folder {} cannot be made: {}", arguments.out, failed.message()),
           environment);
    return NotWritten;
  }
  for (const OutputFile& made : files) {
    const std::string path = (fs::path(arguments.out) / made.name).string();
    fs::create_directories(fs::path(path).parent_path(), failed);
    if (const auto fault = file::write_file(path, made.bytes)) {
      report(*fault, environment);
      return NotWritten;
    }
    if (!quiet) environment.out << path << '\n';
  }
  return Done;
}

} // namespace leafwright::app
