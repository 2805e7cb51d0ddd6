#include "guide/announcing/announcements.h"

#include "guide/announcing/internal/rundown_parts.h"
#include "guide/announcing/internal/text_template.h"
#include "guide/business/offer_words.h"
#include "guide/plain/lines.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace leafwright::guide {
namespace {

using Tiers = std::vector<int>;

bool always_open(const Project& project, int tier) {
  return tier_at(project, tier).open == Tier::Open::Anytime;
}

std::string option_line(const Project& project, int index) {
  const Tier& tier = tier_at(project, index);
  const std::string price = price_in_words(project, tier);
  std::string line = "- " + tier.name + (price.empty() ? "." : ": " + price + ".");
  if (!tier.blurb.empty()) line += " " + tier.blurb;
  return line;
}

template <class Line>
std::string lines_of_each(const Tiers& tiers, Line line) {
  std::string text;
  for (const int tier : tiers) {
    const std::string one = line(tier);
    if (!one.empty()) text += (text.empty() ? "" : "\n") + one;
  }
  return text;
}

std::string free_line(const Project& project, const supply::Needs& needs, int index) {
  const Tier& tier = tier_at(project, index);
  std::vector<std::string> gifts;
  for (const Inclusion& one : tier.includes)
    if (one.gift) gifts.push_back(held_words(project, tier, one, needs));
  if (gifts.empty()) return {};
  return "Free with “" + tier.name + "”: " + words::listed(gifts) + ".";
}

std::string lines_of(const List& list) {
  std::string text;
  for (const Inlines& one : list.items) text += (text.empty() ? "" : "\n") + spoken(one);
  return text;
}

// What is read out in place of each card's picture.
std::string pictures_text(const Project& project) {
  std::string text;
  for (const Card& card : project.cards)
    text += (text.empty() ? "" : "\n") + card.title + ": " +
            front_figure(project, card).scene.alternative;
  return text;
}

std::string quoted_cards(const Project& project) {
  std::vector<std::string> titles;
  for (const Card& card : project.cards) titles.push_back("“" + card.title + "”");
  return words::listed(titles);
}

std::string about_text(const Project& project) {
  std::string intro = spoken(author_text(project, project.intro));
  if (!intro.empty() || project.subtitle.empty()) return intro;
  return project.subtitle + ".";
}

std::string quoted_tiers(const Project& project, const Tiers& tiers, bool always) {
  std::vector<std::string> names;
  for (const int tier : tiers)
    if (always_open(project, tier) == always)
      names.push_back("“" + tier_at(project, tier).name + "”");
  return words::listed(names, "or");
}

struct Told {
  const Project& project;
  const supply::Needs& needs;
  Tiers tiers;
};

std::string day_or_nothing(const Project& project, const std::optional<StatedDate>& day) {
  return day ? words::long_day_text(project.language, day->date) : std::string();
}

struct Field {
  AnnouncingField said;
  std::string (*value)(const Told&);
};
constexpr std::array fields{
    Field{{"title", "the name of the class"}, [](const Told& t) { return t.project.title; }},
    Field{{"about", "your introduction, or the subtitle"},
          [](const Told& t) { return about_text(t.project); }},
    Field{{"makes", "what one kit makes: nine cards"},
          [](const Told& t) { return makes_words(t.project); }},
    Field{{"cards", "the names of the cards"},
          [](const Told& t) { return quoted_cards(t.project); }},
    Field{{"options", "each option with its price and your words, a line each"},
          [](const Told& t) {
            return lines_of_each(t.tiers, [&](int one) { return option_line(t.project, one); });
          }},
    Field{{"closing", "the names of the options that close on the last day to order"},
          [](const Told& t) { return quoted_tiers(t.project, t.tiers, false); }},
    Field{{"always", "the names of the options that stay available"},
          [](const Told& t) { return quoted_tiers(t.project, t.tiers, true); }},
    Field{{"always-options", "the options that stay available, as in {options}"},
          [](const Told& t) {
            return lines_of_each(t.tiers, [&](int one) {
              return always_open(t.project, one) ? option_line(t.project, one) : std::string();
            });
          }},
    Field{{"free", "what is free with which option, a line each"},
          [](const Told& t) {
            return lines_of_each(t.tiers,
                                 [&](int one) { return free_line(t.project, t.needs, one); });
          }},
    Field{{"order-by", "the last day to order, with its weekday"},
          [](const Told& t) { return day_or_nothing(t.project, t.project.run.reply_by); }},
    Field{{"dates", "the offer's sentences on dates, a line each"},
          [](const Told& t) { return lines_of(offer_dates(t.project, t.tiers)); }},
    Field{{"ordering", "the offer's sentences on shipping and ordering, a line each"},
          [](const Told& t) { return lines_of(offer_ordering(t.project, t.tiers)); }},
    Field{{"contact", "where to write to"}, [](const Told& t) { return t.project.maker.contact; }},
    Field{{"maker", "your name"}, [](const Told& t) { return t.project.maker.name; }},
    Field{{"web", "your web page"}, [](const Told& t) { return t.project.maker.web; }},
    Field{{"pictures", "what each card's picture shows, a line each"},
          [](const Told& t) { return pictures_text(t.project); }},
};

constexpr auto field_list = [] {
  std::array<AnnouncingField, fields.size()> list{};
  for (std::size_t i = 0; i < fields.size(); ++i) list[i] = fields[i].said;
  return list;
}();

Finding too_long(const std::string& name, std::size_t count, int most) {
  Finding finding;
  finding.severity = Severity::Warning;
  finding.code = "announcing-length";
  finding.found = fmt::format("{} has {} characters", name, count);
  finding.expected = fmt::format("at most {}, as its name says", most);
  finding.fix = "shorten its template";
  return finding;
}

} // namespace

