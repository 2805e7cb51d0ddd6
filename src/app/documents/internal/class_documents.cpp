#include "app/documents/internal/document_kinds.h"
#include "app/documents/rendering.h"
#include "guide/tutorial.h"
#include "language/lists.h"
#include "measure/index.h"
#include "output/booklet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <string>
#include <variant>
#include <vector>

namespace leafwright::app {

namespace {

// Down the middle, where the sheet is cut apart.
DrawItem cutting_line(Size sheet) {
  using Kind = Segment::Kind;
  Stroke line;
  line.path = {{Kind::Move, {}, {}, {sheet.width / 2, {}}},
               {Kind::Line, {}, {}, {sheet.width / 2, sheet.height}}};
  line.width = points(0.5);
  line.colour = {150, 146, 138};
  line.dash = {points(4), points(3)};
  return line;
}

// Handouts on pages of half the project's paper, each page twice on a sheet with a line to cut
// along. The sheets are for print: they carry no tags.
RenderedDocument two_up(const guide::Document& document, std::string_view name,
                        const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  LaidOut out = laid_out(document, name, project.paper == "a4" ? "handout-a5" : "handout-half",
                         planned, settings);
  RenderedDocument made;
  made.findings = std::move(out.findings);
  made.pages = static_cast<int>(out.laid.pages.size());
  if (out.laid.pages.empty()) return made;
  const Parsed<std::string> pages =
      pdf::write_pdf(out.laid, settings.fonts, project.pictures, out.options);
  page::Laid sheets_laid;
  sheets_laid.title = out.laid.title;
  sheets_laid.author = out.laid.author;
  sheets_laid.language = out.laid.language;
  sheets_laid.created = out.laid.created;
  std::vector<impose::Sheet> sheets;
  for (std::size_t i = 0; i < out.laid.pages.size(); ++i) {
    const Size page = out.laid.pages[i].size;
    const Size sheet{page.width * 2, page.height};
    impose::Sheet one{sheet, {}, false};
    for (const Length x : {Length{}, page.width})
      one.pages.push_back({static_cast<int>(i), {x, {}}, 1.0, {{x, {}}, page}});
    sheets.push_back(std::move(one));
    page::LaidPage under{sheet, fmt::format("{}", i + 1), true, {}};
    under.items.push_back(cutting_line(sheet));
    sheets_laid.pages.push_back(std::move(under));
  }
  pdf::PdfOptions of_sheets = out.options;
  of_sheets.attachments.clear();
  const Parsed<std::string> under = pdf::write_pdf(sheets_laid, settings.fonts, {}, of_sheets);
  const Parsed<std::string> whole = !pages   ? pages
                                    : !under ? under
                                             : impose::composed(*under, *pages, sheets, "Simplex");
  if (!whole) {
    made.findings.push_back(fault(whole.parse_error()));
    return made;
  }
  made.files.push_back({fmt::format("{}-{}.pdf", project.id, name), *whole});
  return made;
}

guide::Document edition(int tier, const PlannedProject& planned, const RenderSettings& settings) {
  guide::TutorialOptions options;
  options.draft = settings.draft;
  options.tier = tier;
  options.students = settings.audience.students;
  return guide::tutorial(planned.reading.project, planned.sheets, options);
}

RenderedDocument edition_of(int tier, std::string_view name, const PlannedProject& planned,
                            const RenderSettings& settings) {
  return typeset(edition(tier, planned, settings), name, "booklet", planned, settings);
}

// Which edition is asked for, and what its files are called; an unknown tier is a fault.
struct Wanted {
  int tier = -1;
  std::string name = "tutorial";
};
std::variant<Wanted, Finding> wanted_edition(const PlannedProject& planned,
                                             const Audience& audience) {
  const std::vector<Tier>& tiers = planned.reading.project.tiers;
  if (audience.tier.empty()) {
    Wanted everybody;
    if (audience.students > 0) everybody.name += fmt::format("-class-{}", audience.students);
    return everybody;
  }
  const auto found = std::ranges::find(tiers, audience.tier, &Tier::id);
  if (found != tiers.end())
    return Wanted{static_cast<int>(found - tiers.begin()), "tutorial-" + audience.tier};
  std::vector<std::string> ids;
  for (const Tier& tier : tiers) ids.push_back(tier.id);
  return fault(fmt::format("no tier is called “{}”", audience.tier),
               ids.empty() ? "a project with tiers" : "one of " + words::series(ids),
               "give the id of a tier to --for");
}

// The set as its template lays it out, and the most pages that one card takes.
struct Fit {
  int most_pages = 0;
  std::string longest; // the card that takes them
};
Fit fit_of(const guide::Document& set, std::string_view name, std::string_view template_name,
           const PlannedProject& planned, const RenderSettings& settings) {
  Fit fit;
  for (std::size_t i = 0; i < set.sections.size(); ++i) {
    if (!set.sections[i].name.starts_with("card-")) continue;
    const LaidOut one =
        laid_out(guide::one_handout(set, i), name, template_name, planned, settings);
    const int pages = static_cast<int>(one.laid.pages.size());
    if (pages <= fit.most_pages) continue;
    fit.most_pages = pages;
    fit.longest = set.sections[i].running;
  }
  return fit;
}

Finding too_long(const Fit& fit) {
  Finding finding;
  finding.severity = Severity::Warning;
  finding.code = "handout-long";
  finding.found = fmt::format("the handout of “{}” takes {} pages", fit.longest, fit.most_pages);
  finding.expected = "two at most, the sides of one sheet";
  finding.fix = "shorten its steps, or give a closer template to --template";
  return finding;
}

RenderedDocument handout_set(bool teacher, const PlannedProject& planned,
                             const RenderSettings& settings) {
  guide::HandoutOptions options;
  options.teacher = teacher;
  options.students = settings.audience.students;
  options.tables = settings.audience.tables;
  options.draft = settings.draft;
  const guide::Document set = guide::handouts(planned.reading.project, planned.sheets, options);
  const std::string name = teacher ? "handouts-teacher" : "handouts";
  const std::string& print = settings.audience.print;
  if (!settings.page_template.empty()) return typeset(set, name, "handout", planned, settings);
  if (settings.audience.per_sheet == 2) return two_up(set, name + "-two", planned, settings);
  if (print == "large" || print == "easy")
    return typeset(set, name + "-" + print, "handout-" + print, planned, settings);
  // One side a card if any way of setting it does that, else two; one way for the whole set.
  constexpr std::array templates{std::string_view("handout"), std::string_view("handout-close")};
  std::array<Fit, templates.size()> fits;
  for (std::size_t i = 0; i < templates.size(); ++i) {
    fits[i] = fit_of(set, name, templates[i], planned, settings);
    if (fits[i].most_pages <= 1) return typeset(set, name, templates[i], planned, settings);
  }
  const auto fits_a_sheet =
      std::ranges::find_if(fits, [](const Fit& f) { return f.most_pages <= 2; });
  if (fits_a_sheet != fits.end())
    return typeset(set, name, templates[as_index(fits_a_sheet - fits.begin())], planned, settings);
  RenderedDocument made = typeset(set, name, templates.back(), planned, settings);
  made.findings.push_back(too_long(fits.back()));
  return made;
}

} // namespace

RenderedDocument render_tutorial(const PlannedProject& planned, const RenderSettings& settings) {
  const auto wanted = wanted_edition(planned, settings.audience);
  if (const auto* unknown = std::get_if<Finding>(&wanted)) return {{}, {*unknown}, 0};
  const auto& [tier, name] = std::get<Wanted>(wanted);
  return edition_of(tier, name, planned, settings);
}

RenderedDocument render_html(const PlannedProject& planned, const RenderSettings& settings) {
  const auto wanted = wanted_edition(planned, settings.audience);
  if (const auto* unknown = std::get_if<Finding>(&wanted)) return {{}, {*unknown}, 0};
  const auto& [tier, name] = std::get<Wanted>(wanted);
  return web_page(edition(tier, planned, settings), name, "booklet", planned, settings);
}

RenderedDocument render_editions(const PlannedProject& planned, const RenderSettings& settings) {
  RenderedDocument made;
  const std::vector<Tier>& tiers = planned.reading.project.tiers;
  for (std::size_t i = 0; i < tiers.size(); ++i) {
    const int tier = static_cast<int>(i);
    RenderedDocument one;
    if (guide::holds_tutorial(tiers[i]))
      one = edition_of(tier, "tutorial-" + tiers[i].id, planned, settings);
    else if (guide::wants_letter_key(tiers[i]))
      one =
          typeset(guide::letter_key(planned.reading.project, planned.sheets, tier, settings.draft),
                  "letters-" + tiers[i].id, "workshop", planned, settings);
    // Away from what anybody may get.
    if (tiers[i].audience == Tier::Audience::Team)
      for (OutputFile& file : one.files) file.name = "team/" + file.name;
    append(made, std::move(one));
  }
  // What the pages say of the project is the same in each.
  std::vector<Finding> once;
  for (Finding& finding : made.findings)
    if (std::ranges::none_of(once, [&](const Finding& other) {
          return other.code == finding.code && other.found == finding.found;
        }))
      once.push_back(std::move(finding));
  made.findings = std::move(once);
  return made;
}

RenderedDocument render_handouts(const PlannedProject& planned, const RenderSettings& settings) {
  RenderedDocument made = handout_set(false, planned, settings);
  append(made, handout_set(true, planned, settings));
  return made;
}

} // namespace leafwright::app
