#include "language/english.h"
#include "language/lists.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "model/work.h"
#include "plan/fit/check.h"
#include "plan/fit/internal/rules.h"
#include "plan/supply/needs.h"

#include <fmt/format.h>

#include <algorithm>

// What an author's own words are taken for, and what they leave unsaid.

namespace leafwright::fit {

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
    std::vector<std::string> cards;
    Works works;
    for (const int index : need.cards) {
      const Card& card = project.cards.at(as_index(index));
      cards.push_back(card.title);
      const Works taken = works_of(card);
      for (const WorkRow& row : work_rows())
        if (tool.works.has(row.work) && taken.has(row.work)) works.add(row.work);
    }
    const std::string why = works.empty() ? "named there" : words_of(works);
    const Place card = project.cards.at(as_index(need.cards.front())).place;
    note("inferred-tool", tool.implied ? card : tool.place,
         fmt::format("{}{}: used in {} ({})", tool.name, tool.implied ? ", taken for granted" : "",
                     words::series(cards), why),
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

} // namespace leafwright::fit
