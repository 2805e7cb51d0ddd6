#include "guide/announcing/rundown.h"

#include "guide/announcing/internal/rundown_parts.h"
#include "guide/business/offer_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/english.h"
#include "language/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::guide {
namespace {

RundownPart welcome(const Project& project) {
  RundownPart part{"Welcome", "All the finished cards", {}};
  for (const Card& card : project.cards) part.figures.push_back(front_figure(project, card));
  if (project.cards.size() == 1) {
    part.figures.clear(); // its picture follows
    part.show = "The finished card";
  }
  part.say.push_back((project.maker.name.empty()
                          ? "Hello, and welcome!"
                          : "Hello from " + project.maker.name + ", and welcome!") +
                     " I have a new class for you: " + project.title + ".");
  std::string about = spoken(author_text(project, project.intro));
  if (about.empty() && !project.subtitle.empty()) about = project.subtitle + ".";
  if (!about.empty()) part.say.push_back(about);
  part.say.push_back(made_words(project));
  part.say = in_one_paragraph(part.say);
  return part;
}

RundownPart close(const Project& project, const std::vector<int>& tiers) {
  RundownPart part{"Close", "Your name and address", {}};
  if (const std::string how = run_together(offer_ordering(project, tiers)); !how.empty())
    part.say.push_back(how);
  part.say.emplace_back("Thank you for being here. I can't wait to see your cards!");
  part.say = in_one_paragraph(part.say);
  return part;
}

} // namespace

Rundown rundown(const Project& project, const supply::Needs& needs, Tier::Audience audience) {
  Rundown told{audience, {}};
  const std::vector<int> tiers = tiers_for(project, audience);
  std::vector<RundownPart>& parts = told.parts;
  parts.push_back(welcome(project));
  add_stamps(parts, project);
  add_dies(parts, project);
  add_papers(parts, project);
  add_trims(parts, project);
  add_cards(parts, project);
  add_options(parts, project, needs, tiers);
  add_swaps(parts, project, tiers);
  add_whom_it_suits(parts, project, tiers);
  add_dates(parts, project, tiers);
  parts.push_back(close(project, tiers));
  return told;
}

namespace {

std::string clock_text(int words) {
  const int seconds = milliseconds_for(words) / 1000;
  return fmt::format("{}:{:02}", seconds / 60, seconds % 60);
}

// What is shown stands on the left under its title, what is said on the right.
SideBySide shown_and_said(const RundownPart& part, const std::string& time) {
  SideBySide both;
  both.first_percent = 39;
  both.texts.resize(2);
  const auto show = [&](auto what) {
    both.texts[0].blocks.push_back({std::move(what), part.place});
  };
  Heading title = heading(2, {}, part.title);
  Paragraph when =
      small(Prose().strong(time).say(part.show.empty() ? "" : ". ").say(part.show).fragment());
  if (part.figures.size() == 1 && part.figures.front().width == Figure::Width::Narrow) {
    // One card stands beside its title: below it, rows would be taller than their words.
    SideBySide named;
    named.first_percent = 66;
    Figure figure = part.figures.front();
    figure.width = Figure::Width::Full;
    named.texts = {{{{std::move(title), part.place}, {std::move(when), part.place}}},
                   {{{std::move(figure), part.place}}}};
    show(std::move(named));
  } else {
    show(std::move(title));
    show(std::move(when));
  }
  if (both.texts[0].blocks.size() == 1) {
    // All is shown.
  } else if (part.figures.size() == 1 && !part.swatches) {
    show(part.figures.front());
  } else if (!part.figures.empty()) {
    FigureRow row;
    row.figures = part.figures;
    row.swatches = part.swatches;
    show(std::move(row));
  }
  for (const std::string& one : part.say)
    both.texts[1].blocks.push_back({body(plain(words::tie_measures(one))), part.place});
  return both;
}

} // namespace

Document rundown_page(const Project& project, const Rundown& told, const RundownOptions& options) {
  const bool team = told.audience == Tier::Audience::Team;
  Document document =
      shop_document(project, team ? "Rundown for the team" : "Rundown", options.draft);
  Section section{"rundown", "Rundown", {}};
  int said = 0;
  for (const RundownPart& part : told.parts) said += spoken_words(part);
  add(section, heading(1, "rundown", project.title, {},
                       "about " + words::duration_text(milliseconds_for(said) / 1000)));
  add(section, small(plain("Show what is on the left, and say what is on the right. The times are "
                           "for 150 words a minute: take a breath whenever you like.")));
  int before = 0;
  for (const RundownPart& part : told.parts) {
    const std::string from = clock_text(before);
    before += spoken_words(part);
    add(section, shown_and_said(part, from + " to " + clock_text(before)), part.place);
  }
  document.sections.push_back(std::move(section));
  return document;
}

} // namespace leafwright::guide
