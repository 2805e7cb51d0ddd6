#include "app/studio.h"

#include "app/data_folder.h"
#include "app/exit_codes.h"
#include "app/talk.h"
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

std::variant<Workshop, int> open_workshop(const Arguments& arguments, Surroundings& surroundings) {
  Workshop workshop;
  workshop.page_template = arguments.page_template;
  workshop.draft = arguments.draft;
  workshop.with_project = arguments.with_project;
  workshop.style_sheet = arguments.style_sheet;
  workshop.audience = arguments.audience;
  if (!read_epoch(surroundings.source_date_epoch, workshop.created)) {
    complain("SOURCE_DATE_EPOCH must be a whole number of seconds since 1970", surroundings);
    return WrongUse;
  }
  const auto data = find_data_folder(surroundings.data);
  if (!data) {
    complain("the folder with fonts/ and templates/ was not found; set LEAFWRIGHT_DATA to it",
             surroundings);
    return NotWritten;
  }
  workshop.data_folder = *data;
  workshop.settings = arguments.set;
  if (!arguments.paper.empty()) workshop.settings.push_back("project.paper=" + arguments.paper);
  Parsed<text::Fonts> fonts = text::standard_fonts(*data + "/fonts");
  if (!fonts) {
    complain(fonts.parse_error(), surroundings);
    return NotWritten;
  }
  workshop.fonts = std::move(fonts).value();
  return workshop;
}

std::variant<Studio, int> open_studio(const Arguments& arguments, Surroundings& surroundings) {
  std::variant<Workshop, int> opened = open_workshop(arguments, surroundings);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  Studio studio;
  studio.workshop = std::get<Workshop>(std::move(opened));
  studio.prepared = prepare(arguments.inputs.at(0), studio.workshop.settings);
  const Prepared& prepared = studio.prepared;
  const bool readable = prepared.reading.ok();
  if (!readable || (stops(prepared.findings, arguments) && !arguments.draft)) {
    print_findings(prepared.findings, prepared.reading.sources, arguments, surroundings);
    if (!arguments.json)
      complain(readable
                   ? "nothing was made; --draft makes it all the same, marked DRAFT on each page"
                   : "nothing was made",
               surroundings);
    return FoundErrors;
  }
  return studio;
}

int write_all(const std::vector<MadeFile>& files, const Arguments& arguments, bool quiet,
              Surroundings& surroundings) {
  std::error_code failed;
  fs::create_directories(arguments.out, failed);
  if (failed) {
    complain(fmt::format("the folder {} cannot be made: {}", arguments.out, failed.message()),
             surroundings);
    return NotWritten;
  }
  for (const MadeFile& made : files) {
    const std::string path = (fs::path(arguments.out) / made.name).string();
    fs::create_directories(fs::path(path).parent_path(), failed);
    if (const auto fault = file::write_file(path, made.bytes)) {
      complain(*fault, surroundings);
      return NotWritten;
    }
    if (!quiet) surroundings.out << path << '\n';
  }
  return Done;
}

} // namespace leafwright::app
