#include "guide/internal/prose/step_words.h"

#include "guide/prose.h"
#include "language/words.h"
#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

class Preparing {
 public:
  Preparing(const StepContext& context, const StepPieces& pieces, bool sized)
      : telling_(context), pieces_(pieces), sized_(sized), piece_(first_of(context, pieces)) {}

  Preparation run() {
    prepare({});
    alternative();
    return std::move(out_);
  }

  Preparation beside(Works told) {
    prepare(told);
    return std::move(out_);
  }

 private:
  void prepare(Works told) {
    if (!told.has(Work::Cut)) cut();
    if (!told.has(Work::Round))
      for (const Finish& finish : piece_.finishes)
        if (finish.kind == Finish::Kind::CornersRounded) round_corners(finish);
    if (!told.has(Work::Cut))
      for (const Window& window : piece_.windows) cut_window(window);
    if (!told.has(Work::Fold) && piece_.role != Piece::Role::Base) score();
    if (!told.has(Work::Stamp)) stamp();
    for (const Finish& finish : piece_.finishes)
      if (!told.has(work_of(finish.kind))) finish_by(finish);
  }

  static Work work_of(Finish::Kind kind) {
    switch (kind) {
    case Finish::Kind::Embossed: return Work::Emboss;
    case Finish::Kind::Distressed: return Work::Distress;
    case Finish::Kind::EdgeInked: return Work::Ink;
    case Finish::Kind::CornersRounded: break;
    }
    return Work::Round;
  }

