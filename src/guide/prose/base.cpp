#include "guide/prose/base.h"

#include "guide/prose/pieces.h"
#include "guide/prose/where.h"
#include "guide/words/count.h"
#include "guide/words/list.h"
#include "model/scores.h"

#include <vector>

namespace leafwright::guide {
namespace {

const std::vector<Score>& folds_of(const Card& card) {
  return card.pieces.empty() ? card.plan.scores : scores_of(card, card.pieces.front());
}

// "5 1/2 in from the top edge", "2 1/8 in and 6 3/8 in from the left edge"
std::string scores_words(const Telling& telling) {
  std::vector<std::string> from_left, from_top;
  for (const Score& score : folds_of(telling.card))
    (score.vertical ? from_left : from_top)
        .push_back(length_text(score.at, telling.project.printing));
  std::vector<std::string> out;
  if (!from_left.empty()) out.push_back(words::listed(from_left) + " from the left edge");
  if (!from_top.empty()) out.push_back(words::listed(from_top) + " from the top edge");
  return words::listed(out);
}

// "With the inside facing you, fold the score at 2 1/8 in away from you (a mountain) and the score
// at 4 1/4 in towards you (a valley)"
std::string directions_words(const Telling& telling) {
  std::vector<std::string> mountains, valleys;
  for (const Score& score : folds_of(telling.card))
    (score.mountain ? mountains : valleys)
        .push_back(length_text(score.at, telling.project.printing));
  const auto part = [](const std::vector<std::string>& at, std::string_view way,
                       std::string_view kind) {
    const bool one = at.size() == 1;
    return std::string(one ? "the score at " : "the scores at ") + words::listed(at) + " " +
           std::string(way) + " (" + (one ? "a " : "") + std::string(kind) + (one ? "" : "s") + ")";
  };
  std::vector<std::string> out;
  if (!mountains.empty()) out.push_back(part(mountains, "away from you", "mountain"));
  if (!valleys.empty()) out.push_back(part(valleys, "towards you", "valley"));
  return "With the inside facing you, fold " + words::listed(out);
}

std::string burnish(const Telling& telling, bool several) {
  const std::string tool = tool_with_the(telling.project, "bone folder");
  return std::string("burnish the fold") + (several ? "s" : "") +
         (tool.empty() ? " firmly" : " with " + tool);
}

std::string closed_size(const Telling& telling) {
  return size_text(telling.card.finished, telling.project.printing, true);
}

void say_grain(Prose& prose, bool several) {
  prose.say(several ? " Folds are cleanest along the grain."
                    : " A fold is cleanest along the grain.");
}

// One fold in the middle.
void say_single(Prose& prose, const Telling& telling, std::string_view joint,
                std::string_view where_the_fold_is) {
  const auto& scores = folds_of(telling.card);
  const Size size = telling.card.pieces.front().size;
  const bool vertical = scores.front().vertical;
  const Length whole = vertical ? size.width : size.height;
  const bool middle = alike(scores.front().at * 2, whole);
  prose.say(joint).say(middle ? "across the middle, " : "at ");
  prose.say(scores_words(telling) + ".");
  prose.say(middle ? " Fold it in half along the score" : " Fold it along the score");
  prose.say(" and " + burnish(telling, false) + ": " + std::string(where_the_fold_is) + ".");
  say_grain(prose, false);
}

// `joint` stands before the place of the scores: a comma after the size of the base, or a blank.
void say_folding(Prose& prose, const Telling& telling, std::string_view joint) {
  const Card& card = telling.card;
  const std::size_t folds = folds_of(card).size();
  switch (card.form.kind) {
  case Form::Kind::TopFold:
    if (folds == 1) return say_single(prose, telling, joint, "the fold is at the top");
    break;
  case Form::Kind::SideFold:
    if (folds == 1) return say_single(prose, telling, joint, "the fold is at the left");
    break;
  case Form::Kind::Tent:
    if (folds == 1)
      return say_single(prose, telling, joint,
                        "the card stands on its two lower edges, the fold at the top");
    break;
  case Form::Kind::Gate:
    if (folds == 2) {
      prose.say(joint).say("at " + scores_words(telling) +
                           ". Fold both gates inwards until their edges meet in "
                           "the middle, and " +
                           burnish(telling, true) + ".");
      return say_grain(prose, true);
    }
    break;
  case Form::Kind::Accordion:
    prose.say(joint).say("at " + scores_words(telling) + ". " + directions_words(telling) +
                         ", so that it folds to and fro and opens like a book; " +
                         burnish(telling, folds > 1) + ".");
    return say_grain(prose, folds > 1);
  case Form::Kind::Z:
  case Form::Kind::Custom:
  case Form::Kind::Flat:
  case Form::Kind::Tag: break;
  }
  prose.say(joint).say("at " + scores_words(telling) + ". " + directions_words(telling) + "; " +
                       burnish(telling, folds > 1) + ". Closed, the card measures " +
                       closed_size(telling) + ".");
  say_grain(prose, folds > 1);
}

void say_base(Prose& prose, const Telling& telling, bool named) {
  if (named)
    prose.say("it");
  else
    say_pieces(prose, telling, {0}, true);
}

// A tag's corners and hole, when no die cuts them.
void say_tag(Prose& prose, const Telling& telling, bool named) {
  const Piece& base = telling.card.pieces.front();
  const Printing& how = telling.project.printing;
  const Shape& shape = base.shape;
  if (shape.outline != Shape::Outline::Tag || base.cut == Piece::CutBy::Die) {
    if (named) return;
    prose.say("Take ");
    say_base(prose, telling, named);
    prose.say(": it has no fold.");
    return;
  }
  if (!named) {
    prose.say("Take ");
    say_base(prose, telling, named);
    prose.say(". ");
  }
  prose.say("Cut off its two upper corners at 45°, " + length_text(shape.depth, how) +
            " along each edge");
  if (shape.radius > Length{})
    prose.say(", and punch a hole " + length_text(shape.radius * 2, how) +
              " across near the top, centred");
  prose.say(".");
}

} // namespace

bool has_fold(const Card& card) { return !folds_of(card).empty(); }

Prose base_words(const Telling& telling, bool named) {
  Prose prose;
  if (telling.card.pieces.empty()) return prose;
  if (has_fold(telling.card)) {
    prose.say("Score ");
    say_base(prose, telling, named);
    say_folding(prose, telling, named ? " " : ", ");
  } else if (telling.card.form.kind == Form::Kind::Tag) {
    say_tag(prose, telling, named);
  } else if (!named) {
    prose.say("Take ");
    say_base(prose, telling, named);
    prose.say(": this card is flat, without a fold.");
  }
  return prose;
}

std::string base_title(const Card& card) {
  if (card.form.kind == Form::Kind::Tag) return "Cut the tag";
  if (!has_fold(card)) return "Begin with the base";
  if (card.form.kind == Form::Kind::Gate) return "Fold the gates";
  return "Fold the base";
}

} // namespace leafwright::guide