std::span<const AnnouncingField> announcing_fields() { return field_list; }

Announcements announcements(const Project& project, const supply::Needs& needs,
                            std::span<const TextTemplate> templates) {
  const Told told{project, needs, tiers_for(project, Tier::Audience::Anyone)};
  const FieldValue value_of = [&](std::string_view name) -> std::optional<std::string> {
    const auto found =
        std::ranges::find_if(fields, [&](const Field& field) { return field.said.name == name; });
    if (found == fields.end()) return std::nullopt;
    return plaintext::with_common_blanks(found->value(told));
  };
  Announcements made;
  for (const TextTemplate& one : templates) {
    FilledText text = filled(one, value_of);
    made.findings.insert(made.findings.end(), text.findings.begin(), text.findings.end());
    if (!text.wanted || has_errors(text.findings)) continue;
    const std::optional<int> most = room_of(one.name);
    // The line end is no part of what is posted.
    const std::size_t count = plaintext::columns_of(text.text) - (text.text.empty() ? 0 : 1);
    if (most && count > as_index(*most)) made.findings.push_back(too_long(one.name, count, *most));
    Announcement announcement{one.name, std::move(text.text), std::nullopt};
    if (text.send_offset && project.run.reply_by)
      announcement.send = Date(std::chrono::sys_days(project.run.reply_by->date) +
                               std::chrono::days(*text.send_offset));
    made.texts.push_back(std::move(announcement));
  }
  return made;
}

std::string announcements_json(const Project& project, const Announcements& made) {
  records::Json json;
  const auto day = [&](std::string_view name, const std::optional<Date>& date) {
    json.key(name);
    if (date)
      json.text(iso_text(*date));
    else
      json.nothing();
  };
  const auto stated = [](const std::optional<StatedDate>& one) {
    return one ? std::optional(one->date) : std::nullopt;
  };
  json.open_object();
  json.key("project").text(project.id);
  json.key("edition").number(project.edition);
  json.key("currency").text(project.currency.code);
  day("order_by", stated(project.run.reply_by));
  day("ship_by", stated(project.run.ship_by));
  const auto amount = [&](std::string_view name, const std::optional<Money>& money) {
    json.key(name);
    if (money)
      json.decimal(records::amount_text(*money));
    else
      json.nothing();
  };
  json.key("prices").open_array();
  for (const int index : tiers_for(project, Tier::Audience::Anyone)) {
    const Tier& tier = tier_at(project, index);
    json.open_object().key("option").text(tier.id);
    amount("price", tier.price);
    amount("shipping", tier.shipping_charge);
    json.close_object();
  }
  json.close_array().key("texts").open_array();
  for (const Announcement& one : made.texts) {
    json.open_object().key("file").text(one.name);
    day("send", one.send);
    json.close_object();
  }
  return json.close_array().close_object().take();
}

} // namespace leafwright::guide
