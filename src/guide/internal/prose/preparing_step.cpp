#include "guide/internal/prose/step_words.h"

#include "guide/prose.h"
#include "language/words.h"
#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

class Preparing {
 public:
  Preparing(const StepContext& context, const StepPieces& pieces)
      : telling_(context), pieces_(pieces), piece_(first_of(context, pieces)) {}

  Preparation run(PieceActs acts) {
    std::vector<Impression> stamped;
    std::size_t said = 0;
    for (const PieceAct& act : acts) {
      tell(act);
      if (act.kind == PieceAct::Kind::Stamp) stamped.push_back(piece_.stamped.at(act.index));
      const std::size_t now = sentences_of(out_.prose.fragment()).size();
      out_.sentences.push_back(now - said);
      said = now;
    }
    if (!comes_stamped(telling_, piece_))
      for (Notice& notice : stamping_cautions(telling_, stamped))
        out_.notices.push_back(std::move(notice));
    if (!acts.empty() && acts.front().kind == PieceAct::Kind::Cut) alternative();
    return std::move(out_);
  }

 private:
  void tell(const PieceAct& act) {
    switch (act.kind) {
    case PieceAct::Kind::Cut: return cut();
    case PieceAct::Kind::Round: return round_corners(piece_.finishes.at(act.index));
    case PieceAct::Kind::Window: return cut_window(piece_.windows.at(act.index));
    case PieceAct::Kind::Score: return score();
    case PieceAct::Kind::Stamp: return stamp(act.index);
    case PieceAct::Kind::Finish: return finish_by(piece_.finishes.at(act.index));
    }
  }

  // The full name once, then "it".
  Prose subject() {
    Prose prose;
    if (out_.named) {
      prose.say(pronoun(telling_, pieces_));
    } else {
      say_pieces(prose, telling_, pieces_);
    }
    out_.named = true;
    return prose;
  }
  // "the edges of the mat (C)", or "its edges" once it has been named.
  Prose own(const std::string& part) {
    Prose prose;
    if (out_.named) {
      prose.say((pronoun(telling_, pieces_) == "it" ? "its " : "their ") + part);
    } else {
      prose.say("the " + part + " of ").append(subject());
    }
    return prose;
  }
  Prose& sentence(std::string_view beginning) { return out_.prose.next().say(beginning); }

  // "from its cream square": the blank that was cut for it.
  std::string blank() const {
    std::string stock = stock_noun(telling_.project, piece_.stock);
    const bool known = piece_.cut_from.width > Length{} && piece_.cut_from != piece_.size;
    if (!known) return stock;
    const bool many = how_many(telling_, pieces_) > 1;
    const bool square = piece_.cut_from.width == piece_.cut_from.height;
    return (many ? "their " : "its ") + stock + (square ? " square" : " piece") + (many ? "s" : "");
  }

  // "Take the die-cut rust latch (J)."
  void take_ready() {
    const bool shaped = comes_die_cut(telling_, piece_);
    const bool stamped = comes_stamped(telling_, piece_);
    if (!shaped && !stamped) return;
    Prose prose;
    say_pieces(prose, telling_, pieces_,
               shaped && stamped ? "die-cut and stamped"
               : shaped          ? "die-cut"
                                 : "stamped");
    sentence("Take ").append(prose).say(".");
    out_.named = true;
  }

  void cut() {
    take_ready();
    if (comes_die_cut(telling_, piece_)) return;
    switch (piece_.cut) {
    case Piece::CutBy::Trimmer: return;
    case Piece::CutBy::Die: cut_from("Die cut "); return;
    case Piece::CutBy::Punch: cut_from("Punch "); return;
    case Piece::CutBy::Scissors:
      if (!is_traced(piece_)) return cut_from("Cut ", " with scissors.");
      trace();
      return;
    }
  }

  void cut_from(std::string_view verb, std::string_view with = ".") {
    sentence(verb).append(subject()).say(" from " + blank() + std::string(with));
  }

