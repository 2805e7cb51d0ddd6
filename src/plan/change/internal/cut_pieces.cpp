#include "plan/change/compare.h"

#include "measure/index.h"
#include "plan/change/internal/share_piles.h"

#include <algorithm>
#include <utility>

namespace leafwright::change {

namespace {

using supply::CutLine;
using supply::CuttingPlan;

const Stock& stock_of(const Project& project, const CutLine& line) {
  return project.stocks.at(as_index(line.stock));
}

// The same piece of the same card; shares of sheets by their stock and size.
bool same_piece(const Project& before, const CutLine& a, const Project& after, const CutLine& b) {
  if ((a.piece.card < 0) != (b.piece.card < 0)) return false;
  if (a.piece.card < 0)
    return stock_of(before, a).id == stock_of(after, b).id && a.rectangle == b.rectangle;
  const Card& old_card = before.cards.at(as_index(a.piece.card));
  const Card& new_card = after.cards.at(as_index(b.piece.card));
  return old_card.id == new_card.id && old_card.pieces.at(as_index(a.piece.piece)).id ==
                                           new_card.pieces.at(as_index(b.piece.piece)).id;
}

// Two spans share an edge or their middle, the half of an odd nanometre aside.
bool one_line_stays(Length was_from, Length was_to, Length is_from, Length is_to) {
  const std::int64_t apart = (was_from + was_to - is_from - is_to).nm;
  return was_from == is_from || was_to == is_to || (apart >= -2 && apart <= 2);
}

class Judge {
 public:
  Judge(const Project& before, const supply::Buying& bought_before, const Project& after,
        const supply::Buying& bought_after, const OnTable& table)
      : before_(before), after_(after), bought_before_(bought_before), bought_after_(bought_after),
        table_(table) {}

  TableVerdict run(const cut::Effort& effort) {
    out_.old_run = bought_before_.sheets;
    gather_unknown();
    gather_piles();
    gather_wanted();
    match();
    count();
    lay_out(effort);
    return std::move(out_);
  }

 private:
  const std::vector<CutLine>& old_lines() const { return bought_before_.sheets.lines; }
  const std::vector<CutLine>& new_lines() const { return bought_after_.sheets.lines; }

  // Pieces that share a letter are alike: the first takes as many as it wants, the next the rest.
  std::vector<std::int64_t> counts() {
    const CuttingPlan& run = bought_before_.sheets;
    std::vector<std::int64_t> cut(run.lines.size(), 0);
    for (std::size_t i = 0; i < cut.size(); ++i) cut[i] = run.wanted.at(i) + run.spare.at(i);
    if (!table_.cut) return cut;
    const std::vector<std::int64_t> planned = cut;
    std::fill(cut.begin(), cut.end(), 0);
    for (const auto& [letter, said] : *table_.cut) {
      std::int64_t left = said;
      std::optional<std::size_t> last;
      for (std::size_t i = 0; i < run.lines.size(); ++i) {
        if (run.lines[i].letter != letter) continue;
        cut[i] = std::min(left, planned[i]);
        left -= cut[i];
        last = i;
      }
      if (last)
        cut[*last] += left;
      else
        out_.unknown.push_back(letter);
    }
    return cut;
  }

  void gather_unknown() {
    for (const std::string& letter : table_.blanks)
      if (std::ranges::none_of(old_lines(),
                               [&](const CutLine& line) { return line.letter == letter; }))
        out_.unknown.push_back(letter);
    for (const std::string& die : table_.measured_dies)
      if (!die_now(die) || std::ranges::find(before_.dies, die, &Die::id) == before_.dies.end())
        out_.unknown_dies.push_back(die);
  }

  const Die* die_now(const std::string& id) const {
    const auto die = std::ranges::find(after_.dies, id, &Die::id);
    return die == after_.dies.end() ? nullptr : &*die;
  }

  // The die of the new edition that cut this, where only the written size of it was wrong.
  const Die* measured(int die) const {
    const Die* old = find_at(before_.dies, die);
    return old && table_.measured_dies.contains(old->id) ? die_now(old->id) : nullptr;
  }

  // Where the opening of a measured die really lies. The die was laid down as the author says, by
  // an edge or its middle: where one of them stays, the opening is where the new edition has it.
  Point laid(const CutLine& line, const Window& window, Size size) const {
    const Rect was{window.at, window.size};
    const Piece& old = supply::piece_of(before_, line.piece);
    for (const CutLine& now : new_lines()) {
      if (!same_piece(before_, line, after_, now)) continue;
      const Piece& piece = supply::piece_of(after_, now.piece);
      const auto same = std::ranges::find(piece.windows, window.id, &Window::id);
      if (same == piece.windows.end() || same->size != size || piece.size != old.size) continue;
      const Rect is{same->at, same->size};
      if (one_line_stays(was.left(), was.right(), is.left(), is.right()) &&
          one_line_stays(was.top(), was.bottom(), is.top(), is.bottom()))
        return same->at;
    }
    const Point middle = was.centre();
    return {middle.x - size.width / 2, middle.y - size.height / 2};
  }

