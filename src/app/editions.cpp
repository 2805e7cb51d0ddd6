#include "app/editions.h"

#include "app/exit_codes.h"
#include "app/html.h"
#include "app/making.h"
#include "app/studio.h"
#include "app/talk.h"
#include "guide/plain/plain.h"
#include "guide/tutorial.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "output/provenance.h"
#include "read/files.h"
#include "read/report.h"

#include <fmt/format.h>

#include <charconv>

namespace leafwright::app {

namespace {

constexpr std::size_t most_edition_bytes = 200'000'000; // of a PDF

// The project file inside a PDF; words why there is none.
std::variant<std::string, std::string> project_inside(const std::string& pdf) {
  const Parsed<provenance::Embedded> read = provenance::read_provenance(pdf);
  if (!read)
    return std::variant<std::string, std::string>(std::in_place_index<1>, read.parse_error().found);
  for (const provenance::Attachment& one : (*read).attachments)
    if (one.type == "application/xml" || one.name.ends_with(".xml"))
      return std::variant<std::string, std::string>(std::in_place_index<0>, one.bytes);
  return std::variant<std::string, std::string>(
      std::in_place_index<1>, "it carries no project file; make it with --with-project");
}

std::map<std::string, std::string> pages_of(const page::Laid& laid) {
  std::map<std::string, std::string> pages;
  for (const page::Anchor& anchor : laid.anchors)
    if (anchor.page >= 0 && as_index(anchor.page) < laid.pages.size())
      pages.emplace(anchor.id, laid.pages[as_index(anchor.page)].label);
  return pages;
}

std::optional<change::OnTable> on_table(const ChangeArguments& said, std::string& fault) {
  change::OnTable table;
  if (said.nothing_cut) table.cut.emplace();
  for (const std::string& one : said.cut) {
    const std::size_t sign = one.find('=');
    std::int64_t count = -1;
    if (sign != std::string::npos && sign > 0)
      std::from_chars(one.data() + sign + 1, one.data() + one.size(), count);
    if (count < 0 || count > 1'000'000) {
      fault = one;
      return std::nullopt;
    }
    if (!table.cut) table.cut.emplace();
    (*table.cut)[one.substr(0, sign)] = count;
  }
  return table;
}

} // namespace

std::variant<Opened, int> open_edition(const std::string& path,
                                       const std::vector<std::string>& overrides,
                                       const Workshop& workshop, const Arguments& arguments,
                                       Surroundings& surroundings) {
  Opened opened;
  opened.name = path;
  ReadOptions options;
  options.overrides = overrides;
  const FileBytes bytes = disk_access().read(path, most_edition_bytes);
  if (const auto* text = std::get_if<std::string>(&bytes)) {
    if (text->starts_with("%PDF-")) {
      auto inside = project_inside(*text);
      if (inside.index() == 1) {
        complain(fmt::format("{}: {}", path, std::get<1>(inside)), surroundings);
        return NotWritten;
      }
      opened.bytes = std::get<0>(std::move(inside));
    } else {
      opened.bytes = *text;
    }
    opened.prepared = prepare(read_project(opened.bytes, path, options));
  } else {
    opened.prepared = prepare(path, overrides); // says what is amiss
  }
  if (!opened.prepared.reading.ok()) {
    print_findings(opened.prepared.findings, opened.prepared.reading.sources, arguments,
                   surroundings);
    return FoundErrors;
  }
  plan_run(opened.prepared, effort_of(arguments));
  opened.tutorial = guide::tutorial(opened.prepared.reading.project, opened.prepared.sheets,
                                    opened.prepared.findings, {});
  opened.laid = laid_out(*opened.tutorial, "tutorial", "booklet", opened.prepared, workshop).laid;
  return opened;
}

bool compare_opened(Told& told, const Opened& before, const Opened& after,
                    std::vector<edit::Written> written, const Arguments& arguments,
                    Surroundings& surroundings) {
  std::string fault;
  change::CompareOptions options;
  options.table = on_table(arguments.change, fault);
  if (!options.table) {
    complain(fmt::format("--cut {}: write a letter, = and how many are cut, such as C=80", fault),
             surroundings);
    return false;
  }
  options.effort = effort_of(arguments);
  const auto edition = [](const Opened& one) {
    return change::Edition{one.prepared.reading.project, one.prepared.sheets, one.prepared.findings,
                           *one.prepared.buying};
  };
  told.comparison = change::compare(edition(before), edition(after), options);
  guide::ChangeStory& story = told.story.emplace(guide::ChangeStory{before.prepared.reading.project,
                                                                    after.prepared.reading.project,
                                                                    told.comparison,
                                                                    {},
                                                                    {},
                                                                    {},
                                                                    {},
                                                                    {},
                                                                    {},
                                                                    {},
                                                                    {}});
  story.label_before = fmt::format("edition {}", story.before.edition);
  story.label_after = fmt::format("edition {}", story.after.edition);
  if (story.label_before == story.label_after) story.label_after += ", changed";
  for (edit::Written& one : written)
    story.written.push_back({std::move(one.where), std::move(one.before), std::move(one.after)});
  story.steps = guide::step_changes(*before.tutorial, *after.tutorial);
  story.full_size = guide::full_size_changes(*before.tutorial, *after.tutorial);
  story.pages = page_changes(before.laid, after.laid);
  story.pages_before = pages_of(before.laid);
  story.pages_after = pages_of(after.laid);
  return true;
}

int write_story(const Told& told, const Opened& before, const Opened& after,
                const Workshop& workshop, const Arguments& arguments, Surroundings& surroundings) {
  const guide::ChangeStory& story = *told.story;
  const std::string& id = story.after.id;
  Made made;
  const auto add = [&](const guide::Document& document, std::string_view name,
                       std::string_view look) {
    append(made, typeset(document, name, look, after.prepared, workshop));
  };
  const guide::Document report = guide::change_report(story);
  add(report, "changes", "workshop");
  append(made, web_page(report, "changes", "workshop", after.prepared, workshop));
  made.files.push_back({id + "-changes.json", guide::change_json(story)});
  made.files.push_back({id + "-changes.txt", guide::plain_text(report)});
  add(guide::errata_sheet(story), "corrections", "workshop");
  if (arguments.change.bars) {
    guide::Document marked = *after.tutorial;
    guide::mark_changes(marked, *before.tutorial);
    add(marked, "tutorial", "booklet");
    made.files.back().name = id + "-tutorial-changed.pdf";
  }
  print_findings(made.findings, after.prepared.reading.sources, arguments, surroundings);
  if (has_errors(made.findings)) return FoundErrors;
  return write_all(made.files, arguments, true, surroundings);
}

} // namespace leafwright::app
