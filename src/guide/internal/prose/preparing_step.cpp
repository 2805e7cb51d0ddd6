#include "guide/internal/prose/step_words.h"

#include "guide/prose.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/technique.h"

#include <algorithm>
#include <array>

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
    if (window.notch != Window::Notch::None) return punch_notch(window);
    Prose act;
    act.say(die ? "Die cut " : "Cut ");
    act.say(piece_.windows.size() == 1 ? "the window in " : "a window in ").append(subject());
    if (!die) act.say(" with a knife");
    out_.prose.next();
    say_placed(out_.prose, where, act, where_words(where, gaps, Position{}, {}), "it");
    if (!die && !warned_of_knife_) {
      warned_of_knife_ = true;
      out_.notices.push_back(knife_caution());
    }
  }

  void punch_notch(const Window& window) {
    static constexpr std::array<std::string_view, 5> edges{"top", "top", "right", "bottom", "left"};
    const Length across = std::max(window.size.width, window.size.height);
    sentence("Punch a half circle, " + length_text(across, telling_.project.printing) +
             " across, into the middle of the " + std::string(edges.at(as_index(window.notch))) +
             " edge of ")
        .append(subject())
        .say(".");
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

  // "with the leaf folder", or `otherwise` when none is said.
  std::string by(const Finish& finish, std::string_view otherwise = {}) const {
    const std::string with = finish_tool_words(telling_.project, finish);
    if (!with.empty()) return " with the " + with;
    return otherwise.empty() ? "" : " with " + std::string(otherwise);
  }
  std::string ink_noun(const Finish& finish) const {
    return item_noun(telling_.project, {ItemKind::Ink, finish.ink});
  }
  // "the sky of the panel (C)", or the piece alone.
  Prose part(const Finish& finish) {
    return finish.area.empty() ? subject() : own(std::string(words::without_article(finish.area)));
  }
  bool british() const {
    return words::english_of(telling_.project.language) == words::English::British;
  }

  void finish_by(const Finish& finish) {
    using Kind = Finish::Kind;
    switch (finish.kind) {
    case Kind::CornersRounded: return;
    case Kind::Embossed:
      sentence("Dry emboss ").append(subject()).say(by(finish, "an embossing folder") + ".");
      break;
    case Kind::Distressed: sentence("Distress ").append(own("edges")).say(by(finish) + "."); break;
    case Kind::EdgeInked:
      sentence("Ink ")
          .append(own("edges"))
          .say(" with " + ink_noun(finish) + (finish.with.empty() ? "" : " on the ") +
               finish_tool_words(telling_.project, finish) + ".");
      break;
    case Kind::Washed:
      sentence("Brush water over ").append(part(finish)).say(by(finish) + ".");
      sentence("Touch in " + ink_noun(finish) + " and let it run.");
      break;
    case Kind::Blended: blend(finish); break;
    case Kind::Splattered:
      sentence("Flick " + ink_noun(finish) + " over ").append(part(finish));
      out_.prose.say(by(finish, "a stiff brush") + ".");
      break;
    case Kind::Coloured: colour(finish); break;
    case Kind::Foiled: sentence("Foil ").append(part(finish)).say(by(finish) + "."); break;
    case Kind::Stitched:
      sentence("Stitch around ").append(part(finish));
      out_.prose.say(", " + length_text(finish.radius, telling_.project.printing) +
                     " from the edge" + by(finish) + ".");
      break;
    case Kind::Torn: tear(finish); break;
    case Kind::Glittered:
      sentence("Dot liquid glitter onto ").append(part(finish)).say(by(finish) + ".");
      break;
    }
    let_dry(finish);
  }

  void blend(const Finish& finish) {
    const std::string stencil = finish_tool_words(telling_.project, finish);
    if (stencil.empty()) {
      sentence("Blend " + ink_noun(finish) + " onto ").append(part(finish));
      out_.prose.say(" with a light hand.");
      return;
    }
    sentence("Lay the " + stencil + " on ").append(part(finish)).say(".");
    sentence("Blend " + ink_noun(finish) + " through it with a light hand.");
  }

  void colour(const Finish& finish) {
    sentence(british() ? "Colour " : "Color ").append(part(finish));
    out_.prose.say(finish.ink >= 0 ? " with " + ink_noun(finish)
                                   : by(finish, "markers or pencils"));
    out_.prose.say(finish.ink >= 0 ? by(finish) + "." : ".");
  }

  void tear(const Finish& finish) {
    static constexpr std::array<std::string_view, 5> edges{"edges", "top edge", "right edge",
                                                           "bottom edge", "left edge"};
    sentence("Tear ").append(own(std::string(edges.at(as_index(finish.edge)))));
    out_.prose.say(british() ? " towards you" : " toward you");
    out_.prose.say(", so that the core shows.");
  }

  void let_dry(const Finish& finish) {
    const int minutes = drying_minutes(finish);
    if (minutes > 0) sentence("Let it dry for " + words::figured(minutes, "minute") + ".");
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

} // namespace

Notice knife_caution() {
  return {Notice::Kind::Caution, "Knife.",
          plain("Work on a cutting mat. Cut along a steel ruler, away from your "
                "other hand, in several light passes.")};
}

Preparation preparation(const StepContext& context, const StepPieces& pieces, PieceActs acts) {
  return Preparing(context, pieces).run(acts);
}

Preparation preparation(const StepContext& context, const StepPieces& pieces) {
  return preparation(context, pieces, acts_on(first_of(context, pieces)));
}

} // namespace leafwright::guide