  // A cut piece as it really is, whatever the old edition says.
  CutState on_table(const CutLine& line) const {
    CutState state = cut_state(before_, line);
    if (table_.blanks.contains(line.letter)) {
      state.size = state.blank;
      state.shape = {};
      state.scores.clear();
      state.windows.clear();
      return state;
    }
    if (line.piece.card < 0) return state;
    if (const Die* die = measured(supply::piece_of(before_, line.piece).die)) {
      state.size = die->size;
      state.shape = die->shape;
    }
    for (Window& window : state.windows)
      if (const Die* die = measured(window.die)) {
        window.at = laid(line, window, die->size);
        window.size = die->size;
        window.shape = die->shape;
      }
    return state;
  }

  void gather_piles() {
    const std::vector<std::int64_t> cut = counts();
    for (std::size_t i = 0; i < cut.size(); ++i) {
      if (cut[i] <= 0) continue;
      Pile pile;
      pile.old_line = static_cast<int>(i);
      pile.cut = cut[i];
      for (std::size_t j = 0; j < new_lines().size(); ++j)
        if (same_piece(before_, old_lines()[i], after_, new_lines()[j]))
          pile.new_line = static_cast<int>(j);
      if (pile.new_line >= 0) pile.own = between(pile.old_line, pile.new_line);
      out_.piles.push_back(pile);
    }
  }

  void gather_wanted() {
    const CuttingPlan& run = bought_after_.sheets;
    for (std::size_t i = 0; i < run.lines.size(); ++i) {
      const std::int64_t needed = run.wanted.at(i) + run.spare.at(i);
      if (needed > 0) out_.wanted.push_back({static_cast<int>(i), needed, 0, 0, 0});
    }
  }

  Refit between(int old_line, int new_line) const {
    const CutLine& old = old_lines()[as_index(old_line)];
    const CutLine& now = new_lines()[as_index(new_line)];
    if (!same_paper(stock_of(before_, old), stock_of(after_, now))) {
      Refit out;
      out.loss = Loss::Paper;
      return out;
    }
    return refit(on_table(old), cut_state(after_, now));
  }

  void match() {
    std::vector<std::int64_t> piles, wants;
    for (const Pile& pile : out_.piles) piles.push_back(pile.cut);
    for (const Wanted& want : out_.wanted) wants.push_back(want.needed);
    std::vector<Arc> arcs;
    std::vector<Refit> hows;
    for (std::size_t i = 0; i < out_.piles.size(); ++i)
      for (std::size_t j = 0; j < out_.wanted.size(); ++j) {
        const Refit how = between(out_.piles[i].old_line, out_.wanted[j].new_line);
        if (how.fate == Fate::Lost || wasteful(i, j)) continue;
        arcs.push_back({static_cast<int>(i), static_cast<int>(j), gain(i, j, how)});
        hows.push_back(how);
      }
    const std::vector<std::int64_t> taken = share_piles(piles, wants, arcs);
    for (std::size_t a = 0; a < arcs.size(); ++a) {
      if (taken[a] <= 0) continue;
      const auto pile = as_index(arcs[a].pile);
      const auto want = as_index(arcs[a].want);
      const bool good = hows[a].fate == Fate::Good;
      out_.uses.push_back(
          {out_.piles[pile].old_line, out_.wanted[want].new_line, taken[a], hows[a]});
      (good ? out_.piles[pile].good : out_.piles[pile].trimmed) += taken[a];
      (good ? out_.wanted[want].good : out_.wanted[want].trimmed) += taken[a];
    }
  }

  // Nobody trims a base down to a tag: another piece takes at least half of what is there.
  bool wasteful(std::size_t pile, std::size_t want) const {
    if (out_.piles[pile].new_line == out_.wanted[want].new_line) return false;
    const CutLine& old = old_lines()[as_index(out_.piles[pile].old_line)];
    const CutLine& now = new_lines()[as_index(out_.wanted[want].new_line)];
    return area(now.rectangle) * 2 < area(old.rectangle);
  }

  // Served area in square millimetres first; a cut saved, then the own piece, break the ties.
  std::int64_t gain(std::size_t pile, std::size_t want, const Refit& how) const {
    const CutLine& now = new_lines()[as_index(out_.wanted[want].new_line)];
    const std::int64_t served = std::max<std::int64_t>(area(now.rectangle).um2 / 1'000'000, 1);
    const bool own = out_.piles[pile].new_line == out_.wanted[want].new_line;
    const int work = (how.fate == Fate::Trim ? 4 : 0) + (how.turned ? 1 : 0) +
                     2 * (how.new_scores + how.new_windows > 0 ? 1 : 0);
    return served * 64 + 32 - 4 * work + (own ? 3 : 0);
  }

