#include "guide/business/offer_words.h"

#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/words.h"
#include "plan/tier/value.h"

#include <algorithm>

namespace leafwright::guide {

std::string made_words(const Project& project) {
  return words::sentence_case(makes_words(project)) + " in all.";
}

Figure front_figure(const Project& project, const Card& card) {
  Figure figure{figure::finished(project, card, View::Front), {}, Figure::Width::Narrow};
  const std::string about = spoken(author_text(StepContext{project, card}, card.intro));
  if (!about.empty()) figure.scene.alternative = "The finished card “" + card.title + "”. " + about;
  return figure;
}

namespace {

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

} // namespace

List offer_dates(const Project& project, const std::vector<int>& tiers) {
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

List offer_ordering(const Project& project, const std::vector<int>& tiers) {
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

std::optional<Money> gifts_worth(const Project& project, int tier) {
  const tiers::TierValue value = tiers::value_of(project, tier);
  const bool known = std::none_of(value.lines.begin(), value.lines.end(),
                                  [](const auto& line) { return line.gift && !line.known; });
  return known && value.gifts.minor > 0 ? std::optional(value.gifts) : std::nullopt;
}

} // namespace leafwright::guide