  void trace() {
    sentence("Trace ").append(subject()).say(" onto " + blank());
    if (telling_.guides_apart) {
      out_.prose.say(" from its full-size outline.");
    } else {
      out_.prose.say(" from the outline on page\u00A0");
      out_.prose.page_of(outline_anchor(telling_.card, piece_));
      out_.prose.say(".");
    }
    sentence("Cut just inside the line with scissors.");
  }

  void round_corners(const Finish& finish) {
    sentence("Round ").append(own("corners"));
    if (finish.radius > Length{})
      out_.prose.say(" to a radius of " + length_text(finish.radius, telling_.project.printing));
    if (!finish.with.empty()) out_.prose.say(" with the " + finish.with);
    out_.prose.say(".");
  }

  void cut_window(const Window& window) {
    const Project& project = telling_.project;
    const Where where{project, telling_.card, own_carrier(), telling_.drawn};
    const Gaps gaps = gaps_in(piece_.size, {window.at, window.size});
    const bool die = window.die >= 0;
    if (die && telling_.ready.die_cut) {
      // Nothing is left to do: the piece is taken as it comes.
      if (out_.named) return;
      Prose name;
      say_pieces(name, telling_, pieces_, "die-cut");
      sentence("Take ").append(name).say(".");
      out_.named = true;
      return;
    }
    Prose act;
    act.say(die ? "Die cut " : "Cut ");
    act.say(piece_.windows.size() == 1 ? "the window in " : "a window in ").append(subject());
    if (!die) act.say(" with a knife");
    out_.prose.next();
    say_placed(out_.prose, where, act, where_words(where, gaps, Position{}, {}), "it");
    if (!die && !warned_of_knife_) {
      warned_of_knife_ = true;
      out_.notices.push_back(
          {Notice::Kind::Caution, "Knife.",
           plain("Work on a cutting mat. Cut along a steel ruler, away from your "
                 "other hand, in several light passes.")});
    }
  }

  void score() {
    if (piece_.scores.empty()) return;
    std::vector<std::string> across, down;
    for (const Score& one : piece_.scores)
      (one.vertical ? down : across).push_back(length_text(one.at, telling_.project.printing));
    sentence("Score and fold ").append(subject());
    if (!down.empty()) out_.prose.say(" at " + words::listed(down) + " from the left");
    if (!across.empty())
      out_.prose.say(std::string(down.empty() ? " at " : " and ") + words::listed(across) +
                     " from the top");
    out_.prose.say(".");
  }

  void stamp(std::size_t index) {
    if (comes_stamped(telling_, piece_)) return;
    const bool several = how_many(telling_, pieces_) > 1;
    const Prose target = stamps_ ? Prose{} : subject();
    stamps_ = true;
    say_impression(out_.prose, telling_, own_carrier(), piece_.stamped, index, target, several);
  }

  void finish_by(const Finish& finish) {
    switch (finish.kind) {
    case Finish::Kind::CornersRounded: return;
    case Finish::Kind::Embossed:
      sentence("Dry emboss ").append(subject());
      out_.prose.say(" with " +
                     (finish.with.empty() ? "an embossing folder" : "the " + finish.with) + ".");
      return;
    case Finish::Kind::Distressed:
      sentence("Distress ").append(own("edges"));
      out_.prose.say((finish.with.empty() ? "" : " with the " + finish.with) + ".");
      return;
    case Finish::Kind::EdgeInked:
      sentence("Ink ")
          .append(own("edges"))
          .say(" with " + item_noun(telling_.project, {ItemKind::Ink, finish.ink}) +
               (finish.with.empty() ? "" : " on the " + finish.with) + ".");
      return;
    }
  }

