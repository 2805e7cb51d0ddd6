#include "guide/internal/prose/step_words.h"

#include "guide/internal/prose/placement.h"
#include "guide/prose.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/words.h"
#include "model/form.h"
#include "model/technique.h"
#include "model/work.h"

#include <algorithm>
#include <vector>

namespace leafwright::guide {
namespace {

const std::vector<Score>& folds_of(const Card& card) {
  return card.pieces.empty() ? card.plan.scores : scores_of(card, card.pieces.front());
}

// "5 1/2 in from the top edge", "2 1/8 in and 6 3/8 in from the left edge"
std::string scores_words(const StepContext& context) {
  std::vector<std::string> from_left, from_top;
  for (const Score& score : folds_of(context.card))
    (score.vertical ? from_left : from_top)
        .push_back(length_text(score.at, context.project.printing));
  std::vector<std::string> out;
  if (!from_left.empty()) out.push_back(words::listed(from_left) + " from the left");
  if (!from_top.empty()) out.push_back(words::listed(from_top) + " from the top");
  return words::listed(out);
}

// "With the inside up, mountain fold at 2 1/8 in and valley fold at 4 1/4 in"
std::string directions_words(const StepContext& context) {
  std::vector<std::string> mountains, valleys;
  for (const Score& score : folds_of(context.card))
    (score.mountain ? mountains : valleys)
        .push_back(length_text(score.at, context.project.printing));
  std::vector<std::string> out;
  if (!mountains.empty()) out.push_back("mountain fold at " + words::listed(mountains));
  if (!valleys.empty()) out.push_back("valley fold at " + words::listed(valleys));
  return "With the inside up, " + words::listed(out) + ".";
}

std::string burnish(const StepContext& context) {
  const std::string tool = tool_with_the(context.project, Work::Fold);
  return " Burnish the " + words::noun_for(std::ssize(folds_of(context.card)), "fold") +
         (tool.empty() ? " firmly." : " with " + tool + ".");
}

// One fold, or any that needs no direction of its own.
std::string folding_words(const StepContext& context) {
  const Card& card = context.card;
  const std::size_t folds = folds_of(card).size();
  const Score& first = folds_of(card).front();
  using Folding = FormRow::Folding;
  switch (form_row(card.form.kind).folding) {
  case Folding::InHalf: {
    if (folds != 1) break;
    const Size size = card.pieces.front().size;
    const bool middle = alike(first.at * 2, first.vertical ? size.width : size.height);
    return std::string(middle ? "Fold it in half" : "Fold it along the score") +
           ", with the fold at the " + (first.vertical ? "left." : "top.");
  }
  case Folding::Gates:
    if (folds == 2) return "Fold both gates in until they meet in the middle.";
    break;
  case Folding::BackAndForth:
    return std::string("With the inside up, fold it back and forth, starting with a ") +
           (first.mountain ? "mountain" : "valley") + " fold at the left.";
  case Folding::Each:
  case Folding::None: break;
  }
  return directions_words(context);
}

// After other work on the base: its last act in one sentence.
std::string folded_and_burnished(const StepContext& context) {
  std::string words = folding_words(context);
  words.pop_back();
  return words + ", and burnish the fold" + (folds_of(context.card).size() > 1 ? "s." : ".");
}

void say_base(Prose& prose, const StepContext& context, bool named) {
  if (named)
    prose.say("it");
  else
    say_pieces(prose, context, {0});
}

// A tag's corners and hole, when no die cuts them.
void say_tag(Prose& prose, const StepContext& context, bool named) {
  const Piece& base = context.card.pieces.front();
  const Printing& how = context.project.printing;
  const Shape& shape = base.shape;
  if (shape.outline != Shape::Outline::Tag || base.cut == Piece::CutBy::Die) {
    if (named) return;
    prose.say("Begin with ");
    say_base(prose, context, named);
    prose.say(".");
    return;
  }
  prose.say(named ? "Cut off its two top corners" : "Cut off the two top corners of ");
  if (!named) say_base(prose, context, named);
  prose.say(" at 45°, " + length_text(shape.depth, how) + " along each edge.");
  if (punches_hole(base))
    prose.say(" Punch " + words::with_article(length_text(shape.radius * 2, how)) +
              " hole near the top, " +
              std::string(words::terms(context.project.language).centered) + ".");
}

} // namespace

bool has_fold(const Card& card) { return !folds_of(card).empty(); }

Prose base_words(const StepContext& context, bool named) {
  Prose prose;
  if (context.card.pieces.empty()) return prose;
  if (has_fold(context.card)) {
    prose.say("Score ");
    say_base(prose, context, named);
    prose.say(" at " + scores_words(context) + ". " +
              (named ? folded_and_burnished(context) : folding_words(context) + burnish(context)));
  } else if (context.card.form.kind == Form::Kind::Tag) {
    say_tag(prose, context, named);
  } else if (!named) {
    prose.say("Begin with ");
    say_base(prose, context, named);
    prose.say(" and leave it flat.");
  }
  return prose;
}

// Two slits across the fold, three scores between them, and a push from behind.
Prose pop_up_words(const StepContext& context, const PopUp& pop_up) {
  const auto said = [&](Length length) { return length_text(length, context.project.printing); };
  const bool british = words::english_of(context.project.language) == words::English::British;
  Prose prose;
  prose.say("Cut two slits across the fold, " + said(pop_up.width) + " apart, the first " +
            said(pop_up.left) + " from the left.");
  prose.say(" Run each from " + said(pop_up.height) + " above the fold to " + said(pop_up.depth) +
            " below it.");
  prose.say(" Score between their ends, and " + said(pop_up.depth) +
            " below the upper ones; push " +
            (british ? "the box towards you." : "the box toward you."));
  return prose;
}

std::string base_title(const Card& card) {
  if (card.form.kind == Form::Kind::Tag) return "Cut the tag";
  if (!has_fold(card)) return "Begin with the base";
  if (form_row(card.form.kind).folding == FormRow::Folding::Gates) return "Fold the gates";
  return "Fold the base";
}

namespace {

// Collects the things in the order met, each once.
class PartsLine {
 public:
  explicit PartsLine(const Project& project, const Inlines& before = {}) : project_(project) {
    prose_.append(before);
  }

