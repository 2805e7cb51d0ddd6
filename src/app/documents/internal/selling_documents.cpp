#include "app/documents/internal/document_kinds.h"
#include "app/documents/planned_project.h"
#include "app/documents/rendering.h"
#include "app/system/diagnostics.h"
#include "guide/announcing/rundown.h"
#include "guide/business/business.h"
#include "guide/parcels/parcel_documents.h"
#include "guide/sections.h"
#include "measure/index.h"
#include "output/pictures.h"
#include "plan/calendar/icalendar.h"
#include "plan/tier/check_tiers.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

namespace leafwright::app {

namespace {

RenderedDocument set_apart(RenderedDocument made) {
  for (OutputFile& file : made.files) file.name = "private/" + file.name;
  return made;
}

constexpr int web_dots_per_inch = 144;

void add_pictures(RenderedDocument& made, const page::Laid& laid, const std::string& stem,
                  const PlannedProject& planned, const RenderSettings& settings) {
  for (std::size_t i = 0; i < laid.pages.size(); ++i) {
    preview::PngOptions options;
    options.width_px = preview::width_at(laid.pages[i].size.width, web_dots_per_inch);
    Parsed<std::string> png = preview::render_png(laid.pages[i], settings.fonts,
                                                  planned.reading.project.pictures, options);
    if (!png) {
      made.findings.push_back(fault(png.parse_error()));
      return;
    }
    made.files.push_back({fmt::format("{}-{}.png", stem, i + 1), std::move(png).value()});
  }
}

RenderedDocument offer_for(Tier::Audience audience, const PlannedProject& planned,
                           const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const guide::Document document =
      guide::offer(project, needs_in_sheets(planned), audience, {settings.draft});
  const std::string name = audience == Tier::Audience::Team ? "offer-team" : "offer";
  const std::string stem = project.id + "-" + name;

  LaidOut out = laid_out(document, name, "offer", planned, settings);
  RenderedDocument made;
  made.findings = std::move(out.findings);
  made.pages = static_cast<int>(out.laid.pages.size());
  if (out.laid.pages.empty()) return made;
  Parsed<std::string> pdf = pdf::write_pdf(out.laid, settings.fonts, project.pictures, out.options);
  if (!pdf) {
    made.findings.push_back(fault(pdf.parse_error()));
    return made;
  }
  made.files.push_back({stem + ".pdf", std::move(pdf).value()});
  add_pictures(made, out.laid, stem, planned, settings);
  append(made, web_page(document, name, "offer", planned, settings));
  made.files.push_back({stem + ".txt", guide::offer_letter(document, project)});
  return made;
}

RenderedDocument rundown_for(Tier::Audience audience, const PlannedProject& planned,
                             const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const guide::Rundown told = guide::rundown(project, needs_in_sheets(planned), audience);
  const std::string name = audience == Tier::Audience::Team ? "rundown-team" : "rundown";
  RenderedDocument made = typeset(guide::rundown_page(project, told, {settings.draft}), name,
                                  "rundown", planned, settings);
  const std::string stem = project.id + "-" + name;
  made.files.push_back({stem + ".txt", guide::prompter_text(project, told)});
  made.files.push_back({stem + ".vtt", guide::cues_text(told)});
  return made;
}

// For each audience that has an offer; what is for the team in a folder of its own.
template <class Make>
RenderedDocument by_audience(const Project& project, Make make) {
  RenderedDocument made;
  for (const Tier::Audience audience : {Tier::Audience::Anyone, Tier::Audience::Team}) {
    if (!guide::has_offer(project, audience)) continue;
    RenderedDocument one = make(audience);
    if (audience == Tier::Audience::Team)
      for (OutputFile& file : one.files) file.name = "team/" + file.name;
    append(made, std::move(one));
  }
  return made;
}

} // namespace

std::int64_t stamp_of(const Project& project, const RenderSettings& settings) {
  if (settings.created) return *settings.created;
  return std::max<std::int64_t>(guide::epoch_of(project).value_or(0), 0);
}

supply::Needs needs_in_sheets(const PlannedProject& planned) {
  supply::Needs needs = supply::needs_of_kit(planned.reading.project);
  supply::add_sheets(needs, planned.sheets);
  return needs;
}

RenderedDocument render_packing_slips(const PlannedProject& planned,
                                      const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const guide::PackingList& list = planned.packing.value();
  RenderedDocument made = typeset_if(
      any_kits(planned) || list.rows_left_out > 0, "packing slip",
      [&] { return guide::packing_slips(project, list, {settings.draft}); }, "packing-slips",
      "slips", planned, settings);
  made.files.push_back({project.id + "-parcels.csv", guide::parcels_csv(project, list)});
  if (!list.parcels.boxes.empty())
    made.files.push_back({project.id + "-carrier.csv", guide::carrier_csv(project, list)});
  return set_apart(std::move(made));
}

RenderedDocument render_labels(const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const guide::PackingList& list = planned.packing.value();
  const bool any =
      !list.parcels.parcels.empty() ||
      (project.run.orders.empty() &&
       std::any_of(list.parcels.kinds.begin(), list.parcels.kinds.end(),
                   [&](const supply::KitKind& kind) {
                     return project.tiers.at(as_index(kind.tier)).shipping != Tier::Shipping::None;
                   }));
  if (!any) return {}; // no parcels, no labels
  return set_apart(typeset(guide::parcel_labels(project, list, {settings.draft}), "labels",
                           "labels", planned, settings));
}

RenderedDocument render_totals(const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const guide::PackingList& list = planned.packing.value();
  RenderedDocument made = typeset_if(
      any_kits(planned) || list.rows_left_out > 0, "list of totals",
      [&] { return guide::totals(project, list, {settings.draft}); }, "totals", "workshop", planned,
      settings);
  made.files.push_back({project.id + "-totals.csv", guide::totals_csv(project, list)});
  return made;
}

RenderedDocument render_calendar(const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const calendar::DayPlan plan = day_plan(planned);
  RenderedDocument made = typeset_if(
      any_kits(planned) || !plan.entries.empty(), "plan of work",
      [&] { return guide::calendar_page(project, plan, {settings.draft}); }, "calendar", "workshop",
      planned, settings);
  append(made.findings, plan.findings);
  // A calendar without a day has nothing to import: no file is written.
  if (std::string days = calendar::icalendar_text(project, plan, stamp_of(project, settings));
      !days.empty())
    made.files.push_back({project.id + "-calendar.ics", std::move(days)});
  return made;
}

RenderedDocument render_run_sheet(const PlannedProject& planned, const RenderSettings& settings) {
  return typeset(guide::run_sheet(planned.reading.project, {settings.draft}), "run-sheet",
                 "workshop", planned, settings);
}

RenderedDocument render_offer(const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  RenderedDocument made;
  made.findings = tiers::check(project, &planned.sheets);
  append(made, by_audience(project, [&](Tier::Audience audience) {
           return offer_for(audience, planned, settings);
         }));
  return made;
}

RenderedDocument render_rundown(const PlannedProject& planned, const RenderSettings& settings) {
  return by_audience(planned.reading.project, [&](Tier::Audience audience) {
    return rundown_for(audience, planned, settings);
  });
}

RenderedDocument render_money(const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const guide::MoneyBook book =
      guide::money_book(project, planned.packing.value().parcels.kinds, planned.buying.value());
  RenderedDocument made = typeset_if(
      any_kits(planned), "money report",
      [&] { return guide::money_report(project, book, {settings.draft}); }, "money", "workshop",
      planned, settings);
  made.files.push_back({project.id + "-money.csv", guide::money_csv(project, book)});
  made.files.push_back({project.id + "-money.json", guide::money_json(project, book)});
  for (OutputFile& file : made.files) file.name = "private/" + file.name;
  return made;
}

} // namespace leafwright::app
