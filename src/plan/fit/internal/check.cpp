#include "plan/fit/check.h"

#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "model/item.h"
#include "model/work.h"
#include "plan/fit/internal/rules.h"
#include "plan/supply/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <optional>
#include <type_traits>
#include <vector>

namespace leafwright::fit {

namespace {

struct Entry {
  Rule rule;
  CardRule card = nullptr; // one of the two is set
  ProjectRule project = nullptr;
};

void sheet_too_small(const Project& project, const supply::CuttingPlan* sheets, Reporter& report) {
  const Findings found = sheets ? sheets->findings : supply::pieces_without_sheet(project);
  for (const Finding& finding : found)
    report(finding.place, finding.found, finding.expected, finding.fix).trace = finding.trace;
}

using enum Severity;

constexpr std::array entries{
    Entry{{"fit-mat-wider", Error, "a layer is larger than the side of the card it lies on"},
          mat_wider},
    Entry{{"fit-off-card", Error, "a layer reaches past the edge of the card or its envelope"},
          off_card},
    Entry{{"fit-overhang", Warning, "a layer reaches past what carries it and is not said to"},
          overhang},
    Entry{{"fit-reveal", Warning, "an inset does not show the same on every side"}, reveal_unequal},
    Entry{{"fit-reveal-slip", Note, "opposite edges differ by so little that it looks like a slip"},
          reveal_slip},
    Entry{{"fit-over-fold", Warning, "a layer lies across a fold without a score"}, over_fold},
    Entry{{"fit-base", Error, "the base does not fold to the size of the card"}, base_size},
    Entry{{"fit-score", Error, "a fold has no score, or a score has no fold"}, score_at_fold},
    Entry{{"fit-gates", Error, "the gates overlap"}, gates_overlap},
    Entry{{"fit-gate-gap", Note, "the gates leave a gap between them"}, gates_gap},
    Entry{{"fit-grain", Warning, "a fold runs across the grain and will crack"}, grain_across_fold},
    Entry{{"fit-die", Error, "a die is larger than the piece it cuts from"}, die_larger_than_piece},
    Entry{{"fit-die-size", Warning, "a die-cut piece is not the size its die cuts"},
          die_of_other_size},
    Entry{{"fit-window", Error, "a window reaches past the edge of its piece"}, window_past_edge},
    Entry{{"fit-window-rim", Warning, "a window leaves a rim that tears"}, window_rim_thin},
    Entry{{"fit-strip", Warning, "a piece is narrower than the trimmer holds"}, strip_too_narrow},
    Entry{{"fit-image", Warning, "a stamped image reaches past what it is stamped on"},
          image_past_panel},
    Entry{{"fit-image-window", Warning, "an image is stamped where its piece has a window"},
          image_in_window},
    Entry{{"fit-image-inks", Warning, "an image is given more inks than it has colors"},
          image_short_of_colours},
    Entry{{"fit-embellishment", Warning, "an embellishment reaches past what it sits on"},
          embellishment_past_edge},
    Entry{{"fit-ribbon", Error, "a ribbon is cut shorter than its way"}, ribbon_short},
    Entry{{"fit-ribbon-ends", Warning, "a ribbon leaves too little for its ends or its tie"},
          ribbon_ends_short},
    Entry{{"fit-ribbon-spool", Error, "one cut of ribbon is longer than a spool"},
          ribbon_longer_than_spool},
    Entry{{"fit-band", Warning, "a paper band does not go round with an overlap"}, band_short},
    Entry{{"fit-ribbon-edge", Warning, "a ribbon lies past the edge of what it is tied round"},
          ribbon_past_edge},
    Entry{{"fit-adhesive", Warning, "a piece is narrower than its adhesive"},
          adhesive_wider_than_piece},
    Entry{{"fit-hollow", Warning, "a layer lies partly on a raised one and partly on nothing"},
          hollow_beneath},
    Entry{{"fit-hidden", Note, "a layer is wholly hidden by a later one"}, hidden_layer},
    Entry{{"fit-step-work", Warning,
           "a step of the author's speaks of cutting or rounding that is also written for it"},
          work_named_in_words},
    Entry{{"fit-image-hidden", Warning, "a stamped image is wholly covered by a later layer"},
          image_hidden},
    Entry{{"fit-pane", Warning, "a clear or vellum pane is smaller than the window it backs"},
          pane_too_small},
    Entry{{"fit-glued-shut", Warning, "a layer is glued across the edge where the card opens"},
          glued_shut},
    Entry{{"fit-envelope", Error, "the closed card is larger than its envelope"},
          envelope_too_small},
    Entry{{"fit-envelope-snug", Warning, "the closed card has too little room in its envelope"},
          envelope_snug},
    Entry{{"fit-envelope-thick", Warning, "with its layers the card is too thick for its envelope"},
          envelope_bulges},
    Entry{{"fit-thickness", Note, "a paper or foam has no known thickness"}, thickness_unknown},
    Entry{{"fit-mail-size", Note, "the envelope is too small or too large for a letter"},
          mail_size},
    Entry{{"fit-mail-thickness", Note, "the letter is too thick or too thin"}, mail_thickness},
    Entry{{"fit-mail-shape", Note, "the envelope is too square or too long for sorting machines"},
          mail_shape},
    Entry{{"fit-mail-uneven", Note, "raised parts make the letter uneven"}, mail_uneven},
    Entry{{"fit-mail-rigid", Note, "the letter holds something hard"}, mail_rigid},
    Entry{{"fit-outline", Warning, "a drawn outline does not fill the size that is said"},
          nullptr,
          outline_in_part},
    Entry{{"fit-sheet", Error, "a piece fits on no sheet of its stock"}, nullptr, sheet_too_small},
    Entry{{"fit-cut-length", Warning, "a sheet is wider than the trimmer cuts"},
          nullptr,
          cut_too_long},
    Entry{{"fit-margin", Note, "a cut leaves less of the sheet than the trimmer holds"},
          nullptr,
          margin_too_narrow},
    Entry{{"fit-weekday", Warning, "a weekday contradicts its date"}, nullptr, weekday_contradicts},
    Entry{{"fit-dates", Error, "replies are due after kits are sent"}, nullptr, reply_after_ship},
    Entry{
        {"fit-unused", Note, "a supply is used by no card and in no tier"}, nullptr, supply_unused},
    Entry{{"fit-language", Note, "our own sentences are not in the project's language"},
          nullptr,
          foreign_language},
    Entry{{"fit-tool-work", Note, "nothing says which work a tool is for"},
          nullptr,
          tool_without_work},
    Entry{{"fit-not-offered", Note, "no tier holds a stamp set or asks for it"},
          nullptr,
          stamps_not_offered},
};

constexpr auto table = [] {
  std::array<Rule, entries.size()> all{};
  for (std::size_t i = 0; i < entries.size(); ++i) all[i] = entries[i].rule;
  return all;
}();

} // namespace

std::span<const Rule> rules() { return table; }

Findings check(const Project& project, const supply::CuttingPlan* sheets) {
  Findings findings;
  for (const Card& card : project.cards) {
    const ClosedCard closed = closed_card(project, card);
    const Case one{project, card, closed};
    for (const Entry& entry : entries) {
      if (!entry.card) continue;
      Reporter report(entry.rule, project, findings);
      entry.card(one, report);
    }
  }
  for (const Entry& entry : entries) {
    if (!entry.project) continue;
    Reporter report(entry.rule, project, findings);
    entry.project(project, sheets, report);
  }
  return findings;
}

namespace {

const char* day_name(std::chrono::weekday day) {
  static constexpr std::array names{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                    "Thursday", "Friday", "Saturday"};
  return names.at(day.c_encoding() % 7);
}

// The nearest date that falls on `day`.
Date nearest_on(Date date, std::chrono::weekday day) {
  const std::chrono::sys_days from{date};
  for (int off = 0; off <= 3; ++off)
    for (const int sign : {1, -1}) {
      const std::chrono::sys_days there = from + std::chrono::days{off * sign};
      if (std::chrono::weekday{there} == day) return Date{there};
    }
  return date;
}

void check_weekday(const Project& project, const std::optional<StatedDate>& stated, Place place,
                   const char* what, Reporter& report) {
  if (!stated || !stated->stated || !stated->date.ok()) return;
  const std::chrono::weekday real{std::chrono::sys_days{stated->date}};
  if (real == *stated->stated) return;
  report(place,
         fmt::format("{} says {}, but {} is a {}", what, day_name(*stated->stated),
                     words::day_text(project.language, stated->date), day_name(real)),
         "a weekday that agrees with its date",
         fmt::format(
             "write {}, or {}", words::long_day_text(project.language, stated->date),
             words::long_day_text(project.language, nearest_on(stated->date, *stated->stated))));
}

bool mentioned_by_tier(const Project& project, ItemRef item) {
  return std::any_of(project.tiers.begin(), project.tiers.end(), [&](const Tier& tier) {
    return std::any_of(tier.includes.begin(), tier.includes.end(),
                       [&](const Inclusion& inclusion) { return inclusion.item == item; }) ||
           std::any_of(tier.requires_owned.begin(), tier.requires_owned.end(),
                       [&](const Requirement& need) {
                         return std::find(need.any_of.begin(), need.any_of.end(), item) !=
                                need.any_of.end();
                       });
  });
}

bool pack_is_used(const Pack& pack, const supply::Needs& needs) {
  return std::any_of(pack.lines.begin(), pack.lines.end(), [&](const Pack::Line& line) {
    return supply::find(needs, {ItemKind::Stock, line.stock}) != nullptr;
  });
}

struct Unused {
  std::string name;
  Place place;
};

template <class T>
void check_unused(const Project& project, const supply::Needs& needs, const std::vector<T>& list,
                  ItemKind kind, std::vector<Unused>& unused) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    const ItemRef item{kind, static_cast<int>(i)};
    if (supply::find(needs, item) || mentioned_by_tier(project, item)) continue;
    if constexpr (std::is_same_v<T, Pack>)
      if (pack_is_used(list[i], needs)) continue;
    unused.push_back({item_name(project, item), list[i].place});
  }
}

} // namespace