  void piece(const Piece& piece) {
    between();
    if (!piece.letter.empty()) {
      prose_.append(Inlines{PieceLetter{piece.letter}});
      prose_.say("\u00A0");
    }
    prose_.say(piece_noun(piece) + (piece.copies > 1 ? " × " + std::to_string(piece.copies) : ""));
  }
  void thing(const std::string& words) {
    if (words.empty() || std::find(said_.begin(), said_.end(), words) != said_.end()) return;
    said_.push_back(words);
    between();
    prose_.say(words);
  }
  void ink(int ink) {
    if (ink < 0 || std::find(inks_.begin(), inks_.end(), ink) != inks_.end()) return;
    inks_.push_back(ink);
    between();
    prose_.ink(ink);
    const std::string name = item_noun(project_, {ItemKind::Ink, ink});
    prose_.say(name.find("ink") == std::string::npos ? name + " ink" : name);
  }
  void impressions(const std::vector<Impression>& stamped) {
    for (const Impression& one : stamped)
      if (one.image >= 0) thing(image_noun(project_, one.set, one.image) + " stamp");
    for (const Impression& one : stamped)
      for (const int each : one.inks) ink(each);
    for (const Impression& one : stamped) {
      if (one.method == Impression::Method::Sponged) thing("a sponge");
      if (one.method == Impression::Method::SecondGeneration ||
          one.method == Impression::Method::Masked)
        thing("scrap paper");
      if (one.method == Impression::Method::HeatEmbossed) {
        tool(Work::Powder, "embossing powder");
        tool(Work::Heat, "heat tool");
      }
    }
  }
  void tool(Work work, std::string_view otherwise) {
    const std::string found = tool_with_the(project_, work);
    thing(found.empty() ? std::string(otherwise) : found.substr(4)); // without "the "
  }
  Inlines done() const { return prose_.fragment(); }

 private:
  void between() {
    if (!prose_.empty())
      prose_.say(", ");
    else
      prose_.quiet("You need: ");
  }

