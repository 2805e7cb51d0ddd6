#include "app/documents/editions.h"

#include "app/documents/documents.h"
#include "app/documents/rendering.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "guide/change/report.h"
#include "guide/plain/plain.h"
#include "guide/tutorial.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "output/pdf.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <iterator>
#include <type_traits>
#include <utility>

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
  table.blanks.insert(said.blanks.begin(), said.blanks.end());
  table.measured_dies.insert(said.measured_dies.begin(), said.measured_dies.end());
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

class PagePrinter {
 public:
  std::string print(const page::LaidPage& page) {
    for (const DrawItem& item : page.items) {
      if (const auto* begin = std::get_if<Begin>(&item)) furniture_ = begin->node < 0;
      if (std::holds_alternative<End>(item)) furniture_ = false;
      // Running feet, rules and change bars are no content.
      if (!furniture_) std::visit([this](const auto& what) { show(what); }, item);
    }
    return std::move(out_);
  }

 private:
  template <class... T>
  void say(fmt::format_string<T...> format, T&&... values) {
    fmt::format_to(std::back_inserter(out_), format, std::forward<T>(values)...);
  }
  void path(const Path& path) {
    for (const Segment& one : path)
      say("{} {} {} {} {} {} {};", static_cast<int>(one.kind), one.control1.x.nm, one.control1.y.nm,
          one.control2.x.nm, one.control2.y.nm, one.end.x.nm, one.end.y.nm);
  }
  void show(const Fill& one) {
    path(one.path);
    say("{:02x}{:02x}{:02x} {};", one.colour.red, one.colour.green, one.colour.blue, one.opacity);
  }
  void show(const Stroke& one) {
    path(one.path);
    say("{:02x}{:02x}{:02x} {} {};", one.colour.red, one.colour.green, one.colour.blue,
        one.width.nm, one.dash.size());
  }
  void show(const TextRun& one) {
    say("{} {} {} {};", one.shaped.text, one.baseline.x.nm, one.baseline.y.nm, one.turned.udeg);
  }
  void show(const Image& one) {
    say("image {} {} {} {} {};", one.picture, one.box.origin.x.nm, one.box.origin.y.nm,
        one.box.size.width.nm, one.box.size.height.nm);
  }
  void show(const PushClip& one) { path(one.path); }
  void show(const PopClip&) { say("pop;"); }
  void show(const Link&) {}
  void show(const Begin&) {}
  void show(const End&) {}
  void show(const Mark& one) { say("{} {};", one.kind, one.id); }

  std::string out_;
  bool furniture_ = false;
};

std::vector<std::string> prints_of(const page::Laid& laid) {
  std::vector<std::string> prints;
  for (const page::LaidPage& page : laid.pages) prints.push_back(PagePrinter().print(page));
  return prints;
}

// Pages that differ, whatever stands in their feet.
guide::PageChanges page_changes(const page::Laid& before, const page::Laid& after) {
  guide::PageChanges changes;
  changes.before = before.pages.size();
  changes.after = after.pages.size();
  const auto partner = guide::aligned(prints_of(before), prints_of(after));
  std::vector<bool> kept(before.pages.size(), false);
  for (std::size_t j = 0; j < partner.size(); ++j) {
    if (partner[j])
      kept[*partner[j]] = true;
    else
      changes.changed.push_back(after.pages[j].label);
  }
  for (std::size_t i = 0; i < kept.size(); ++i)
    if (!kept[i]) changes.dropped.push_back(before.pages[i].label);
  return changes;
}

struct Booklet {
  const guide::Document& document;
  const page::Laid& laid;
};

void compare_booklets(guide::ChangeStory& story, const Booklet& before, const Booklet& after) {
  story.steps = guide::step_changes(before.document, after.document);
  story.sections = guide::section_changes(before.document, after.document);
  story.full_size = guide::full_size_changes(before.document, after.document);
  story.pages = page_changes(before.laid, after.laid);
  story.pages_before = pages_of(before.laid);
  story.pages_after = pages_of(after.laid);
}

// The booklet that buyers of a tier hold: other sections, other page numbers.
struct TierBooklet {
  guide::Document document;
  page::Laid laid;
};
std::optional<TierBooklet> tier_booklet(const Edition& edition, const std::string& tier_id,
                                        const RenderSettings& settings) {
  const std::vector<Tier>& tiers = edition.planned.reading.project.tiers;
  const auto tier = std::ranges::find(tiers, tier_id, &Tier::id);
  if (tier == tiers.end() || !guide::holds_tutorial(*tier)) return std::nullopt;
  guide::TutorialOptions options;
  options.tier = static_cast<int>(tier - tiers.begin());
  TierBooklet booklet{
      guide::tutorial(edition.planned.reading.project, edition.planned.sheets, options), {}};
  booklet.laid =
      laid_out(booklet.document, "tutorial-" + tier_id, "booklet", edition.planned, settings).laid;
  return booklet;
}

} // namespace