  void count() {
    for (Pile& pile : out_.piles) {
      const std::int64_t left = pile.cut - pile.good - pile.trimmed;
      (pile.own.fate != Fate::Lost ? pile.spare : pile.lost) += left;
      out_.good += pile.good;
      out_.trimmed += pile.trimmed;
      out_.spare += pile.spare;
      out_.lost += pile.lost;
    }
    for (Wanted& want : out_.wanted) {
      want.to_cut = want.needed - want.good - want.trimmed;
      out_.recut += want.to_cut;
    }
  }

  static bool bare_rectangle(const CutState& state) {
    return state.shape.outline == Shape::Outline::Rectangle && state.scores.empty() &&
           state.windows.empty();
  }

  int stock_like(const Stock& old) const {
    for (std::size_t i = 0; i < after_.stocks.size(); ++i)
      if (after_.stocks[i].id == old.id && same_paper(after_.stocks[i], old))
        return static_cast<int>(i);
    return -1;
  }

  // What lies there beside whole sheets: rests of the old plan or what the project says, and lost
  // pieces.
  std::vector<StockInHand> rests() const {
    std::vector<StockInHand> rests;
    const auto add = [&](int stock, Size size, std::int64_t count) {
      if (stock < 0 || count <= 0) return;
      StockInHand hand;
      hand.item = {ItemKind::Stock, stock};
      hand.offcut = size;
      hand.count = static_cast<int>(std::min<std::int64_t>(count, 100'000));
      rests.push_back(hand);
    };
    if (table_.cut) {
      for (const StockInHand& hand : after_.run.in_hand)
        if (hand.item.kind == ItemKind::Stock && hand.offcut != Size{})
          add(hand.item.index, hand.offcut, std::max(hand.count, 1));
    } else {
      for (const supply::BuyingLine& line : bought_before_.lines) {
        if (line.item.kind != ItemKind::Stock) continue;
        const int stock = stock_like(before_.stocks.at(as_index(line.item.index)));
        for (const supply::BuyingLine::Offcut& one : line.offcuts_left)
          add(stock, one.size, one.count);
      }
    }
    for (const Pile& pile : out_.piles) {
      const CutLine& line = old_lines()[as_index(pile.old_line)];
      if (pile.lost > 0 && bare_rectangle(on_table(line)))
        add(stock_like(stock_of(before_, line)), line.rectangle, pile.lost);
    }
    return rests;
  }

  void lay_out(const cut::Effort& effort) {
    CuttingPlan& run = out_.to_cut;
    const CuttingPlan& planned = bought_after_.sheets;
    run.lines = planned.lines;
    run.wanted.assign(run.lines.size(), 0);
    run.spare.assign(run.lines.size(), 0);
    for (const Wanted& want : out_.wanted) run.wanted[as_index(want.new_line)] = want.to_cut;
    for (const supply::CutPiece& piece : planned.pieces) {
      supply::CutPiece one = piece;
      one.wanted = one.spare = 0;
      one.lines.clear(); // only those that are cut again lend their letters
      one.letters.clear();
      for (const int line : piece.lines) {
        const auto at = as_index(line);
        if (run.wanted[at] <= 0) continue;
        one.wanted += run.wanted[at];
        one.lines.push_back(line);
        const std::string& letter = run.lines[at].letter;
        if ((" " + one.letters + " ").find(" " + letter + " ") == std::string::npos)
          one.letters += (one.letters.empty() ? "" : " ") + letter;
      }
      if (one.wanted > 0) run.pieces.push_back(std::move(one));
    }
    if (run.pieces.empty()) return;
    Project project = after_;
    project.run.in_hand = rests();
    supply::CutOptions options;
    options.effort = effort;
    supply::lay_out(run, project, options);
    for (const supply::StockSheets& stock : run.stocks) {
      out_.sheets += stock.sheets;
      out_.offcuts += stock.offcuts;
    }
  }

  const Project& before_;
  const Project& after_;
  const supply::Buying& bought_before_;
  const supply::Buying& bought_after_;
  const OnTable& table_;
  TableVerdict out_;
};

} // namespace

TableVerdict judge(const Project& before, const supply::Buying& bought_before, const Project& after,
                   const supply::Buying& bought_after, const OnTable& table,
                   const cut::Effort& effort) {
  return Judge(before, bought_before, after, bought_after, table).run(effort);
}

} // namespace leafwright::change
