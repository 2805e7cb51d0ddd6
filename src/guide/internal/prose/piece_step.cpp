#include "guide/internal/prose/step_words.h"

#include "guide/internal/prose/placement.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/carrier.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

bool same_impression(const Impression& a, const Impression& b) {
  return a.set == b.set && a.image == b.image && a.inks == b.inks && a.method == b.method &&
         a.times == b.times && a.fading == b.fading && a.rotation == b.rotation &&
         a.places == b.places;
}

bool same_window(const Window& a, const Window& b) {
  return a.shape == b.shape && a.size == b.size && a.at == b.at && a.die == b.die;
}

bool same_finish(const Finish& a, const Finish& b) {
  return a.kind == b.kind && a.ink == b.ink && a.radius == b.radius && a.with == b.with;
}

template <class T, class Same>
bool same_all(const std::vector<T>& a, const std::vector<T>& b, Same same) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), same);
}

bool same_attach(const Attach& a, const Attach& b) {
  return a.adhesive == b.adhesive && a.raised == b.raised && a.layers == b.layers &&
         a.count == b.count && a.length == b.length && a.where == b.where;
}

bool same_gaps(const StepContext& context, const Piece& a, const Piece& b) {
  const auto gaps = [&](const Piece& piece) {
    return measured_gaps(carrier_size(context.project, context.card, piece.on),
                         {piece.at, piece.size}, piece.rotation);
  };
  const Gaps first = gaps(a);
  const Gaps second = gaps(b);
  return alike(first.left, second.left) && alike(first.top, second.top) &&
         alike(first.right, second.right) && alike(first.bottom, second.bottom);
}

std::vector<std::string> nouns(const StepContext& context, const StepPieces& pieces) {
  std::vector<std::string> out;
  for (const int index : pieces)
    if (const Piece* piece = piece_at(context.card, index)) out.push_back(piece_noun(*piece));
  return out;
}

// Letters in order, each once.
std::vector<std::string> letters(const StepContext& context, const StepPieces& pieces) {
  std::vector<std::string> out;
  for (const int index : pieces) {
    const Piece* piece = piece_at(context.card, index);
    if (piece && !piece->letter.empty() &&
        std::find(out.begin(), out.end(), piece->letter) == out.end())
      out.push_back(piece->letter);
  }
  return out;
}

} // namespace

const Piece& first_of(const StepContext& context, const StepPieces& pieces) {
  return context.card.pieces.at(as_index(pieces.at(0)));
}

int how_many(const StepContext& context, const StepPieces& pieces) {
  int count = 0;
  for (const int index : pieces)
    if (const Piece* piece = piece_at(context.card, index)) count += std::max(1, piece->copies);
  return count;
}

std::string together_noun(const StepContext& context, const StepPieces& pieces,
                          std::string_view adjective) {
  std::string noun = words::listed_together(nouns(context, pieces));
  if (!adjective.empty()) noun = std::string(adjective) + " " + noun;
  const int count = how_many(context, pieces);
  if (pieces.size() == 1 && count > 1) return words::counted(count, noun);
  return noun;
}

void say_pieces(Prose& prose, const StepContext& context, const StepPieces& pieces,
                std::string_view adjective) {
  prose.say("the " + together_noun(context, pieces, adjective));
  const std::vector<std::string> all = letters(context, pieces);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i > 0) prose.say(i + 1 == all.size() ? " and" : ",");
    prose.letter(all[i]);
  }
}

std::string_view pronoun(const StepContext& context, const StepPieces& pieces) {
  const bool many =
      how_many(context, pieces) > 1 || words::is_plural(piece_noun(first_of(context, pieces)));
  return many ? "them" : "it";
}

bool made_alike(const StepContext& context, const Piece& a, const Piece& b) {
  return a.role == b.role && a.stock == b.stock && a.size == b.size && a.shape == b.shape &&
         a.cut == b.cut && a.die == b.die && a.rotation == b.rotation && a.scores == b.scores &&
         a.copies == b.copies && a.on.kind == b.on.kind && a.position.over == b.position.over &&
         same_attach(a.attach, b.attach) && same_all(a.stamped, b.stamped, same_impression) &&
         same_all(a.windows, b.windows, same_window) &&
         same_all(a.finishes, b.finishes, same_finish) && same_gaps(context, a, b);
}

