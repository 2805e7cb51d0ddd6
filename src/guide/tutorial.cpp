#include "guide/tutorial.h"

#include "guide/section/card_chapter.h"
#include "guide/section/colophon.h"
#include "guide/section/cover.h"
#include "guide/section/cut_diagrams.h"
#include "guide/section/cut_list.h"
#include "guide/section/inks.h"
#include "guide/section/reading.h"
#include "guide/section/supplies.h"
#include "guide/section/templates.h"
#include "guide/section/tiers.h"
#include "plan/supply/needs.h"

#include <chrono>
#include <utility>

namespace leafwright::guide {
namespace {

// Midnight UTC: a document made twice from one project is the same document.
std::int64_t epoch_seconds(Date date) {
  const std::chrono::sys_days days{date};
  return std::chrono::duration_cast<std::chrono::seconds>(days.time_since_epoch()).count();
}

Document front_matter(const Project& project) {
  Document document;
  document.title = project.title;
  document.subject = project.subtitle;
  document.author = project.maker.name;
  document.language = project.language;
  document.edition = edition_words(project);
  document.keywords = {"handmade cards", "paper craft", "tutorial"};
  for (const Card& card : project.cards) document.keywords.push_back(card.title);
  if (project.date && project.date->ok()) document.created = epoch_seconds(*project.date);
  return document;
}

} // namespace

Document tutorial(const Project& project, const supply::KitSheets& sheets, const Findings& warnings,
                  const TutorialOptions& options) {
  supply::Needs needs = supply::needs_of_kit(project);
  supply::add_sheets(needs, sheets);
  Document document = front_matter(project);
  document.draft = options.draft;
  const auto take = [&](Section section) {
    if (!section.blocks.empty()) document.sections.push_back(std::move(section));
  };
  take(cover_section(project));
  take(contents_section());
  take(reading_section(project));
  take(supplies_section(project, needs));
  take(tiers_section(project, needs));
  take(cut_list_section(project, sheets));
  take(cut_diagrams_section(project, sheets));
  take(inks_section(project));
  for (std::size_t i = 0; i < project.cards.size(); ++i)
    take(card_section(project, static_cast<int>(i)));
  take(templates_section(project));
  take(colophon_section(project, warnings));
  return document;
}

} // namespace leafwright::guide