void weekday_contradicts(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  const Run& run = project.run;
  check_weekday(project, run.reply_by, known(run.reply_by_place, run.place), "reply-by", report);
  check_weekday(project, run.ship_by, known(run.ship_by_place, run.place), "ship-by", report);
}

void reply_after_ship(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  const Run& run = project.run;
  if (!run.reply_by || !run.ship_by || run.reply_by->date <= run.ship_by->date) return;
  const auto day = [&](Date date) { return words::day_text(project.language, date); };
  Finding& finding = report(known(run.reply_by_place, run.place),
                            fmt::format("orders close on {}, after kits go out on {}",
                                        day(run.reply_by->date), day(run.ship_by->date)),
                            "an order-by date before the ship-by date",
                            fmt::format("close orders by {}, or ship on {} or later",
                                        day(run.ship_by->date), day(run.reply_by->date)));
  finding.trace.push_back({known(run.ship_by_place, run.place), "ship-by is written here"});
}

void supply_unused(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  const supply::Needs needs = supply::needs_of_set(project);
  std::vector<Unused> unused;
  for_each_list(project, [&](ItemKind kind, const auto& list) {
    check_unused(project, needs, list, kind, unused);
  });
  if (unused.empty()) return;
  // Half written, a project has many; they are one line to read.
  std::vector<std::string> names;
  for (const Unused& one : unused) names.push_back(one.name);
  const bool many = unused.size() > 1;
  Finding& finding =
      report(unused.front().place,
             fmt::format("{} {} not used by any card", words::listed(names), many ? "are" : "is"),
             {}, many ? "use them, or leave them out" : "use it, or leave it out");
  for (std::size_t i = 1; i < unused.size(); ++i)
    finding.trace.push_back({unused[i].place, unused[i].name});
}