namespace {

bool is_twine(const Project& project, const RibbonUse& use) {
  return use.ribbon >= 0 && as_index(use.ribbon) < project.ribbons.size() &&
         project.ribbons[as_index(use.ribbon)].kind == Ribbon::Kind::Twine;
}

// The last word of its name when that says what it is: "cord".
std::string short_noun(const Project& project, const RibbonUse& use) {
  const std::string name = item_noun(project, {ItemKind::Ribbon, use.ribbon});
  const std::size_t space = name.rfind(' ');
  std::string last = space == std::string::npos ? name : name.substr(space + 1);
  for (const std::string_view known :
       {"ribbon", "twine", "cord", "string", "yarn", "thread", "braid", "lace"})
    if (last == known) return last;
  return is_twine(project, use) ? "twine" : "ribbon";
}

// What is done with the ends: "Tape the ends where they overlap."
std::string fix(const Project& project, const RibbonUse& use, std::string_view ends) {
  const Adhesive* adhesive = find_at(project.adhesives, use.adhesive);
  const std::string what = " " + std::string(ends);
  if (!adhesive) return "Fasten" + what;
  if (adhesive->kind == Adhesive::Kind::Tape) return "Tape" + what;
  if (adhesive->kind == Adhesive::Kind::Glue) return "Glue" + what;
  return "Stick" + what + " with " + item_noun(project, {ItemKind::Adhesive, use.adhesive});
}

// The middle of a flat ribbon, or the line of a twine.
std::string line_words(const StepContext& context, const RibbonUse& use) {
  const std::string at = length_text(use.at, context.project.printing);
  const std::string edge = use.vertical ? " from the left" : " from the top";
  return (is_twine(context.project, use) ? ", " : ", with its middle ") + at + edge;
}

bool has_hole(const Card& card, const Carrier& on) {
  const Piece* piece = on.kind == Carrier::Kind::Piece
                           ? piece_at(card, on.index)
                           : (card.form.kind == Form::Kind::Tag ? piece_at(card, 0) : nullptr);
  return piece && piece->shape.outline == Shape::Outline::Tag && piece->shape.radius > Length{};
}

// Lies on one side only, or goes right round and is tied.
void say_tied(Prose& prose, const StepContext& context, const RibbonUse& use, bool bow) {
  const std::string thing = short_noun(context.project, use);
  if (has_hole(context.card, use.on)) {
    prose.say("Thread it through the hole of ");
    if (use.on.kind == Carrier::Kind::Piece)
      say_carrier(prose, context.card, use.on);
    else
      prose.say("the tag");
    prose.say(bow ? " and tie a bow." : " and knot it.");
  } else if (use.path > Length{}) {
    prose.say(std::string("Tie it in a ") + (bow ? "bow" : "knot") + " around ");
    say_carrier(prose, context.card, use.on);
    prose.say(line_words(context, use) + ".");
  } else {
    prose.say(std::string("Tie it in a ") + (bow ? "bow" : "knot") + " and stick this to ");
    say_carrier(prose, context.card, use.on);
    prose.say(line_words(context, use) + ".");
  }
  prose.say(bow ? " Even the loops and trim the tails at a slant."
                : " Pull it tight and trim the ends of the " + thing + ".");
}

const Embellishment* embellishment_of(const Project& project, const EmbellishmentUse& use) {
  const int index = use.embellishment;
  if (index < 0 || as_index(index) >= project.embellishments.size()) return nullptr;
  return &project.embellishments[as_index(index)];
}

std::string counted_embellishments(const Project& project, const EmbellishmentUse& use) {
  const std::string noun =
      words::singular(item_noun(project, {ItemKind::Embellishment, use.embellishment}));
  return words::counted(static_cast<std::int64_t>(use.places.size()), noun);
}

} // namespace

bool is_threaded(const Card& card, const RibbonUse& use) {
  const bool tied = use.as == RibbonUse::As::Knot || use.as == RibbonUse::As::Bow;
  return tied && use.on.kind == Carrier::Kind::Piece && has_hole(card, use.on);
}

std::string ribbon_part(const Project& project, const RibbonUse& use) {
  return length_text(use.cut(), project.printing) + " of " +
         item_noun(project, {ItemKind::Ribbon, use.ribbon});
}

Prose ribbon_words(const StepContext& context, const RibbonUse& use) {
  const Project& project = context.project;
  Prose prose;
  prose.say("Cut " + ribbon_part(project, use) + ". ");
  switch (use.as) {
  case RibbonUse::As::Band:
    prose.say(use.vertical ? "Lay it down " : "Lay it across ");
    say_carrier(prose, context.card, use.on);
    prose.say(line_words(context, use) + ". ");
    prose.say(use.cut() > use.path ? fix(project, use, "the ends behind the edges") + "."
                                   : fix(project, use, "the ends even with the edges") + ".");
    break;
  case RibbonUse::As::Wrap:
    prose.say("Wrap it around ");
    say_carrier(prose, context.card, use.on);
    prose.say(line_words(context, use) + ". " + fix(project, use, "the ends") +
              (use.on.kind == Carrier::Kind::Face ? " inside." : " at the back."));
    break;
  case RibbonUse::As::Bow: say_tied(prose, context, use, true); break;
  case RibbonUse::As::Knot: say_tied(prose, context, use, false); break;
  }
  return prose;
}

std::string ribbon_title(const Project& project, const RibbonUse& use) {
  const std::string thing = short_noun(project, use);
  switch (use.as) {
  case RibbonUse::As::Band: return "Add the " + thing;
  case RibbonUse::As::Wrap: return "Wrap the " + thing;
  case RibbonUse::As::Bow: return "Tie the bow";
  case RibbonUse::As::Knot: return "Knot the " + thing;
  }
  return "Add the " + thing;
}

Prose embellishment_words(const StepContext& context, const EmbellishmentUse& use) {
  Prose prose;
  const Project& project = context.project;
  const Embellishment* thing = embellishment_of(project, use);
  if (!thing) return prose;
  const Where where{project, context.card, use.on, context.drawn};
  prose.say("Stick " + counted_embellishments(project, use) + " to ");
  say_carrier(prose, context.card, use.on);
  prose.say(arranged_words(where, use.places, thing->size, {}, use.position) + ".");
  return prose;
}

std::string embellishment_title(const Project& project, const EmbellishmentUse& use) {
  const std::string noun = item_noun(project, {ItemKind::Embellishment, use.embellishment});
  return "Add the " + (use.places.size() == 1 ? words::singular(noun) : words::plural(noun));
}

std::string embellishment_part(const Project& project, const EmbellishmentUse& use) {
  return counted_embellishments(project, use);
}

} // namespace leafwright::guide
