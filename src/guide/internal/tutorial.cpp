#include "guide/tutorial.h"

#include "guide/internal/section/chapters.h"
#include "guide/sections.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace leafwright::guide {
namespace {

Document front_matter(const Project& project) {
  Document document;
  document.title = project.title;
  document.subject = project.subtitle;
  document.author = project.maker.name;
  document.language = project.language;
  document.edition = edition_words(project);
  document.keywords = {"handmade cards", "paper craft", "tutorial"};
  for (const Card& card : project.cards) document.keywords.push_back(card.title);
  document.created = epoch_of(project);
  return document;
}

// For one card, all that comes before it on one page, in the columns of the cut diagrams: what is
// needed, cut and minded.
Section before_one_card(std::vector<Section> parts) {
  Section section{"cut-diagrams", "Before you begin", {}};
  add(section, heading(1, "before", "Before you begin"));
  for (Section& part : parts)
    for (Block& block : part.blocks) {
      if (auto* title = std::get_if<Heading>(&block.what)) title->level = 2;
      if (auto* drawing = std::get_if<Beside>(&block.what)) {
        drawing->figure.width = Figure::Width::Narrow;
        drawing->figure.scene.largest_scale = std::min(drawing->figure.scene.largest_scale, 0.14);
      }
      // The diagrams stand below the list of what is cut, and need no title of their own.
      const auto* title = std::get_if<Heading>(&block.what);
      if (title != nullptr && title->anchor == "cut-diagrams") continue;
      const auto* words = std::get_if<Paragraph>(&block.what);
      if (words != nullptr && words->kind == Paragraph::Kind::Lead) continue;
      // Its few papers are pictured on the next page.
      if (std::holds_alternative<FigureRow>(block.what)) continue;
      section.blocks.push_back(std::move(block));
    }
  return section;
}

// How its drawings are read stands beside the card, where there is room: only its facts are there.
void move_signs(Section& reading, Section& card) {
  const auto opens = std::ranges::find_if(card.blocks, [](const Block& block) {
    const auto* beside = std::get_if<Beside>(&block.what);
    return beside != nullptr && beside->opens;
  });
  constexpr std::size_t title_and_list = 2;
  if (opens == card.blocks.end() || reading.blocks.size() < title_and_list ||
      !std::holds_alternative<List>(reading.blocks[1].what))
    return;
  std::vector<Block>& beside = std::get<Beside>(opens->what).blocks;
  if (beside.size() != 1) return;
  auto& title = std::get<Heading>(reading.blocks.front().what);
  title.level = 3;
  std::move(reading.blocks.begin(), reading.blocks.begin() + title_and_list,
            std::back_inserter(beside));
  reading.blocks.erase(reading.blocks.begin(), reading.blocks.begin() + title_and_list);
}

} // namespace

Document tutorial(const Project& project, const supply::CuttingPlan& sheets,
                  const TutorialOptions& options) {
  supply::Needs needs = supply::needs_of_kit(project);
  supply::add_sheets(needs, sheets);
  const Tier* tier = options.tier >= 0 && options.tier < static_cast<int>(project.tiers.size())
                         ? &project.tiers[as_index(options.tier)]
                         : nullptr;
  const bool cut = tier != nullptr && comes_cut(project, *tier);
  Document document = front_matter(project);
  document.draft = options.draft;
  if (tier != nullptr) document.edition += " · " + tier->name;
  if (options.students > 0)
    document.edition += " · for a class of " + words::count_words(options.students);
  const auto take = [&](Section section) {
    if (!section.blocks.empty()) document.sections.push_back(std::move(section));
  };
  take(cover_section(project, document.edition));
  if (project.cards.size() == 1 && tier == nullptr && options.students == 0) {
    Section card = card_section(project, 0, options.guides_apart);
    Section reading = reading_section(project);
    move_signs(reading, card);
    take(before_one_card({supplies_section(project, needs), std::move(reading),
                          cut_list_section(project, sheets),
                          cut_diagrams_section(project, sheets)}));
    Section about = colophon_section(project, document.edition);
    std::ranges::move(about.blocks, std::back_inserter(card.blocks));
    take(std::move(card));
    if (!options.guides_apart) take(templates_section(project));
    return document;
  }
  take(contents_section(project));
  take(reading_section(project, tier));
  if (tier != nullptr) {
    take(owned_supplies_section(project, needs, *tier));
  } else {
    take(supplies_section(project, needs));
  }
  if (options.students > 0) take(class_section(project, needs, options.students));
  if (cut) {
    take(envelopes_section(project, sheets, *tier));
  } else {
    take(cut_list_section(project, sheets));
    take(cut_diagrams_section(project, sheets,
                              tier != nullptr && supply::gives_pieces_of_sheets(project, *tier)));
  }
  for (std::size_t i = 0; i < project.cards.size(); ++i)
    take(card_section(project, static_cast<int>(i), options.guides_apart,
                      tier != nullptr ? supply::parts_ready(*tier, static_cast<int>(i))
                                      : supply::PartsReady{}));
  if (!options.guides_apart) take(templates_section(project));
  take(colophon_section(project, document.edition));
  return document;
}

bool holds_tutorial(const Tier& tier) {
  return std::ranges::any_of(
      tier.includes, [](const Inclusion& one) { return one.item.kind == ItemKind::Tutorial; });
}

bool wants_letter_key(const Tier& tier) {
  return tier.parts_cut && !holds_tutorial(tier) &&
         std::ranges::any_of(tier.includes,
                             [](const Inclusion& one) { return one.item.kind == ItemKind::Parts; });
}

Document letter_key(const Project& project, const supply::CuttingPlan& sheets, int tier,
                    bool draft) {
  const Tier& of = tier_at(project, tier);
  Document document = front_matter(project);
  document.subject = "Letter key";
  document.edition += " · " + of.name;
  document.draft = draft;
  if (wants_letter_key(of)) document.sections.push_back(letters_section(project, sheets, of));
  return document;
}

Document full_size_guides(const Project& project, bool draft) {
  Document document = front_matter(project);
  document.subject = "Full-size guides";
  document.draft = draft;
  if (Section section = templates_section(project); !section.blocks.empty())
    document.sections.push_back(std::move(section));
  return document;
}

} // namespace leafwright::guide
