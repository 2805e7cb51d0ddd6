#include "guide/business/business.h"
#include "guide/business/internal/swap_table.h"
#include "guide/business/offer_words.h"
#include "guide/plain/plain.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/words.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

Section front_section(const Project& project) {
  Section section{"offer", "", {}};
  add(section, heading(1, "offer", project.title, {}, project.maker.name));
  Inlines intro = author_text(project, project.intro);
  if (intro.empty() && !project.subtitle.empty()) intro = plain(project.subtitle + ".");
  Prose words;
  words.append(intro);
  words.next().say(made_words(project));
  add(section, lead(words.fragment()));
  FigureRow row;
  for (const Card& card : project.cards) {
    row.figures.push_back(front_figure(project, card));
    row.figures.back().caption = plain(card.title);
  }
  if (!row.figures.empty()) add(section, std::move(row));
  return section;
}

// Its name, its price and the maker's own words.
SideBySide::Text tier_text(const Project& project, int index) {
  const Tier& tier = tier_at(project, index);
  SideBySide::Text text;
  const auto say = [&](auto what) { text.blocks.push_back({std::move(what), tier.place}); };
  say(heading(3, "tier-" + tier.id, tier.name));
  say(body(Prose().strong(tier_price_words(project, tier)).fragment()));
  if (!tier.blurb.empty()) say(body(plain(tier.blurb)));
  return text;
}

// "Full kit. We cut your paper for you ...": empty where there are none.
Inlines tier_small_print(const Project& project, int index) {
  const Tier& tier = tier_at(project, index);
  Prose prose;
  for (const Inlines& one :
       tier_conditions(project, tier, {false, gifts_worth(project, index)}).items) {
    if (prose.empty()) prose.strong(tier.name + ".");
    prose.say(" ").append(one);
  }
  return prose.empty() ? Inlines{} : prose.fragment();
}

Section tiers_words(const Project& project, const std::vector<int>& tiers) {
  Section section{"offer-tiers", "Choose your kit", {}};
  add(section, heading(2, "choices", tiers.size() == 1 ? "What you get" : "Choose your kit"));
  SideBySide cards;
  cards.framed = true;
  for (const int index : tiers) cards.texts.push_back(tier_text(project, index));
  add(section, std::move(cards));
  for (const int index : tiers)
    if (Inlines print = tier_small_print(project, index); !print.empty())
      add(section, body(std::move(print)), tier_at(project, index).place);
  add(section, heading(2, "dates", "Dates and ordering"));
  SideBySide dates;
  for (List list : {offer_dates(project, tiers), offer_ordering(project, tiers)})
    if (!list.items.empty()) dates.texts.push_back({{Block{std::move(list), {}}}});
  add(section, std::move(dates));
  return section;
}

Section table_section(const Project& project, const supply::Needs& needs,
                      const std::vector<int>& tiers) {
  const TierView view{tiers, "Tutorial (PDF)"};
  Section section{"offer-holds", "What's in each kit", {}};
  add(section, heading(2, "holds", "What's in each kit"));
  Table table = tiers_table(project, needs, view);
  table.caption = "What's in each kit of " + project.title + ", with amounts";
  add(section, std::move(table));
  if (Inlines rest = never_included(project, needs, view); !rest.empty())
    add(section, small(std::move(rest)));
  return section;
}

Section swaps_section(const Project& project, const std::vector<int>& tiers) {
  Section section{"offer-swaps", "Own something already? Swap it", {}};
  for (const int index : tiers) {
    std::optional<Table> table = swap_table(project, index);
    if (!table) continue;
    if (section.blocks.empty()) {
      add(section, heading(2, "swaps", "Own something already? Swap it"));
      add(section, body(plain("Leave out what you own, and its price is your credit. Here are some "
                              "good ways to spend it.")));
    }
    add(section, *std::move(table), tier_at(project, index).place);
  }
  return section;
}

Section small_print(const Project& project) {
  Section section{"offer-terms", "", {}};
  std::string words;
  if (!project.maker.terms.empty()) words += project.maker.terms;
  if (project.currency.code[0] != '\0')
    words +=
        (words.empty() ? "" : " ") + std::string("Prices are in ") + project.currency.code + ".";
  add(section, small(plain(words)));
  return section;
}

} // namespace

bool has_offer(const Project& project, Tier::Audience audience) {
  return std::any_of(project.tiers.begin(), project.tiers.end(),
                     [&](const Tier& tier) { return tier.audience == audience; });
}

Document offer(const Project& project, const supply::Needs& needs, Tier::Audience audience,
               const BusinessOptions& options) {
  const bool team = audience == Tier::Audience::Team;
  Document document = shop_document(project, team ? "Offer for the team" : "Offer", options.draft);
  const std::vector<int> tiers = tiers_for(project, audience);
  document.sections.push_back(front_section(project));
  if (tiers.empty()) return document;
  document.sections.push_back(tiers_words(project, tiers));
  document.sections.push_back(small_print(project));
  document.sections.push_back(table_section(project, needs, tiers));
  if (Section swaps = swaps_section(project, tiers); !swaps.blocks.empty())
    document.sections.push_back(std::move(swaps));
  return document;
}

std::string offer_letter(const Document& offer, const Project& project) {
  PlainLook look;
  look.width = 76; // a letter quoted twice still keeps to 80
  look.tables = PlainLook::Tables::OneCellALine;
  look.signature = project.maker.name;
  if (!look.signature.empty() && !offer.edition.empty()) look.signature += ", " + offer.edition;
  return plain_text(offer, look);
}

} // namespace leafwright::guide
