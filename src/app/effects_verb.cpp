#include "app/editions.h"
#include "app/exit_codes.h"
#include "app/studio.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "guide/plain/plain.h"
#include "output/write_file.h"
#include "read/files.h"

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

int write_values(const Opened& before, const Opened& after, const edit::Editing& editing,
                 const Arguments& arguments, Surroundings& surroundings) {
  const std::string& path = arguments.inputs.at(0);
  if (stops(after.prepared.findings, arguments) && !arguments.draft) {
    complain(fmt::format("{} was not changed: with these values it has errors; --draft writes them "
                         "all the same",
                         path),
             surroundings);
    return FoundErrors;
  }
  if (editing.edits.empty()) {
    complain(fmt::format("{} says so already", path), surroundings);
    return Done;
  }
  const std::string bytes = edit::applied(before.bytes, editing.edits);
  if (!says_the_same(bytes, before.bytes, arguments.set, path)) {
    complain(fmt::format("{} was not changed: written into it, these values would mean something "
                         "else; change it by hand",
                         path),
             surroundings);
    return FoundErrors;
  }
  const FileBytes now = disk_access().read(path, before.bytes.size() + 1);
  const auto* text = std::get_if<std::string>(&now);
  if (!text || *text != before.bytes) {
    complain(fmt::format("{} was saved by something else meanwhile and is left as it is", path),
             surroundings);
    return NotWritten;
  }
  // The old file first: whatever happens, one of the two is whole.
  const std::string backup = path + ".before";
  if (const auto fault = file::write_file(backup, before.bytes)) {
    complain(*fault, surroundings);
    return NotWritten;
  }
  if (const auto fault = file::write_file(path, bytes)) {
    complain(*fault, surroundings);
    return NotWritten;
  }
  if (!arguments.quiet)
    surroundings.error << fmt::format("{} is written; as it was: {}\n", path, backup);
  return Done;
}

} // namespace

int show_effects(const Arguments& arguments, Surroundings& surroundings) {
  if (arguments.set.empty()) {
    complain("effects: say what changes: --set mat.width=4in", surroundings);
    return WrongUse;
  }
  std::variant<Workshop, int> workshop = open_workshop(arguments, surroundings);
  if (const int* code = std::get_if<int>(&workshop)) return *code;
  const std::string& path = arguments.inputs.at(0);
  Workshop& shop = std::get<Workshop>(workshop);
  auto before = open_edition(path, {}, shop, arguments, surroundings);
  if (const int* code = std::get_if<int>(&before)) return *code;
  auto after = open_edition(path, arguments.set, shop, arguments, surroundings);
  if (const int* code = std::get_if<int>(&after)) return *code;
  const Opened& old = std::get<Opened>(before);
  const Opened& now = std::get<Opened>(after);
  edit::Editing editing = edit::set_values(old.bytes, path, arguments.set);
  Told told;
  if (!compare_opened(told, old, now, editing.written, arguments, surroundings)) return WrongUse;
  told.story->label_before = "as the file stands";
  told.story->label_after = "with the new values";
  if (arguments.json)
    surroundings.out << guide::change_json(*told.story);
  else
    surroundings.out << guide::plain_text(guide::change_report(*told.story));
  if (arguments.change.write) {
    if (!editing.ok()) {
      print_findings(editing.findings, editing.sources, arguments, surroundings);
      complain(fmt::format("{} was not changed", path), surroundings);
      return FoundErrors;
    }
    return write_values(old, now, editing, arguments, surroundings);
  }
  return stops(now.prepared.findings, arguments) ? FoundErrors : Done;
}

} // namespace leafwright::app
