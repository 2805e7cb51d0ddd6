#include "guide/business/business.h"
#include "guide/business/internal/swap_table.h"
#include "guide/figure/scenes.h"
#include "guide/plain/plain.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/words.h"
#include "plan/tier/value.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

std::string made_words(const Project& project) {
  return words::sentence_case(makes_words(project)) + " in all.";
}

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
    Figure figure{figure::finished(project, card, View::Front), plain(card.title),
                  Figure::Width::Narrow};
    // A buyer is told what the card is, not how it is cut.
    const std::string about = spoken(author_text(StepContext{project, card}, card.intro));
    if (!about.empty())
      figure.scene.alternative = "The finished card “" + card.title + "”. " + about;
    row.figures.push_back(std::move(figure));
  }
  if (!row.figures.empty()) add(section, std::move(row));
  return section;
}

// "Tutorial only" and what the rest is closed by.
std::string left_open_words(const Project& project, const std::vector<int>& tiers) {
  std::vector<std::string> open, closed;
  for (const int tier : tiers) {
    const Tier& one = tier_at(project, tier);
    (one.open == Tier::Open::Anytime ? open : closed).push_back("“" + one.name + "”");
  }
  if (open.empty()) return closed.empty() ? "" : "We can't take orders after that.";
  if (closed.empty()) return "Everything is available anytime.";
  return words::listed(open) + " " + words::agreed("stay", std::ssize(open)) +
         " available anytime.";
}

bool any_shipped(const Project& project, const std::vector<int>& tiers) {
  return std::any_of(tiers.begin(), tiers.end(), [&](int tier) {
    return tier_at(project, tier).shipping != Tier::Shipping::None;
  });
}

// Until when, and when it comes.
List dates_list(const Project& project, const std::vector<int>& tiers) {
  List list;
  const Run& run = project.run;
  const auto say = [&](std::string_view head, const std::string& rest) {
    list.items.push_back(Prose().strong(head).say(" " + rest).fragment());
  };
  if (run.reply_by) {
    say("Order by", words::long_day_text(project.language, run.reply_by->date) + ".");
    if (const std::string open = left_open_words(project, tiers); !open.empty())
      list.items.push_back(plain(open));
  }
  if (run.ship_by && any_shipped(project, tiers))
    say("Kits " + std::string(words::terms(project.language).ship) + " by",
        words::long_day_text(project.language, run.ship_by->date) + ".");
  return list;
}

// How it comes, and whom to write to.
List ordering_list(const Project& project, const std::vector<int>& tiers) {
  List list;
  const words::Terms& terms = words::terms(project.language);
  const bool at_cost = std::any_of(tiers.begin(), tiers.end(), [&](int tier) {
    const Tier& one = tier_at(project, tier);
    return one.shipping == Tier::Shipping::Charged && !one.shipping_charge;
  });
  if (at_cost)
    list.items.push_back(plain(words::sentence_case(terms.shipping) +
                               " is the actual cost of your parcel. We'll tell you before you "
                               "pay."));
  const bool digital = std::any_of(tiers.begin(), tiers.end(), [&](int tier) {
    return tier_at(project, tier).shipping == Tier::Shipping::None;
  });
  if (digital) list.items.push_back(plain("The tutorial comes by e-mail as a PDF."));
  if (!project.maker.contact.empty()) {
    const bool mail = project.maker.contact.find('@') != std::string::npos;
    Prose prose;
    prose.strong("To order").say(" or ask a question, write to ");
    if (mail)
      prose.go("mailto:" + project.maker.contact, project.maker.contact);
    else
      prose.say(project.maker.contact);
    if (!project.maker.web.empty())
      prose.say(" or visit ").go(project.maker.web, project.maker.web);
    list.items.push_back(prose.say(".").fragment());
  }
  return list;
}

// Nothing where a gift has no price: a part of the worth would say too little.
std::optional<Money> gifts_worth(const Project& project, int tier) {
  const tiers::TierValue value = tiers::value_of(project, tier);
  const bool known = std::none_of(value.lines.begin(), value.lines.end(),
                                  [](const auto& line) { return line.gift && !line.known; });
  return known && value.gifts.minor > 0 ? std::optional(value.gifts) : std::nullopt;
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
  for (List list : {dates_list(project, tiers), ordering_list(project, tiers)})
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
