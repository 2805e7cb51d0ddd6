#include "app/data_folder.h"
#include "app/documents.h"
#include "app/exit_codes.h"
#include "app/orders.h"
#include "app/progress.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "output/file/write_file.h"

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

int write_all(const std::vector<MadeFile>& files, const Arguments& arguments,
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
    if (!arguments.quiet) surroundings.out << path << '\n';
  }
  return Done;
}

} // namespace

int make_documents(const Arguments& arguments, Surroundings& surroundings) {
  Workshop workshop;
  workshop.page_template = arguments.page_template;
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

  std::vector<std::string> overrides = arguments.set;
  if (!arguments.paper.empty()) overrides.push_back("project.paper=" + arguments.paper);
  workshop.settings = overrides;
  workshop.with_project = arguments.with_project;
  workshop.audience = arguments.audience;
  workshop.style_sheet = arguments.style_sheet;
  Prepared prepared = prepare(arguments.inputs.at(0), overrides);
  const Sources& sources = prepared.reading.sources;
  const bool readable = prepared.reading.ok();
  const bool stopped = stops(prepared.findings, arguments);
  if (!readable || (stopped && !arguments.draft)) {
    print_findings(prepared.findings, sources, arguments, surroundings);
    if (!arguments.json)
      complain(readable
                   ? "nothing was made; --draft makes it all the same, marked DRAFT on each page"
                   : "nothing was made",
               surroundings);
    return FoundErrors;
  }
  workshop.draft = arguments.draft;

  Parsed<text::Fonts> fonts = text::standard_fonts(*data + "/fonts");
  if (!fonts) {
    complain(fonts.misread(), surroundings);
    return NotWritten;
  }
  workshop.fonts = std::move(fonts).value();

  if (const DocumentKind* wanted = find_document(arguments.verb); !wanted || wanted->of_run) {
    if (!arguments.quiet && surroundings.error_is_terminal)
      surroundings.error << "Planning the cuts of the whole run ...\n" << std::flush;
    ProgressLine line(arguments, surroundings);
    plan_run(prepared, line.effort());
  } else if (wanted->of_orders) {
    take_orders(prepared);
  }
  if (stops(prepared.order_findings, arguments) && !arguments.draft) {
    print_findings(prepared.order_findings, sources, arguments, surroundings);
    complain("nothing was made", surroundings);
    return FoundErrors;
  }

  Findings findings = prepared.findings;
  findings.insert(findings.end(), prepared.order_findings.begin(), prepared.order_findings.end());
  if (prepared.buying)
    findings.insert(findings.end(), prepared.buying->findings.begin(),
                    prepared.buying->findings.end());
  std::vector<MadeFile> files;
  for (const DocumentKind& kind : document_kinds()) {
    if (arguments.verb != "all" && arguments.verb != kind.verb) continue;
    Made made = kind.make(prepared, workshop);
    findings.insert(findings.end(), std::make_move_iterator(made.findings.begin()),
                    std::make_move_iterator(made.findings.end()));
    files.insert(files.end(), std::make_move_iterator(made.files.begin()),
                 std::make_move_iterator(made.files.end()));
  }
  print_findings(findings, sources, arguments, surroundings);
  if (stops(findings, arguments) && !arguments.draft) {
    complain("nothing was written", surroundings);
    return FoundErrors;
  }
  return write_all(files, arguments, surroundings);
}

} // namespace leafwright::app