std::variant<Edition, int> open_edition(const std::string& path,
                                        const std::vector<std::string>& overrides,
                                        const RenderSettings& settings, const Arguments& arguments,
                                        Environment& environment) {
  Edition opened;
  opened.name = path;
  ProgressLine line(arguments, environment);
  line.show(fmt::format("Reading {}", path));
  ReadOptions options;
  options.overrides = overrides;
  const FileBytes bytes = disk_access().read(path, most_edition_bytes);
  if (const auto* text = std::get_if<std::string>(&bytes)) {
    if (text->starts_with("%PDF-")) {
      auto inside = project_inside(*text);
      if (inside.index() == 1) {
        line.clear();
        report(fmt::format("{}: {}", path, std::get<1>(inside)), environment);
        return NotWritten;
      }
      opened.bytes = std::get<0>(std::move(inside));
    } else {
      opened.bytes = *text;
    }
    opened.planned = plan_project(read_project(opened.bytes, path, options));
  } else {
    opened.planned = plan_project(path, overrides); // says what is amiss
  }
  if (!opened.planned.reading.ok()) {
    line.clear();
    print_findings(opened.planned.findings, opened.planned.reading.sources, arguments, environment);
    return FoundErrors;
  }
  line.show(planning_words);
  plan_run(opened.planned, line.effort());
  opened.tutorial = guide::tutorial(opened.planned.reading.project, opened.planned.sheets);
  opened.laid = laid_out(*opened.tutorial, "tutorial", "booklet", opened.planned, settings).laid;
  return opened;
}

bool compare_editions(ComparedEditions& compared, const Edition& before, const Edition& after,
                      std::vector<edit::Written> written, const Arguments& arguments,
                      Environment& environment) {
  std::string fault;
  change::CompareOptions options;
  options.table = on_table(arguments.change, fault);
  if (!options.table) {
    report(fmt::format("--cut {}: write a letter, = and how many are cut, such as C=80", fault),
           environment);
    return false;
  }
  ProgressLine line(arguments, environment);
  line.show("Comparing the editions");
  options.effort = line.effort();
  const auto edition = [](const Edition& one) {
    return change::Edition{one.planned.reading.project, one.planned.sheets, one.planned.findings,
                           *one.planned.buying};
  };
  compared.comparison = change::compare(edition(before), edition(after), options);
  guide::ChangeStory& story =
      compared.story.emplace(guide::ChangeStory{before.planned.reading.project,
                                                after.planned.reading.project,
                                                compared.comparison,
                                                {},
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
  compare_booklets(story, {*before.tutorial, before.laid}, {*after.tutorial, after.laid});
  return true;
}

int write_comparison(const ComparedEditions& compared, const Edition& before, const Edition& after,
                     const RenderSettings& settings, const Arguments& arguments,
                     Environment& environment) {
  const guide::ChangeStory& story = *compared.story;
  const std::string& id = story.after.id;
  RenderedDocument made;
  const auto add = [&](const guide::Document& document, const std::string& name,
                       std::string_view template_name) {
    append(made, typeset(document, name, template_name, after.planned, settings));
  };
  const guide::Document report = guide::change_report(story);
  add(report, "changes", "workshop");
  append(made, web_page(report, "changes", "workshop", after.planned, settings));
  made.files.push_back({id + "-changes.json", guide::change_json(story)});
  made.files.push_back({id + "-changes.txt", guide::plain_text(report)});
  add(guide::errata_sheet(story), "corrections", "workshop");
  // Buyers of a tier hold its own edition; each gets the pages and steps of hers.
  for (const Tier& tier : story.before.tiers) {
    const auto old = tier_booklet(before, tier.id, settings);
    const auto now = old ? tier_booklet(after, tier.id, settings) : std::nullopt;
    if (!now) continue;
    guide::ChangeStory hers = story;
    compare_booklets(hers, {old->document, old->laid}, {now->document, now->laid});
    add(guide::errata_sheet(hers), "corrections-" + tier.id, "workshop");
    if (tier.audience == Tier::Audience::Team)
      made.files.back().name = "team/" + made.files.back().name;
  }
  if (arguments.change.bars) {
    guide::Document marked = *after.tutorial;
    guide::mark_changes(marked, *before.tutorial);
    add(marked, "tutorial", "booklet");
    made.files.back().name = id + "-tutorial-changed.pdf";
  }
  print_findings(made.findings, after.planned.reading.sources, arguments, environment);
  if (has_errors(made.findings)) return FoundErrors;
  return write_all(made.files, arguments, true, environment);
}

} // namespace leafwright::app
