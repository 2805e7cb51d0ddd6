#include "guide/sections.h"

#include "guide/figure/scenes.h"
#include "guide/internal/section/chapters.h"
#include "language/english.h"
#include "language/words.h"
#include "model/form.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

namespace leafwright::guide {
namespace {

constexpr const char* middle_dot = " · ";

std::string with_full_stop(std::string text) {
  if (!text.empty() && std::string_view(".!?").find(text.back()) == std::string_view::npos)
    text += ".";
  return text;
}

// The author's subtitle, and how much there is to make.
std::string subtitle_words(const Project& project) {
  const auto designs = static_cast<std::int64_t>(project.cards.size());
  const int each = std::max(1, project.run.of_each);
  std::string made = words::sentence_case(makes_words(project)) + " to make";
  if (designs > 1 && each > 1) made += ": " + words::count_words(each) + " of each";
  if (designs == 1 && each > 1) made += each == 2 ? ", both alike" : ", all alike";
  const std::string own = with_full_stop(project.subtitle);
  return own.empty() ? made + "." : own + " " + made + ".";
}

} // namespace

std::string edition_words(const Project& project) {
  std::string words = "Edition\u00A0" + std::to_string(project.edition);
  if (project.date) words += middle_dot + words::day_text(project.language, *project.date);
  return words;
}

std::string makes_words(const Project& project) {
  const std::int64_t each = std::max(1, project.run.of_each);
  const auto tags = std::ranges::count_if(
      project.cards, [](const Card& card) { return card.form.kind == Form::Kind::Tag; });
  const std::int64_t cards = std::ssize(project.cards) - tags;
  std::vector<std::string> makes;
  if (cards > 0 || tags == 0) makes.push_back(words::counted(cards * each, "card"));
  if (tags > 0) makes.push_back(words::counted(tags * each, "tag"));
  return words::listed(makes);
}

std::string time_words(int minutes) {
  const int hours = minutes / 60;
  const int rest = minutes % 60;
  std::string out;
  if (hours > 0) out = std::to_string(hours) + "\u00A0h";
  if (rest > 0 || hours == 0)
    out += (out.empty() ? "" : "\u00A0") + std::to_string(rest) + "\u00A0min";
  return out;
}

std::string clock_words(int minutes) {
  constexpr int a_day = 24 * 60;
  return fmt::format("{}:{:02}", minutes % a_day / 60, minutes % 60);
}

std::string effort_words(const Project& project) {
  std::string out;
  const bool all_known =
      !project.cards.empty() && std::all_of(project.cards.begin(), project.cards.end(),
                                            [](const Card& card) { return card.minutes > 0; });
  if (all_known) {
    const auto found = std::ranges::minmax_element(project.cards, {}, &Card::minutes);
    const int least = found.min->minutes, most = found.max->minutes;
    const bool hours = most >= 60; // "35 to 45 min", but "45 min to 1 h 30 min"
    out = "About ";
    if (least != most) out += (hours ? time_words(least) : std::to_string(least)) + " to ";
    out += time_words(most);
    if (project.cards.size() > 1) out += " each";
  }
  if (!project.level.empty())
    out += out.empty() ? words::sentence_case(project.level) : middle_dot + project.level;
  return out;
}

std::optional<std::int64_t> epoch_of(const Project& project) {
  if (!project.date || !project.date->ok()) return std::nullopt;
  const std::chrono::sys_days days{*project.date};
  return std::chrono::duration_cast<std::chrono::seconds>(days.time_since_epoch()).count();
}

Section cover_section(const Project& project, const std::string& edition) {
  Section section{"cover", "", {}};
  Cover cover;
  cover.maker = project.maker.name;
  cover.title = project.title;
  cover.subtitle = subtitle_words(project);
  for (const Card& card : project.cards)
    cover.cards.push_back(figure::finished(project, card, View::Front));
  cover.left = effort_words(project);
  cover.right = edition;
  add(section, std::move(cover));
  return section;
}

Section contents_section(const Project& project) {
  Section section{"contents", "At a glance", {}};
  if (project.cards.size() < 2) return section;
  add(section, heading(1, "contents", "At a glance"));
  FigureRow cards;
  for (std::size_t i = 0; i < project.cards.size(); ++i) {
    const Card& card = project.cards[i];
    Prose words;
    words.strong(std::to_string(i + 1) + "\u2002" + card.title).say(", page\u00A0");
    words.page_of(card_anchor(card.id)).say(". " + words::sentence_case(form_words(card.form)));
    words.say(", " + (card.size_name.empty() ? size_text(card.finished, project.printing, true)
                                             : card.size_name));
    if (card.minutes > 0) words.say(", " + time_words(card.minutes));
    if (const std::string& level = card.level.empty() ? project.level : card.level; !level.empty())
      words.say(", " + level);
    words.say(".");
    if (const std::string skills = skills_words(project, card); !skills.empty())
      words.say(" " + words::sentence_case(skills) + ".");
    cards.figures.push_back(
        {figure::finished(project, card, View::Front), words.fragment(), Figure::Width::Narrow});
  }
  add(section, std::move(cards));
  add(section, Contents{});
  return section;
}

namespace {

Inlines maker_words(const Maker& maker) {
  Prose prose;
  if (maker.name.empty()) return {};
  prose.say("Designed and written by ").strong(maker.name);
  if (!maker.contact.empty()) {
    const bool mail = maker.contact.find('@') != std::string::npos;
    prose.say(", ");
    if (mail)
      prose.go("mailto:" + maker.contact, maker.contact);
    else
      prose.say(maker.contact);
  }
  if (!maker.web.empty()) {
    prose.say(", ");
    const std::size_t scheme = maker.web.find("://");
    const std::string shown =
        scheme == std::string::npos ? maker.web : maker.web.substr(scheme + 3);
    prose.go(scheme == std::string::npos ? "https://" + maker.web : maker.web, shown);
  }
  return prose.say(".").fragment();
}

} // namespace

Section colophon_section(const Project& project, const std::string& edition_line) {
  Section section{"colophon", "About this booklet", {}};
  add(section, heading(2, "colophon", "About this booklet"));
  Prose edition;
  edition.strong(project.title).say(". " + edition_line + ".");
  add(section, body(edition.fragment()));
  if (Inlines maker = maker_words(project.maker); !maker.empty())
    add(section, body(std::move(maker)));
  if (!project.maker.terms.empty()) {
    add(section, body(plain(words::tie_measures(project.maker.terms))));
  }
  add(section,
      small(plain("The type is Vollkorn and Lato, both under the SIL Open Font License.")));
  return section;
}

} // namespace leafwright::guide