void foreign_language(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  if (words::is_written(project.language)) return;
  report(project.cards.empty() ? Place{} : project.cards.front().place,
         fmt::format("the language is “{}”", project.language),
         "English, because our own sentences are in English",
         "write language=\"en-US\" or \"en-GB\"");
}

Findings inferred(const Project& project) {
  Findings findings;
  const auto note = [&](std::string_view code, Place place, std::string found, std::string fix) {
    findings.push_back({Severity::Note,
                        std::string(code),
                        place,
                        std::move(found),
                        "nothing to mend",
                        std::move(fix),
                        {}});
  };
  for (const supply::Need& need : supply::needs_of_set(project)) {
    if (need.item.kind != ItemKind::Tool || need.cards.empty()) continue;
    const Tool& tool = project.tools.at(as_index(need.item.index));
    std::string cards;
    Works works;
    for (const int index : need.cards) {
      const Card& card = project.cards.at(as_index(index));
      cards += (cards.empty() ? "" : ", ") + card.title;
      const Works taken = works_of(card);
      for (const WorkRow& row : work_rows())
        if (tool.works.has(row.work) && taken.has(row.work)) works.add(row.work);
    }
    const std::string why = works.empty() ? "named there" : words_of(works);
    const Place card = project.cards.at(as_index(need.cards.front())).place;
    note("inferred-tool", tool.implied ? card : tool.place,
         fmt::format("{}{}: used in {} ({})", tool.name, tool.implied ? ", taken for granted" : "",
                     cards, why),
         tool.implied ? "a <tool> for this work takes its place" : "for=\"…\" says it otherwise");
  }
  for (const Card& card : project.cards)
    for (const AuthorStep& step : card.steps) {
      const bool of_piece =
          std::ranges::find(card.pieces, step.for_id, &Piece::id) != card.pieces.end();
      if (step.for_id.empty() || step.instead_of || !of_piece) continue;
      note("inferred-step", step.place,
           fmt::format("this step stands in place of {}", words_of(usually_replaced())),
           "instead-of=\"…\" says it otherwise");
    }
  return findings;
}