  // How to do without the tool that its buyer does not need.
  void alternative() {
    if (comes_die_cut(telling_, piece_) ||
        (telling_.ready.die_cut && !piece_.windows.empty() &&
         std::ranges::all_of(piece_.windows, [](const Window& one) { return one.die >= 0; })))
      return;
    Inlines text = author_text(telling_, piece_.alternative_text);
    if (text.empty() && !piece_.alternative.empty()) text = plain(piece_.alternative);
    if (!text.empty())
      out_.notices.push_back({Notice::Kind::Alternative, "Another way.", std::move(text)});
  }

  Carrier own_carrier() const { return {Carrier::Kind::Piece, pieces_.at(0)}; }

  const StepContext& telling_;
  const StepPieces& pieces_;
  const Piece& piece_;
  Preparation out_;
  bool stamps_ = false;
  bool warned_of_knife_ = false;
};

Work work_of(const Piece& piece, const PieceAct& act) {
  switch (act.kind) {
  case PieceAct::Kind::Cut:
  case PieceAct::Kind::Window: return Work::Cut;
  case PieceAct::Kind::Round: return Work::Round;
  case PieceAct::Kind::Score: return Work::Fold;
  case PieceAct::Kind::Stamp: return Work::Stamp;
  case PieceAct::Kind::Finish: break;
  }
  switch (piece.finishes.at(act.index).kind) {
  case Finish::Kind::Embossed: return Work::Emboss;
  case Finish::Kind::Distressed: return Work::Distress;
  case Finish::Kind::EdgeInked: return Work::Ink;
  case Finish::Kind::CornersRounded: break;
  }
  return Work::Round;
}

} // namespace

std::vector<PieceAct> acts_on(const Piece& piece) {
  using Kind = PieceAct::Kind;
  std::vector<PieceAct> acts{{Kind::Cut, 0}};
  const auto rounds = [&](std::size_t i) {
    return piece.finishes[i].kind == Finish::Kind::CornersRounded;
  };
  for (std::size_t i = 0; i < piece.finishes.size(); ++i)
    if (rounds(i)) acts.push_back({Kind::Round, i});
  for (std::size_t i = 0; i < piece.windows.size(); ++i) acts.push_back({Kind::Window, i});
  if (piece.role != Piece::Role::Base && !piece.scores.empty()) acts.push_back({Kind::Score, 0});
  for (std::size_t i = 0; i < piece.stamped.size(); ++i) acts.push_back({Kind::Stamp, i});
  for (std::size_t i = 0; i < piece.finishes.size(); ++i)
    if (!rounds(i)) acts.push_back({Kind::Finish, i});
  return acts;
}

Preparation preparation(const StepContext& context, const StepPieces& pieces, PieceActs acts) {
  return Preparing(context, pieces).run(acts);
}

Preparation preparation(const StepContext& context, const StepPieces& pieces) {
  return preparation(context, pieces, acts_on(first_of(context, pieces)));
}

Preparation preparation_beside(const StepContext& context, const StepPieces& pieces, Works told) {
  const Piece& piece = first_of(context, pieces);
  std::vector<PieceAct> acts = acts_on(piece);
  std::erase_if(acts, [&](const PieceAct& act) { return told.has(work_of(piece, act)); });
  return preparation(context, pieces, acts);
}

bool comes_die_cut(const StepContext& context, const Piece& piece) {
  return context.ready.die_cut && piece.cut == Piece::CutBy::Die;
}

bool comes_stamped(const StepContext& context, const Piece& piece) {
  return context.ready.stamped && !piece.stamped.empty();
}

bool needs_own_step(const StepContext& context, const Piece& piece) {
  if (comes_stamped(context, piece)) return false;
  return std::any_of(piece.stamped.begin(), piece.stamped.end(), [](const Impression& one) {
    return one.method == Impression::Method::HeatEmbossed ||
           one.method == Impression::Method::Masked || prints(one) > 4;
  });
}

bool is_traced(const Piece& piece) {
  const bool plain = piece.shape.outline == Shape::Outline::Rectangle;
  return !plain && piece.role != Piece::Role::Base && piece.cut != Piece::CutBy::Die &&
         piece.cut != Piece::CutBy::Punch;
}

} // namespace leafwright::guide
