#include "app/documents/editions.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/verbs/internal/verb_table.h"
#include "guide/plain/plain.h"
#include "output/write_file.h"
#include "read/read.h"

#include <fmt/format.h>

#include <ostream>

namespace leafwright::app {

namespace {

// The file with the new values must say exactly what was tried, or it is left alone.
bool says_the_same(const std::string& bytes, const std::string& before,
                   const std::vector<std::string>& overrides, const std::string& path) {
  ReadOptions options;
  options.overrides = overrides;
  const Reading reading = read_project(bytes, path);
  if (!reading.ok()) return false;
  const std::vector<change::Thing> now = change::facts_of(reading.project);
  const std::vector<change::Thing> wanted =
      change::facts_of(read_project(before, path, options).project);
  return change::differences(wanted, now, nullptr).empty();
}

int write_values(const Edition& before, const Edition& after, const edit::Editing& editing,
                 const Arguments& arguments, Environment& environment) {
  const std::string& path = arguments.inputs.at(0);
  if (stops(after.planned.findings, arguments) && !arguments.draft) {
    report(fmt::format("{} was not changed: with these values it has errors; --draft writes them "
                       "all the same",
                       path),
           environment);
    return FoundErrors;
  }
  if (editing.edits.empty()) {
    report(fmt::format("{} says so already", path), environment);
    return Done;
  }
  const std::string bytes = edit::applied(before.bytes, editing.edits);
  if (!says_the_same(bytes, before.bytes, arguments.set, path)) {
    report(fmt::format("{} was not changed: written into it, these values would mean something "
                       "else; change it by hand",
                       path),
           environment);
    return FoundErrors;
  }
  const FileBytes now = disk_access().read(path, before.bytes.size() + 1);
  const auto* text = std::get_if<std::string>(&now);
  if (!text || *text != before.bytes) {
    report(fmt::format("{} was saved by something else meanwhile and is left as it is", path),
           environment);
    return NotWritten;
  }
  // The old file first: whatever happens, one of the two is whole.
  const std::string backup = path + ".before";
  if (const auto fault = file::write_file(backup, before.bytes)) {
    report(*fault, environment);
    return NotWritten;
  }
  if (const auto fault = file::write_file(path, bytes)) {
    report(*fault, environment);
    return NotWritten;
  }
  if (!arguments.quiet)
    environment.error << fmt::format("{} is written; as it was: {}\n", path, backup);
  return Done;
}

} // namespace

int run_effects(const Arguments& arguments, Environment& environment) {
  if (arguments.set.empty()) {
    report("effects: say what changes: --set mat.width=4in", environment);
    return WrongUse;
  }
  std::variant<RenderSettings, int> settings = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&settings)) return *code;
  const std::string& path = arguments.inputs.at(0);
  RenderSettings& shop = std::get<RenderSettings>(settings);
  auto before = open_edition(path, {}, shop, arguments, environment);
  if (const int* code = std::get_if<int>(&before)) return *code;
  auto after = open_edition(path, arguments.set, shop, arguments, environment);
  if (const int* code = std::get_if<int>(&after)) return *code;
  const Edition& old = std::get<Edition>(before);
  const Edition& now = std::get<Edition>(after);
  edit::Editing editing = edit::set_values(old.bytes, path, arguments.set);
  ComparedEditions compared;
  if (!compare_editions(compared, old, now, editing.written, arguments, environment))
    return WrongUse;
  compared.story->label_before = "as the file stands";
  compared.story->label_after = "with the new values";
  if (arguments.json())
    environment.out << guide::change_json(*compared.story);
  else
    environment.out << guide::plain_text(guide::change_report(*compared.story));
  if (arguments.change.write) {
    if (!editing.ok()) {
      print_findings(editing.findings, editing.sources, arguments, environment);
      report(fmt::format("{} was not changed", path), environment);
      return FoundErrors;
    }
    return write_values(old, now, editing, arguments, environment);
  }
  return stops(now.planned.findings, arguments) ? FoundErrors : Done;
}

int run_compare(const Arguments& arguments, Environment& environment) {
  std::variant<RenderSettings, int> opened = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  RenderSettings& settings = std::get<RenderSettings>(opened);
  auto first = open_edition(arguments.inputs.at(0), {}, settings, arguments, environment);
  if (const int* code = std::get_if<int>(&first)) return *code;
  auto second =
      open_edition(arguments.inputs.at(1), arguments.set, settings, arguments, environment);
  if (const int* code = std::get_if<int>(&second)) return *code;
  const Edition& before = std::get<Edition>(first);
  const Edition& after = std::get<Edition>(second);
  ComparedEditions compared;
  if (!compare_editions(compared, before, after, edit::patch(before.bytes, after.bytes).written,
                        arguments, environment))
    return WrongUse;
  if (arguments.json())
    environment.out << guide::change_json(*compared.story);
  else
    environment.out << guide::plain_text(guide::change_report(*compared.story));
  if (arguments.out == ".") return Done;
  return write_comparison(compared, before, after, settings, arguments, environment);
}

} // namespace leafwright::app
