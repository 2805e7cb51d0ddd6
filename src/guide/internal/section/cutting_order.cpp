#include "guide/sections.h"

#include "guide/prose.h"
#include "language/agreement.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/form.h"

#include <algorithm>
#include <utility>

namespace leafwright::guide {
namespace {

using supply::CuttingPlan;
using supply::Round;
using supply::Setting;
using supply::SheetLayout;

// "in stacks of 5 (3 stacks)"; empty for a single part.
std::string stack_words(const Round& round, std::string_view noun) {
  if (round.parts == 1) return {};
  if (round.stack == 1) return ", one " + std::string(noun) + " at a time";
  if (round.stacks == 1) return ", all in one stack";
  return ", in " + words::counted(round.stacks, "stack") + " of up to " +
         words::count_words(round.stack);
}

// Where the parts of a round come from, on one sheet: cut off as strips, or left from the settings
// with these numbers.
struct Origin {
  std::int64_t strips = 0, others = 0;
  std::vector<std::pair<int, std::int64_t>> left;
};

// `part` is what lies before (near) or beyond the blade of a cut.
bool near_part(const supply::SheetLayout::Move& move, const Rect& part) {
  return part.origin == move.from.origin &&
         (move.across ? part.size.height == move.at && part.size.width == move.from.size.width
                      : part.size.width == move.at && part.size.height == move.from.size.height);
}
bool far_part(const supply::SheetLayout::Move& move, const Rect& part) {
  return move.across
             ? part.size.width == move.from.size.width && part.origin.x == move.from.origin.x &&
                   part.origin.y + part.size.height == move.from.origin.y + move.from.size.height &&
                   part.origin.y == move.from.origin.y + move.at
             : part.size.height == move.from.size.height && part.origin.y == move.from.origin.y &&
                   part.origin.x + part.size.width == move.from.origin.x + move.from.size.width &&
                   part.origin.x == move.from.origin.x + move.at;
}

void find_origin(Origin& origin, const SheetLayout& layout, std::size_t round, const Rect& part) {
  for (std::size_t r = 0; r < round; ++r)
    for (const Setting& setting : layout.work.rounds[r].settings)
      for (const int index : setting.moves) {
        const auto& move = layout.moves.at(as_index(index));
        if (near_part(move, part)) {
          (setting.gives.empty() ? origin.strips : origin.others) += 1;
          return;
        }
        // What a later cut of the same setting is made from is not yet left over.
        if (!far_part(move, part)) continue;
        if (origin.left.empty() || origin.left.back().first != setting.number)
          origin.left.emplace_back(setting.number, 0);
        origin.left.back().second += 1;
        return;
      }
  origin.others += 1;
}

Origin origin_of(const SheetLayout& layout, std::size_t round) {
  Origin origin;
  const Round& it = layout.work.rounds[round];
  for (const int index : it.settings.front().moves) {
    const auto& move = layout.moves.at(as_index(index));
    if (move.from.size == it.part) find_origin(origin, layout, round, move.from);
  }
  return origin;
}

// "14 strips", "14 strips and the 7 parts left from cut 2", "strip", "part left from cut 2"
std::string origin_words(const SheetLayout& layout, std::size_t index) {
  const Round& round = layout.work.rounds[index];
  const Origin origin = origin_of(layout, index);
  const std::int64_t times = std::max(layout.times, 1);
  std::int64_t known = origin.strips;
  for (const auto& [number, count] : origin.left) known += count;
  if (origin.others > 0 || known * times != round.parts)
    return round.parts == 1 ? "part" : words::counted(round.parts, "part");
  std::vector<std::string> from;
  if (origin.strips > 0)
    from.push_back(origin.strips * times == 1 ? "strip"
                                              : words::counted(origin.strips * times, "strip"));
  for (const auto& [number, count] : origin.left) {
    const std::string parts = count * times == 1 ? "part" : words::counted(count * times, "part");
    from.push_back((from.empty() ? "" : "the ") + parts + " left from cut\u00A0" +
                   std::to_string(number));
  }
  return words::listed(from);
}

// What is taken in hand before the first setting of a round.
void say_start(Prose& prose, const Project& project, const SheetLayout& layout, std::size_t index) {
  const Round& round = layout.work.rounds[index];
  if (index == 0) {
    if (round.parts > 1)
      prose.say("Take the " + words::counted(round.parts, layout.offcut() ? "offcut" : "sheet") +
                stack_words(round, layout.offcut() ? "offcut" : "sheet") + ". ");
    return;
  }
  const std::string size = size_text(round.part, project.printing, true);
  const bool turn = round.across != layout.work.rounds[index - 1].across;
  const std::string origin = origin_words(layout, index);
  const bool left = origin.find(" left ") != std::string::npos;
  prose.say("Take the " + origin + (left ? ", " : " of ") + size + stack_words(round, "part"));
  prose.say(turn ? "; turn. " : ". ");
}

// "24 (C) and 12 (D)": all sheets together; a single piece is only its letter.
void say_pieces(Prose& prose, const CuttingPlan& plan, const SheetLayout& layout,
                const std::vector<int>& gives) {
  std::vector<std::pair<int, std::int64_t>> counts;
  for (const int index : gives) {
    const int piece = layout.pieces.at(as_index(index)).piece;
    const auto same = std::find_if(counts.begin(), counts.end(),
                                   [piece](const auto& one) { return one.first == piece; });
    if (same == counts.end())
      counts.emplace_back(piece, layout.times);
    else
      same->second += layout.times;
  }
  for (std::size_t i = 0; i < counts.size(); ++i) {
    prose.say(words::joint(i, counts.size()));
    if (counts.size() > 1 || counts[i].second > 1)
      prose.say(std::to_string(counts[i].second) + "\u00A0");
    prose.append(letter_dots(plan.pieces.at(as_index(counts[i].first))));
  }
}

// What a setting cuts off, and the last piece of a part: what the cut leaves, as wide as that comes
// out. Brief in the cell of a table.
void say_gains(Prose& prose, const Project& project, const CuttingPlan& plan,
               const SheetLayout& layout, const Round& round, const Setting& setting, bool brief) {
  std::vector<int> cut, left;
  for (const int index : setting.gives) {
    const Size size = layout.pieces.at(as_index(index)).box.size;
    const Length along = round.across ? size.height : size.width;
    (along == setting.fence || along == Length{} ? cut : left).push_back(index);
  }
  if (cut.empty()) {
    const std::int64_t strips = std::int64_t{setting.cuts} * round.parts;
    if (brief)
      prose.say(words::figured(strips, "strip"));
    else
      prose.say(strips == 1 ? ", one strip" : ", " + words::counted(strips, "strip"));
  } else {
    if (!brief) prose.say(" " + words::agreed("give", setting.cuts) + " ");
    say_pieces(prose, plan, layout, cut);
  }
  if (left.empty()) return;
  const Size size = layout.pieces.at(as_index(left.front())).box.size;
  const std::string wide = length_text(round.across ? size.height : size.width, project.printing);
  prose.say(brief ? "; " + wide + " left: " : "; what is left, " + wide + ", is ");
  say_pieces(prose, plan, layout, left);
}

bool through_one_stack(const Round& round) { return round.stacks == 1 && round.stack > 1; }

Inlines setting_words(const Project& project, const CuttingPlan& plan, const SheetLayout& layout,
                      std::size_t round_index, std::size_t setting_index) {
  const Round& round = layout.work.rounds[round_index];
  const Setting& setting = round.settings[setting_index];
  Prose prose;
  if (setting_index == 0) say_start(prose, project, layout, round_index);
  prose.say("Set the trimmer to ").strong(length_text(setting.fence, project.printing));
  if (setting_index == 0) prose.say(round.across ? " from the top edge" : " from the left edge");
  prose.say(": " + words::counted(setting.cuts, "cut"));
  if (round.parts > 1) prose.say(through_one_stack(round) ? " through the stack" : " each");
  say_gains(prose, project, plan, layout, round, setting, false);
  prose.say(".");
  return prose.sentence();
}

// The cells of a setting's row: what is taken in hand, said where that changes ...
std::string taken_words(const Project& project, const SheetLayout& layout, std::size_t index) {
  const Round& round = layout.work.rounds[index];
  const std::string noun = index > 0 ? "part" : layout.offcut() ? "offcut" : "sheet";
  const bool same_stacks = index > 0 && round.stack == layout.work.rounds[index - 1].stack &&
                           round.stacks == layout.work.rounds[index - 1].stacks;
  const std::string stacks = same_stacks ? std::string() : stack_words(round, noun);
  if (index == 0) return words::figured(round.parts, noun) + stacks;
  const bool turn = round.across != layout.work.rounds[index - 1].across;
  return words::sentence_case(origin_words(layout, index)) + ", " +
         size_text(round.part, project.printing, true) + stacks + (turn ? "; turn" : "");
}

// ... and the rest of it.
Row setting_row(const Project& project, const CuttingPlan& plan, const SheetLayout& layout,
                std::size_t round_index, std::size_t setting_index) {
  const Round& round = layout.work.rounds[round_index];
  const Setting& setting = round.settings[setting_index];
  Prose number, taken, fence, gains;
  number.append(Inlines{TickBox{}}).say("\u00A0" + std::to_string(setting.number));
  if (setting_index == 0)
    taken.say(taken_words(project, layout, round_index));
  else
    taken.quiet("the rest");
  fence.strong(length_text(setting.fence, project.printing));
  if (setting_index == 0) fence.say(round.across ? " from top" : " from left");
  say_gains(gains, project, plan, layout, round, setting, true);
  Row row;
  row.cells = {number.fragment(), taken.fragment(), fence.fragment(),
               plain(std::to_string(setting.cuts) +
                     (round.parts == 1 || through_one_stack(round) ? "" : " each")),
               gains.fragment()};
  return row;
}

// Bases are scored while they are flat and square to the board.
Inlines scoring_words(const Project& project, const CuttingPlan& plan, const SheetLayout& layout) {
  Prose prose;
  std::vector<int> said;
  for (const supply::Placed& placed : layout.pieces)
    for (const int index : plan.pieces.at(as_index(placed.piece)).lines) {
      const supply::CutLine& line = plan.lines.at(as_index(index));
      if (line.piece.card < 0 || std::find(said.begin(), said.end(), index) != said.end()) continue;
      said.push_back(index);
      const Card& card = project.cards.at(as_index(line.piece.card));
      const Piece& piece = card.pieces.at(as_index(line.piece.piece));
      std::vector<std::string> left, top;
      for (const Score& one : scores_of(card, piece))
        (one.vertical ? left : top).push_back(length_text(one.at, project.printing));
      if (left.empty() && top.empty()) continue;
      prose.say(prose.empty() ? "Score " : "; score ");
      prose.append(Inlines{PieceLetter{line.letter}});
      if (!left.empty()) prose.say(" at " + words::listed(left) + " from its left edge");
      if (!top.empty())
        prose.say(std::string(left.empty() ? " at " : " and ") + words::listed(top) +
                  " from its top edge");
    }
  if (!prose.empty()) prose.say(".");
  return prose.fragment();
}

Inlines keeping_words(const Project& project, const SheetLayout& layout) {
  std::vector<std::pair<Size, int>> rests;
  for (const Rect& rest : layout.leftovers) {
    if (!supply::worth_keeping(project, rest.size)) continue;
    const auto same = std::find_if(rests.begin(), rests.end(),
                                   [&](const auto& one) { return one.first == rest.size; });
    if (same != rests.end())
      same->second += 1;
    else if (rests.size() < 4)
      rests.emplace_back(rest.size, 1);
  }
  if (rests.empty()) return {};
  std::vector<std::string> kept;
  kept.reserve(rests.size());
  for (const auto& [size, count] : rests)
    kept.push_back((count > 1 ? words::count_words(count) + " of " : "") +
                   size_text(size, project.printing, true));
  return plain(std::string(layout.times > 1 ? "Keep of each: " : "Keep: ") + words::listed(kept) +
               ".");
}

} // namespace

Table cutting_table(const Project& project, const CuttingPlan& plan, const SheetLayout& layout) {
  Table table;
  table.caption = "Settings of the trimmer, in order";
  table.columns = {{plain("Cut"), Column::Align::Left, 0.3, true},
                   {plain("Take"), Column::Align::Left, 2.2, false},
                   {plain("Set to"), Column::Align::Left, 1.0, false},
                   {plain("Cuts"), Column::Align::Left, 0.5, false},
                   {plain("Gives"), Column::Align::Left, 1.0, false}};
  for (std::size_t r = 0; r < layout.work.rounds.size(); ++r)
    for (std::size_t s = 0; s < layout.work.rounds[r].settings.size(); ++s)
      table.rows.push_back(setting_row(project, plan, layout, r, s));
  return table;
}

std::vector<Inlines> after_cutting(const Project& project, const CuttingPlan& plan,
                                   const SheetLayout& layout) {
  std::vector<Inlines> after;
  if (Inlines scores = scoring_words(project, plan, layout); !scores.empty())
    after.push_back(std::move(scores));
  if (Inlines kept = keeping_words(project, layout); !kept.empty())
    after.push_back(std::move(kept));
  return after;
}

List cutting_order(const Project& project, const CuttingPlan& plan, const SheetLayout& layout) {
  List list;
  list.numbered = true;
  for (std::size_t r = 0; r < layout.work.rounds.size(); ++r)
    for (std::size_t s = 0; s < layout.work.rounds[r].settings.size(); ++s)
      list.items.push_back(setting_words(project, plan, layout, r, s));
  for (Inlines& one : after_cutting(project, plan, layout)) list.items.push_back(std::move(one));
  return list;
}

Inlines letter_dots(const supply::CutPiece& piece) {
  Inlines dots;
  for (std::size_t at = 0; at < piece.letters.size();) {
    const std::size_t end = std::min(piece.letters.find(' ', at), piece.letters.size());
    if (!dots.empty()) dots.push_back(Words{"\u00A0", Words::Style::Plain});
    dots.push_back(PieceLetter{piece.letters.substr(at, end - at)});
    at = end + 1;
  }
  return dots;
}

} // namespace leafwright::guide
