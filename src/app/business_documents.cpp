#include "app/business_documents.h"

#include "app/typeset.h"
#include "guide/business/business.h"
#include "output/preview/png.h"
#include "output/svg/svg.h"
#include "plan/tier/check.h"

#include <fmt/format.h>

#include <iterator>
#include <string_view>
#include <utility>

namespace leafwright::app {

namespace {

constexpr int web_dots_per_inch = 144;

void append(Findings& to, Findings from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

void replace_all(std::string& text, std::string_view from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
    text.replace(at, from.size(), to);
    at += to.size();
  }
}

// A finished card as inline SVG. Several stand in one page, so each has names of its own.
std::string drawn_for_web(const figure::Scene& scene, const Project& project,
                          const text::Fonts& fonts, int number) {
  const figure::Composed composed =
      figure::compose(scene, {millimetres(90), millimetres(120)}, 0, figure::Look{}, fonts);
  const Parsed<std::string> svg = svg::render_svg(composed.drawing, fonts, project.pictures);
  if (!svg) return {};
  const std::size_t begin = svg.value().find("<svg");
  if (begin == std::string::npos) return {};
  std::string inside = svg.value().substr(begin);
  const std::string own = fmt::format("f{}-", number);
  replace_all(inside, " id=\"", " id=\"" + own);
  replace_all(inside, "url(#", "url(#" + own);
  replace_all(inside, "href=\"#", "href=\"#" + own);
  return inside;
}

void add_pictures(Made& made, const page::Laid& laid, const std::string& stem,
                  const Prepared& prepared, const Workshop& workshop) {
  for (std::size_t i = 0; i < laid.pages.size(); ++i) {
    preview::PngOptions options;
    options.width_px = preview::width_at(laid.pages[i].size.width, web_dots_per_inch);
    Parsed<std::string> png = preview::render_png(laid.pages[i], workshop.fonts,
                                                  prepared.reading.project.pictures, options);
    if (!png) {
      const Misread& why = png.misread();
      made.findings.push_back(fault(why.found, why.expected, why.mend));
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
    const Misread& why = pdf.misread();
    made.findings.push_back(fault(why.found, why.expected, why.mend));
    return made;
  }
  made.files.push_back({stem + ".pdf", std::move(pdf).value()});
  add_pictures(made, out.laid, stem, prepared, workshop);
  int drawings = 0;
  const guide::Draw draw = [&](const figure::Scene& scene) {
    return drawn_for_web(scene, project, workshop.fonts, ++drawings);
  };
  made.files.push_back({stem + ".html", guide::web_page(document, project, draw)});
  made.files.push_back({stem + ".txt", guide::plain_text(document, project)});
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
    Made one = offer_for(audience, prepared, workshop);
    append(made.findings, std::move(one.findings));
    made.files.insert(made.files.end(), std::make_move_iterator(one.files.begin()),
                      std::make_move_iterator(one.files.end()));
    made.pages += one.pages;
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