  const Project& project_;
  Prose prose_;
  std::vector<std::string> said_;
  std::vector<int> inks_;
};

void add_cutting(PartsLine& line, const StepContext& context, const Piece& piece) {
  switch (piece.cut) {
  case Piece::CutBy::Trimmer: return;
  case Piece::CutBy::Die:
    if (!comes_die_cut(context, piece))
      line.thing(item_noun(context.project, {ItemKind::Die, piece.die}));
    return;
  case Piece::CutBy::Punch: line.tool(Work::Punch, "punch"); return;
  case Piece::CutBy::Scissors: line.thing("scissors"); return;
  }
}

void add_finish(PartsLine& line, const Project& project, const Finish& finish) {
  const TechniqueRow& row = technique_row(finish.kind);
  if (!finish.with.empty()) line.thing(finish_tool_words(project, finish));
  line.ink(finish.ink);
  if (!finish.with.empty() && (!row.as_written || row.own_tool_alone)) return;
  if (finish.kind == Finish::Kind::EdgeInked) line.thing("a sponge");
  if (finish.kind == Finish::Kind::CornersRounded) line.tool(Work::Round, "corner rounder");
  if (const WorkRow& work = work_row(row.work); row.as_written && !work.tool.empty())
    line.tool(row.work, in_sentence(work.tool));
}

void add_preparing(PartsLine& line, const StepContext& context, const Piece& piece,
                   PieceActs acts) {
  std::vector<Impression> stamped;
  for (const PieceAct& act : acts) {
    switch (act.kind) {
    case PieceAct::Kind::Cut: add_cutting(line, context, piece); break;
    case PieceAct::Kind::Window: {
      const int die = piece.windows.at(act.index).die;
      if (piece.windows.at(act.index).notch != Window::Notch::None)
        line.tool(Work::Punch, "punch");
      else if (die < 0)
        line.thing("a knife, ruler and mat");
      else if (!context.ready.die_cut)
        line.thing(item_noun(context.project, {ItemKind::Die, die}));
      break;
    }
    case PieceAct::Kind::Score: break;
    case PieceAct::Kind::Stamp: stamped.push_back(piece.stamped.at(act.index)); break;
    case PieceAct::Kind::Round:
    case PieceAct::Kind::Finish: break;
    }
  }
  if (!comes_stamped(context, piece)) line.impressions(stamped);
  for (const PieceAct& act : acts)
    if (act.kind == PieceAct::Kind::Round || act.kind == PieceAct::Kind::Finish)
      add_finish(line, context.project, piece.finishes.at(act.index));
}

} // namespace

Inlines piece_parts(const StepContext& context, const StepPieces& pieces, PieceActs acts,
                    bool fixed) {
  PartsLine line(context.project);
  for (const int index : pieces)
    if (const Piece* piece = piece_at(context.card, index)) line.piece(*piece);
  const Piece& piece = first_of(context, pieces);
  add_preparing(line, context, piece, acts);
  if (fixed) line.thing(adhesive_words(context, pieces));
  if (piece.role == Piece::Role::Base && has_fold(context.card)) {
    line.tool(Work::Score, "");
    line.tool(Work::Fold, "");
  }
  if (punches_hole(piece)) line.tool(Work::Hole, "hole punch");
  return line.done();
}

Inlines own_parts(const StepContext& context, const AuthorStep& own, const Inlines& before) {
  PartsLine line(context.project, before);
  for (const ItemRef item : own.uses) {
    if (item.kind == ItemKind::Ink)
      line.ink(item.index);
    else
      line.thing(item_noun(context.project, item));
  }
  return line.done();
}

Inlines ribbon_parts(const StepContext& context, const RibbonUse& use) {
  PartsLine line(context.project);
  line.thing(ribbon_part(context.project, use));
  if (use.adhesive >= 0) line.thing(item_noun(context.project, {ItemKind::Adhesive, use.adhesive}));
  return line.done();
}

Inlines embellishment_parts(const StepContext& context, const EmbellishmentUse& use) {
  PartsLine line(context.project);
  line.thing(embellishment_part(context.project, use));
  return line.done();
}

Inlines stamping_parts(const StepContext& context, const std::vector<Impression>& stamped) {
  PartsLine line(context.project);
  line.impressions(stamped);
  return line.done();
}

} // namespace leafwright::guide
