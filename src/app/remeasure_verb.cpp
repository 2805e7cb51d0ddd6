#include "app/exit_codes.h"
#include "app/making.h"
#include "app/remeasure_report.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "guide/plain/plain.h"
#include "output/write_file.h"
#include "read/edit/remeasure.h"
#include "read/files.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>
#include <variant>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

// Nothing when the mark is none, which is told.
std::optional<edit::RemeasureOptions> options_of(const Arguments& arguments, Unit from,
                                                 Surroundings& surroundings) {
  const RemeasureArguments& said = arguments.remeasure;
  edit::RemeasureOptions options;
  options.to = said.units.empty()     ? (from == Unit::Inch ? Unit::Millimetre : Unit::Inch)
               : said.units == "inch" ? Unit::Inch
                                      : Unit::Millimetre;
  if (!said.mark.empty()) {
    const Parsed<Length> mark = parse_length(said.mark, *options.to);
    // A part of an inch, or whole tenths of a millimetre: else it is no mark of that ruler.
    const auto on_ruler = [&](Length one) {
      if (one < micrometres(100) || one > inches(1)) return false;
      return *options.to == Unit::Inch ? nm_per_inch % one.nm == 0 : one.nm % 100'000 == 0;
    };
    if (!mark || !on_ruler(*mark)) {
      complain(fmt::format("--mark {}: write a mark of the ruler, such as {}", said.mark,
                           *options.to == Unit::Inch ? "1/16 or 1/8" : "0.5 or 1"),
               surroundings);
      return std::nullopt;
    }
    options.mark = *mark;
  }
  options.bought = said.bought;
  options.usual_sheets = said.usual == "sheets" || said.usual == "all";
  options.usual_cards = said.usual == "cards" || said.usual == "all";
  options.paper = arguments.paper;
  return options;
}

// The file's bytes with the values of --set in them; an exit code when there are none.
std::variant<std::string, int> begun_with(const Arguments& arguments, Surroundings& surroundings) {
  const std::string& path = arguments.inputs.at(0);
  constexpr std::size_t most_bytes = 32'000'000;
  FileBytes read = disk_access().read(path, most_bytes);
  if (std::get_if<std::string>(&read) == nullptr) {
    const Prepared missing = prepare(path, {});
    print_findings(missing.findings, missing.reading.sources, arguments, surroundings);
    return FoundErrors;
  }
  std::string bytes = std::get<std::string>(std::move(read));
  if (arguments.set.empty()) return bytes;
  const edit::Editing editing = edit::set_values(bytes, path, arguments.set);
  if (!editing.ok()) {
    print_findings(editing.findings, editing.sources, arguments, surroundings);
    return FoundErrors;
  }
  return edit::applied(bytes, editing.edits);
}

int write_edition(const std::string& bytes, const TwoSystems& both, const Arguments& arguments,
                  Surroundings& surroundings) {
  if (stops(both.after.findings, arguments) && !arguments.draft) {
    print_findings(both.after.findings, both.after.reading.sources, arguments, surroundings);
    complain(fmt::format("{} was not written: the new edition has errors; --draft writes it all "
                         "the same",
                         arguments.out),
             surroundings);
    return FoundErrors;
  }
  std::error_code ignored;
  if (fs::exists(arguments.out, ignored)) {
    complain(
        fmt::format("{} is there already and is left as it is; name another file", arguments.out),
        surroundings);
    return NotWritten;
  }
  if (const auto fault = file::write_file(arguments.out, bytes)) {
    complain(*fault, surroundings);
    return NotWritten;
  }
  // Pictures and orders are looked for beside the file.
  const Reading there = read_project_file(arguments.out);
  if (!there.ok() && both.after.reading.ok())
    complain(fmt::format("{} cannot be read where it lies: its pictures and orders stand beside {}",
                         arguments.out, arguments.inputs.at(0)),
             surroundings);
  if (!arguments.quiet) surroundings.error << fmt::format("{} is written\n", arguments.out);
  return Done;
}

} // namespace

int remeasure(const Arguments& arguments, Surroundings& surroundings) {
  const std::string& path = arguments.inputs.at(0);
  auto begun = begun_with(arguments, surroundings);
  if (const int* code = std::get_if<int>(&begun)) return *code;
  const std::string bytes = std::get<std::string>(std::move(begun));
  Prepared before = prepare(read_project(bytes, path));
  if (!before.reading.ok()) {
    print_findings(before.findings, before.reading.sources, arguments, surroundings);
    return FoundErrors;
  }
  const auto options = options_of(arguments, before.reading.project.printing.unit, surroundings);
  if (!options) return WrongUse;
  const edit::Remeasuring made = edit::remeasured(bytes, path, *options);
  if (!made.ok()) {
    print_findings(made.findings, made.sources, arguments, surroundings);
    complain("there is no new edition", surroundings);
    return FoundErrors;
  }
  const std::string fresh = edit::applied(bytes, made.edits);
  Prepared after = prepare(read_project(fresh, path));
  plan_run(before, effort_of(arguments));
  if (after.reading.ok()) plan_run(after, effort_of(arguments));
  const TwoSystems both = two_systems(before, after, made);
  guide::PlainLook look;
  look.width = 110;
  surroundings.out << (arguments.json ? remeasure_json(both)
                                      : guide::plain_text(remeasure_report(both), look));
  if (arguments.out != ".") return write_edition(fresh, both, arguments, surroundings);
  return stops(after.findings, arguments) ? FoundErrors : Done;
}

} // namespace leafwright::app
