#include "app/documents.h"

#include "app/business_documents.h"
#include "app/class_documents.h"
#include "app/findings.h"
#include "app/parcel_documents.h"
#include "app/typeset.h"
#include "guide/shop/shop.h"
#include "output/svg.h"

#include <array>
#include <iterator>
#include <utility>

namespace leafwright::app {

namespace {

void add(Made& made, std::string name, std::string bytes) {
  made.files.push_back({std::move(name), std::move(bytes)});
}

Made make_cutting_plan(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  const supply::Buying& buying = prepared.buying.value();
  Made made = typeset(guide::cutting_plan(project, buying, {workshop.draft}), "cutting-plan",
                      "workshop", prepared, workshop);
  add(made, project.id + "-cutting-plan.json", guide::cutting_plan_json(project, buying));
  add(made, project.id + "-cutting-plan.csv", guide::cutting_plan_csv(project, buying));
  for (const guide::TrueSizeFile& file : guide::true_size_patterns(project, buying.sheets))
    add(made, "true-size/" + file.name, svg::cut_lines_svg(file.lines));
  for (const guide::TrueSizeFile& file : guide::true_size_shapes(project))
    add(made, "true-size/" + file.name, svg::cut_lines_svg(file.lines));
  return made;
}

Made make_buying_list(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  const supply::Buying& buying = prepared.buying.value();
  Made made = typeset(guide::buying_list(project, buying, {workshop.draft}), "buying-list",
                      "workshop", prepared, workshop);
  add(made, project.id + "-buying-list.json", guide::buying_list_json(project, buying));
  add(made, project.id + "-buying-list.csv", guide::buying_list_csv(project, buying));
  return made;
}

constexpr std::array kinds{
    DocumentKind{"tutorial", "the step-by-step tutorial, as PDF", false, make_tutorial},
    DocumentKind{"html", "the tutorial as one page for a browser, all in one file", false,
                 make_html},
    DocumentKind{"editions", "the tutorial as each tier's buyers get it, as PDF", false,
                 make_editions},
    DocumentKind{"handouts", "one sheet a card for a class, and the teacher's set, as PDF", false,
                 make_handouts},
    DocumentKind{"cutting-plan", "how to cut the whole run: PDF, JSON, CSV and true-size SVG", true,
                 make_cutting_plan},
    DocumentKind{"buying-list", "what to buy for the whole run: PDF, JSON and CSV", true,
                 make_buying_list},
    DocumentKind{"offer",
                 "what to post or hand out: prices, what each kit holds; PDF, PNG, web page, text",
                 false, make_offer},
    DocumentKind{"money", "for the maker alone, what the run earns: PDF, CSV and JSON", true,
                 make_money},
    DocumentKind{"packing-slips", "a slip for each order, with tick boxes: PDF, and parcels as CSV",
                 false, make_packing_slips, true},
    DocumentKind{"labels", "a label for each parcel, on any label sheet, as PDF", false,
                 make_labels, true},
    DocumentKind{"totals", "parts by envelope, for assembling in batches: PDF and CSV", false,
                 make_totals, true},
    DocumentKind{"calendar", "the days of the work: PDF and a calendar file", true, make_calendar},
    DocumentKind{"run-sheet", "for a class in a room: timetable, tables, what to show, as PDF",
                 false, make_run_sheet},
};

} // namespace

void append(Made& to, Made from) {
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
