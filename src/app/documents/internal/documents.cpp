#include "app/documents/documents.h"

#include "app/documents/internal/document_kinds.h"
#include "app/documents/rendering.h"
#include "app/system/diagnostics.h"
#include "guide/shop/shop.h"
#include "output/pictures.h"

#include <array>
#include <iterator>
#include <utility>

namespace leafwright::app {

namespace {

void add(RenderedDocument& made, std::string name, std::string bytes) {
  made.files.push_back({std::move(name), std::move(bytes)});
}

RenderedDocument render_cutting_plan(const PlannedProject& planned,
                                     const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const supply::Buying& buying = planned.buying.value();
  RenderedDocument made = typeset_if(
      any_kits(planned), "cutting plan",
      [&] { return guide::cutting_plan(project, buying, {settings.draft}); }, "cutting-plan",
      "workshop", planned, settings);
  add(made, project.id + "-cutting-plan.json", guide::cutting_plan_json(project, buying));
  add(made, project.id + "-cutting-plan.csv", guide::cutting_plan_csv(project, buying));
  for (const guide::TrueSizeFile& file : guide::true_size_patterns(project, buying.sheets))
    add(made, "true-size/" + file.name, svg::cut_lines_svg(file.lines));
  for (const guide::TrueSizeFile& file : guide::true_size_shapes(project))
    add(made, "true-size/" + file.name, svg::cut_lines_svg(file.lines));
  return made;
}

RenderedDocument render_buying_list(const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const supply::Buying& buying = planned.buying.value();
  RenderedDocument made = typeset_if(
      any_kits(planned), "shopping list",
      [&] { return guide::buying_list(project, buying, {settings.draft}); }, "buying-list",
      "workshop", planned, settings);
  add(made, project.id + "-buying-list.json", guide::buying_list_json(project, buying));
  add(made, project.id + "-buying-list.csv", guide::buying_list_csv(project, buying));
  return made;
}

constexpr std::array kinds{
    DocumentKind{"tutorial", "the step-by-step tutorial, as PDF", false, render_tutorial,
                 "project.xml -o out --for full"},
    DocumentKind{"html", "the tutorial as one page for a browser, all in one file", false,
                 render_html, "project.xml -o out --style mine.css"},
    DocumentKind{"editions", "the tutorial as each tier's buyers get it, as PDF", false,
                 render_editions},
    DocumentKind{"handouts", "a sheet for each card of a class, and the teacher's set, as PDF",
                 false, render_handouts, "project.xml -o out --students 12 --tables 3"},
    DocumentKind{"cutting-plan", "how to cut the whole batch: PDF, JSON, CSV and true-size SVG",
                 true, render_cutting_plan, "project.xml -o out --set run.spare=5"},
    DocumentKind{"buying-list", "the shopping list for the whole batch: PDF, JSON and CSV", true,
                 render_buying_list, "project.xml -o out --seconds 30"},
    DocumentKind{"offer",
                 "prices, dates and what's in each kit, to hand out: PDF, PNG, web page, text",
                 false, render_offer},
    DocumentKind{"rundown", "what to show and say in a talk or video: PDF, prompter text, cues",
                 false, render_rundown, "project.xml -o out --paper a4"},
    DocumentKind{"announcements", "e-mail, captions, reminder and last call, as text to post",
                 false, render_announcements},
    DocumentKind{"order-form",
                 "an order form to fill in: PDF, a page for a browser, and the questions as text",
                 false, render_order_form},
    DocumentKind{"money", "what the batch earns, for you alone: PDF, CSV and JSON", true,
                 render_money},
    DocumentKind{"packing-slips", "a slip for each order, with tick boxes: PDF, and parcels as CSV",
                 false, render_packing_slips, "project.xml -o out --paper a4", true},
    DocumentKind{"confirmations",
                 "a draft of an e-mail for each order, with her tutorial; not part of all", false,
                 render_confirmations, "project.xml -o out --draft", true, true},
    DocumentKind{"labels", "a label for each parcel, on any label sheet, as PDF", false,
                 render_labels, "project.xml -o out --draft", true},
    DocumentKind{"totals", "pieces by envelope, for filling one letter at a time: PDF and CSV",
                 false, render_totals, "project.xml -o out --paper a4", true},
    DocumentKind{"calendar", "what to do on which day: PDF and a calendar file", true,
                 render_calendar},
    DocumentKind{"run-sheet", "for a class in a room: timetable, tables, what to show, as PDF",
                 false, render_run_sheet},
};

} // namespace

void append(RenderedDocument& to, RenderedDocument from) {
  std::move(from.files.begin(), from.files.end(), std::back_inserter(to.files));
  append(to.findings, std::move(from.findings));
  to.pages += from.pages;
}

std::span<const DocumentKind> document_kinds() { return kinds; }

const DocumentKind* find_document(std::string_view verb) {
  for (const DocumentKind& kind : kinds)
    if (kind.verb == verb) return &kind;
  return nullptr;
}

} // namespace leafwright::app
