#include "app/business_documents.h"

#include "app/findings.h"
#include "app/html.h"
#include "app/typeset.h"
#include "guide/business/business.h"
#include "output/png.h"
#include "plan/tier/check.h"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace leafwright::app {

namespace {

constexpr int web_dots_per_inch = 144;

void add_pictures(Made& made, const page::Laid& laid, const std::string& stem,
                  const Prepared& prepared, const Workshop& workshop) {
  for (std::size_t i = 0; i < laid.pages.size(); ++i) {
    preview::PngOptions options;
    options.width_px = preview::width_at(laid.pages[i].size.width, web_dots_per_inch);
    Parsed<std::string> png = preview::render_png(laid.pages[i], workshop.fonts,
                                                  prepared.reading.project.pictures, options);
    if (!png) {
      const ParseError& why = png.parse_error();
      made.findings.push_back(fault(why.found, why.expected, why.fix));
      return;
    }
    made.files.push_back({fmt::format("{}-{}.png", stem, i + 1), std::move(png).value()});
  }
}

Made offer_for(Tier::Audience audience, const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  supply::Needs needs = supply::needs_of_kit(project);
  supply::add_sheets(needs, prepared.sheets);
  const guide::Document document = guide::offer(project, needs, audience, {workshop.draft});
  const bool team = audience == Tier::Audience::Team;
  const std::string name = team ? "offer-team" : "offer";
  const std::string stem = project.id + "-" + name;

  LaidOut out = laid_out(document, name, "offer", prepared, workshop);
  Made made;
  made.findings = std::move(out.findings);
  made.pages = static_cast<int>(out.laid.pages.size());
  if (out.laid.pages.empty()) return made;
  Parsed<std::string> pdf = pdf::write_pdf(out.laid, workshop.fonts, project.pictures, out.options);
  if (!pdf) {
    const ParseError& why = pdf.parse_error();
    made.findings.push_back(fault(why.found, why.expected, why.fix));
    return made;
  }
  made.files.push_back({stem + ".pdf", std::move(pdf).value()});
  add_pictures(made, out.laid, stem, prepared, workshop);
  append(made, web_page(document, name, "offer", prepared, workshop));
  made.files.push_back({stem + ".txt", guide::offer_letter(document, project)});
  if (team)
    for (MadeFile& file : made.files) file.name = "team/" + file.name;
  return made;
}

} // namespace

Made make_offer(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  Made made;
  made.findings = tiers::check(project, &prepared.sheets);
  for (const Tier::Audience audience : {Tier::Audience::Anyone, Tier::Audience::Team}) {
    if (!guide::has_offer(project, audience)) continue;
    append(made, offer_for(audience, prepared, workshop));
  }
  return made;
}

Made make_money(const Prepared& prepared, const Workshop& workshop) {
  const Project& project = prepared.reading.project;
  const guide::MoneyBook book =
      guide::money_book(project, prepared.packing.value().parcels.kinds, prepared.buying.value());
  Made made = typeset(guide::money_report(project, book, {workshop.draft}), "money", "workshop",
                      prepared, workshop);
  made.files.push_back({project.id + "-money.csv", guide::money_csv(project, book)});
  made.files.push_back({project.id + "-money.json", guide::money_json(project, book)});
  for (MadeFile& file : made.files) file.name = "private/" + file.name;
  return made;
}

} // namespace leafwright::app