  // The full name once, then "it".
  Prose subject() {
    Prose prose;
    if (out_.named) {
      prose.say(pronoun(telling_, pieces_));
    } else {
      say_pieces(prose, telling_, pieces_, sized_);
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

  std::string stock() const { return stock_noun(telling_.project, piece_.stock); }
  std::string die_with_the(int die) const {
    const std::string name = item_noun(telling_.project, {ItemKind::Die, die});
    const bool says_die = name.find("die") != std::string::npos;
    return "the " + name + (says_die ? "" : " die");
  }
  std::string rough() const {
    const bool known = piece_.cut_from.width > Length{} && piece_.cut_from != piece_.size;
    const std::string size = size_text(piece_.cut_from, telling_.project.printing, true);
    return known ? size + " piece of " + stock() : stock();
  }

  // "Take the die-cut rust latch (J), 1 3/4 in across."
  void take_ready() {
    const bool shaped = comes_die_cut(telling_, piece_);
    const bool stamped = comes_stamped(telling_, piece_);
    if (!shaped && !stamped) return;
    Prose prose;
    say_pieces(prose, telling_, pieces_, sized_,
               shaped && stamped ? "die-cut and stamped"
               : shaped          ? "die-cut"
                                 : "stamped");
    sentence("Take ").append(prose).say(".");
    out_.named = true;
  }

  void cut() {
    take_ready();
    if (comes_die_cut(telling_, piece_)) return;
    const std::string from = rough() == stock() ? " from " + stock() : " from the " + rough();
    switch (piece_.cut) {
    case Piece::CutBy::Trimmer: return;
    case Piece::CutBy::Die:
      sentence("Die cut ").append(subject()).say(from + " with " + die_with_the(piece_.die) + ".");
      return;
    case Piece::CutBy::Punch: sentence("Punch ").append(subject()).say(from + "."); return;
    case Piece::CutBy::Scissors:
      if (is_traced(piece_) && telling_.guides_apart) {
        sentence("Trace ").append(subject()).say(from +
                                                 ", using its full-size outline, and cut just "
                                                 "inside the line with scissors.");
      } else if (is_traced(piece_)) {
        sentence("Trace ").append(subject()).say(from +
                                                 ", using the full-size outline on page\u00A0");
        out_.prose.page_of(outline_anchor(telling_.card, piece_));
        out_.prose.say(", and cut just inside the line with scissors.");
      } else {
        sentence("Cut ").append(subject()).say(from + " with scissors.");
      }
      return;
    }
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
    const Where where{project, telling_.card, own_carrier(), false};
    const Gaps gaps = gaps_in(piece_.size, window.at, window.size);
    const std::string size = piece_size_words(project, window.shape, window.size);
    const bool die = window.die >= 0;
    if (die && telling_.ready.die_cut) {
      const bool known = out_.named;
      const Prose name = subject();
      if (known) {
        sentence("Its window").aside(size).say(" comes die-cut.");
      } else {
        out_.prose.next().append(name).say(" comes with its window").aside(size).say(" die-cut.");
      }
      return;
    }
    sentence("Cut a window").aside(size).say(" out of ").append(subject());
    out_.prose.say(die ? " with " + die_with_the(window.die) : " with a knife");
    out_.prose.say(where_words(where, gaps, Position{}, {}) + ".");
    if (!die && !warned_of_knife_) {
      warned_of_knife_ = true;
      out_.notices.push_back({Notice::Kind::Caution, "Knife.",
                              plain("Cut on a mat along a steel ruler, away from the hand that "
                                    "holds it, with several light passes.")});
    }
  }

  void score() {
    if (piece_.scores.empty()) return;
    std::vector<std::string> across, down;
    for (const Score& one : piece_.scores)
      (one.vertical ? down : across).push_back(length_text(one.at, telling_.project.printing));
    sentence("Score ").append(subject());
    if (!down.empty()) out_.prose.say(" " + words::listed(down) + " from the left edge");
    if (!across.empty())
      out_.prose.say(std::string(down.empty() ? " " : " and ") + words::listed(across) +
                     " from the top edge");
    out_.prose.say(", and fold.");
  }

  void stamp() {
    if (piece_.stamped.empty() || comes_stamped(telling_, piece_)) return;
    const bool several = how_many(telling_, pieces_) > 1;
    say_stamping(out_.prose, telling_, own_carrier(), piece_.stamped, subject(), several);
    for (Notice& notice : stamping_cautions(telling_, piece_.stamped))
      out_.notices.push_back(std::move(notice));
  }

  void finish_by(const Finish& finish) {
    switch (finish.kind) {
    case Finish::Kind::CornersRounded: return;
    case Finish::Kind::Embossed:
      sentence("Emboss ").append(subject());
      out_.prose.say(" with " +
                     (finish.with.empty() ? "an embossing folder" : "the " + finish.with) + ".");
      return;
    case Finish::Kind::Distressed:
      sentence("Roughen ").append(own("edges"));
      out_.prose.say((finish.with.empty() ? "" : " with the " + finish.with) + ".");
      return;
    case Finish::Kind::EdgeInked:
      sentence("Rub " + item_noun(telling_.project, {ItemKind::Ink, finish.ink}) + " along ")
          .append(own("edges"));
      out_.prose.say(" with " + (finish.with.empty() ? "a sponge" : "the " + finish.with) + ".");
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
  bool sized_;
  const Piece& piece_;
  Preparation out_;
  bool warned_of_knife_ = false;
};

} // namespace

Preparation preparation(const StepContext& context, const StepPieces& pieces, bool sized) {
  return Preparing(context, pieces, sized).run();
}

Preparation preparation_beside(const StepContext& context, const StepPieces& pieces, Works told) {
  return Preparing(context, pieces, true).beside(told);
}

bool comes_die_cut(const StepContext& context, const Piece& piece) {
  return context.ready.die_cut && piece.cut == Piece::CutBy::Die;
}

bool comes_stamped(const StepContext& context, const Piece& piece) {
  return context.ready.stamped && !piece.stamped.empty();
}

bool needs_own_step(const StepContext& context, const Piece& piece) {
  const auto to_cut = [&](const Window& window) {
    return window.die < 0 || !context.ready.die_cut;
  };
  const auto windows = as_index(std::ranges::count_if(piece.windows, to_cut));
  if (comes_stamped(context, piece)) return windows >= 2;
  const bool slow =
      std::any_of(piece.stamped.begin(), piece.stamped.end(), [](const Impression& one) {
        return one.method == Impression::Method::HeatEmbossed ||
               one.method == Impression::Method::Masked || prints(one) > 4;
      });
  return slow || piece.stamped.size() >= 2 || windows + piece.stamped.size() >= 2;
}

bool is_traced(const Piece& piece) {
  const bool plain = piece.shape.outline == Shape::Outline::Rectangle;
  return !plain && piece.role != Piece::Role::Base && piece.cut != Piece::CutBy::Die &&
         piece.cut != Piece::CutBy::Punch;
}

} // namespace leafwright::guide