void tool_without_work(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  for (const supply::Need& need : supply::needs_of_set(project)) {
    if (need.item.kind != ItemKind::Tool || !need.cards.empty()) continue;
    const Tool& tool = project.tools.at(as_index(need.item.index));
    report(tool.place, fmt::format("nothing says what {} is for", tool.name),
           "the work it does, or a step that uses it",
           "write for=\"…\" (such as fold, stamp, powder), or uses=\"" + tool.id +
               "\" on the <step>");
  }
}

namespace {

// The only place where words are read for work: to tell an author, never to decide.
Works work_in(std::string_view text) {
  Works works;
  std::string word;
  const auto note = [&] {
    const auto begins = [&](std::string_view stem) { return word.starts_with(stem); };
    if (word == "die" || begins("die-") || begins("cut") || begins("punch") || begins("trace"))
      works.add(Work::Cut);
    if (begins("round")) works.add(Work::Round);
    word.clear();
  };
  for (const char c : text) {
    if (is_letter(c) || c == '-')
      word += small_letter(c);
    else
      note();
  }
  note();
  return works;
}

} // namespace

void work_named_in_words(const Case& c, Reporter& report) {
  for (const AuthorStep& step : c.card.steps) {
    if (step.for_id.empty() || step.instead_of) continue;
    const auto piece = std::ranges::find(c.card.pieces, step.for_id, &Piece::id);
    if (piece == c.card.pieces.end()) continue;
    Works named;
    for (const TextPart& part : step.text)
      if (part.kind == TextPart::Kind::Words) named.add(work_in(part.words));
    Card alone;
    alone.pieces = {*piece};
    const Works taken = works_of(alone);
    for (const Work work : {Work::Cut, Work::Round}) {
      if (!named.has(work) || !taken.has(work)) continue;
      Works all = usually_replaced();
      all.add(work);
      report(step.place,
             fmt::format("this step seems to tell the {} of {}, which is written before it too",
                         work_row(work).words, the(*piece)),
             "instead-of, with the work that the words tell themselves",
             fmt::format("write instead-of=\"{}\" if they do, or instead-of=\"{}\" if not",
                         words_of(all), words_of(usually_replaced())));
      break;
    }
  }
}

void stamps_not_offered(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  if (project.tiers.empty()) return;
  for (const supply::Need& need : supply::needs_of_set(project)) {
    if (need.item.kind != ItemKind::StampSet || mentioned_by_tier(project, need.item)) continue;
    const StampSet& set = project.stamp_sets.at(as_index(need.item.index));
    report(set.place, fmt::format("no kit holds {}, and none asks the buyer to own it", set.name),
           "stamps that every buyer has or gets", "include it in a tier, or list it under <own>");
  }
}

} // namespace leafwright::fit
