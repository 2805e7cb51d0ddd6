#include "app/class_documents.h"

#include "app/html.h"
#include "app/two_alike.h"
#include "app/typeset.h"
#include "guide/handout.h"
#include "guide/tutorial.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <variant>

namespace leafwright::app {

namespace {

guide::Document edition(int tier, const Prepared& prepared, const Workshop& workshop) {
  guide::TutorialOptions options;
  options.draft = workshop.draft;
  options.tier = tier;
  options.students = workshop.audience.students;
  return guide::tutorial(prepared.reading.project, prepared.sheets, prepared.findings, options);
}

Made edition_of(int tier, std::string_view name, const Prepared& prepared,
                const Workshop& workshop) {
  return typeset(edition(tier, prepared, workshop), name, "booklet", prepared, workshop);
}

// Which edition is asked for, and what its files are called; an unknown tier is a fault.
struct Wanted {
  int tier = -1;
  std::string name = "tutorial";
};
std::variant<Wanted, Finding> wanted_edition(const Prepared& prepared, const Audience& audience) {
  const std::vector<Tier>& tiers = prepared.reading.project.tiers;
  if (audience.tier.empty()) {
    Wanted everybody;
    if (audience.students > 0) everybody.name += fmt::format("-class-{}", audience.students);
    return everybody;
  }
  const auto found = std::ranges::find(tiers, audience.tier, &Tier::id);
  if (found != tiers.end())
    return Wanted{static_cast<int>(found - tiers.begin()), "tutorial-" + audience.tier};
  std::string ids;
  for (const Tier& tier : tiers) ids += (ids.empty() ? "" : ", ") + tier.id;
  return fault(fmt::format("no tier is called “{}”", audience.tier),
               ids.empty() ? "a project with tiers" : "one of " + ids,
               "give the id of a tier to --for");
}

// The set as its template lays it out, and the most pages that one card takes.
struct Fit {
  int most_pages = 0;
  std::string longest; // the card that takes them
};
Fit fit_of(const guide::Document& set, std::string_view name, std::string_view look,
           const Prepared& prepared, const Workshop& workshop) {
  Fit fit;
  for (std::size_t i = 0; i < set.sections.size(); ++i) {
    if (!set.sections[i].name.starts_with("card-")) continue;
    const LaidOut one = laid_out(guide::one_handout(set, i), name, look, prepared, workshop);
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

Made handout_set(bool teacher, const Prepared& prepared, const Workshop& workshop) {
  guide::HandoutOptions options;
  options.teacher = teacher;
  options.students = workshop.audience.students;
  options.tables = workshop.audience.tables;
  options.draft = workshop.draft;
  const guide::Document set = guide::handouts(prepared.reading.project, prepared.sheets, options);
  const std::string name = teacher ? "handouts-teacher" : "handouts";
  const std::string& print = workshop.audience.print;
  if (!workshop.page_template.empty()) return typeset(set, name, "handout", prepared, workshop);
  if (workshop.audience.per_sheet == 2) return two_alike(set, name + "-two", prepared, workshop);
  if (print == "large" || print == "easy")
    return typeset(set, name + "-" + print, "handout-" + print, prepared, workshop);
  // One side a card if any way of setting it does that, else two; one way for the whole set.
  constexpr std::array looks{std::string_view("handout"), std::string_view("handout-close")};
  std::array<Fit, looks.size()> fits;
  for (std::size_t i = 0; i < looks.size(); ++i) {
    fits[i] = fit_of(set, name, looks[i], prepared, workshop);
    if (fits[i].most_pages <= 1) return typeset(set, name, looks[i], prepared, workshop);
  }
  const auto fits_a_sheet =
      std::ranges::find_if(fits, [](const Fit& f) { return f.most_pages <= 2; });
  if (fits_a_sheet != fits.end())
    return typeset(set, name, looks[as_index(fits_a_sheet - fits.begin())], prepared, workshop);
  Made made = typeset(set, name, looks.back(), prepared, workshop);
  made.findings.push_back(too_long(fits.back()));
  return made;
}

} // namespace

Made make_tutorial(const Prepared& prepared, const Workshop& workshop) {
  const auto wanted = wanted_edition(prepared, workshop.audience);
  if (const auto* unknown = std::get_if<Finding>(&wanted)) return {{}, {*unknown}, 0};
  const auto& [tier, name] = std::get<Wanted>(wanted);
  return edition_of(tier, name, prepared, workshop);
}

Made make_html(const Prepared& prepared, const Workshop& workshop) {
  const auto wanted = wanted_edition(prepared, workshop.audience);
  if (const auto* unknown = std::get_if<Finding>(&wanted)) return {{}, {*unknown}, 0};
  const auto& [tier, name] = std::get<Wanted>(wanted);
  return web_page(edition(tier, prepared, workshop), name, "booklet", prepared, workshop);
}

Made make_editions(const Prepared& prepared, const Workshop& workshop) {
  Made made;
  const std::vector<Tier>& tiers = prepared.reading.project.tiers;
  for (std::size_t i = 0; i < tiers.size(); ++i) {
    const bool held = std::ranges::any_of(tiers[i].includes, [](const Inclusion& one) {
      return one.item.kind == ItemKind::Tutorial;
    });
    if (held)
      append(made, edition_of(static_cast<int>(i), "tutorial-" + tiers[i].id, prepared, workshop));
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

Made make_handouts(const Prepared& prepared, const Workshop& workshop) {
  Made made = handout_set(false, prepared, workshop);
  append(made, handout_set(true, prepared, workshop));
  return made;
}

} // namespace leafwright::app
