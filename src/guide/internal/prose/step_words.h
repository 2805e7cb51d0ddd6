#pragma once

#include "guide/internal/prose/placement.h"
#include "guide/prose.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace leafwright::guide {

// How the base becomes a card: scored, folded, burnished, or cut when it has no fold.
// `named`: the base has been named in this step already.
Prose base_words(const StepContext& context, bool named);
// How a box that stands up is cut from it.
Prose pop_up_words(const StepContext& context, const PopUp& pop_up);
Notice knife_caution();
std::string base_title(const Card& card); // "Fold the base", "Fold the gates", "Cut the tag"
bool has_fold(const Card& card);

// One piece, or several that are made alike and told together: both panels of a gate.
using StepPieces = std::vector<int>; // indices into the card's pieces, at least one

const Piece& first_of(const StepContext& context, const StepPieces& pieces);
int how_many(const StepContext& context, const StepPieces& pieces); // copies counted
// "left and right gate panels"; "three die-cut tags" with a word for what they are.
std::string together_noun(const StepContext& context, const StepPieces& pieces,
                          std::string_view adjective = {});
// "the dotted mat (C)", "the three tags (K)"; its size stands in the drawing and the cut list.
void say_pieces(Prose& prose, const StepContext& context, const StepPieces& pieces,
                std::string_view adjective = {});
// "it" or "them"; "its" or "their"
std::string_view pronoun(const StepContext& context, const StepPieces& pieces);

// Pieces of the same stock, size, outline and treatment, lying in the same way on their carriers.
bool made_alike(const StepContext& context, const Piece& a, const Piece& b);

// How a piece comes onto what carries it: "Tape the dotted mat (C) to the front, with 1/8 in of
// kraft all around." `named`: it has been named in this step already.
Prose fixing(const StepContext& context, const StepPieces& pieces, bool named);

// The adhesive as a thing to have at hand: "tape", "four foam squares"; empty when nothing sticks.
std::string adhesive_words(const StepContext& context, const StepPieces& pieces);

// Whether what carries the piece is seen all round it, nothing else lying between.
bool surface_shows(const Card& card, int piece);

// What is told in one breath: one entry of the build, or several that are alike and follow each
// other (both panels of a gate; images stamped straight onto one side); a piece with the cord that
// is threaded through it.
struct Moment {
  Build::Kind kind = Build::Kind::Piece;
  std::vector<std::size_t> builds; // indices into Card::build, in order
};

// Every entry of the build in exactly one moment, in the author's order. Entries of Kind::Step that
// replace the telling of a thing are left out: `author_step_for` finds them.
std::vector<Moment> moments_of(const StepContext& context);

// The author's own telling of the thing with this id, or nullptr.
const AuthorStep* author_step_for(const Card& card, const std::string& id);

// One thing that is done to a piece before it is fixed.
struct PieceAct {
  enum class Kind { Cut, Round, Window, Score, Stamp, Finish };
  Kind kind = Kind::Cut;
  std::size_t index = 0; // of the window, the image or the finish
};
using PieceActs = std::span<const PieceAct>;
// What a technique is done with, as the author named it: a tool of the project by its name.
std::string finish_tool_words(const Project& project, const Finish& finish);
// In the order of the hands; the cutting is always the first.
std::vector<PieceAct> acts_on(const Piece& piece);

// The line of what a step takes: "(C) dotted mat, tape runner".

// What these acts on the piece take, and what fixes it when `fixed`.
Inlines piece_parts(const StepContext& context, const StepPieces& pieces, PieceActs acts,
                    bool fixed);
// What an author's step uses, behind what stands in the line already.
Inlines own_parts(const StepContext& context, const AuthorStep& own, const Inlines& before);
Inlines ribbon_parts(const StepContext& context, const RibbonUse& use);
Inlines embellishment_parts(const StepContext& context, const EmbellishmentUse& use);
Inlines stamping_parts(const StepContext& context, const std::vector<Impression>& stamped);

// What is done to a piece before it is fixed: cut with a die, windows, stamping, edges.
struct Preparation {
  Prose prose;
  std::vector<Notice> notices;
  bool named = false;                 // its name and letter have been said
  std::vector<std::size_t> sentences; // of each act, none for what comes done
};
Preparation preparation(const StepContext& context, const StepPieces& pieces);
// Some of the acts, told in a step of their own: the piece is named anew.
Preparation preparation(const StepContext& context, const StepPieces& pieces, PieceActs acts);

// The sentences of the preparation less the work that the author's own words tell.
Preparation preparation_beside(const StepContext& context, const StepPieces& pieces, Works told);
// The work of which the author's own words for a piece take the place.
Works replaced_by(const AuthorStep& own);

// The card as its steps tell it: two impressions that mirror each other are one stamping, "at left
// and right", however they were written.
Card with_pairs(const Project& project, const Card& card);

// What a buyer of these parts does not do: it is done when they come.
bool comes_die_cut(const StepContext& context, const Piece& piece);
bool comes_stamped(const StepContext& context, const Piece& piece);

// Slow work that deserves a step and a drawing of its own, however few its words.
bool needs_own_step(const StepContext& context, const Piece& piece);
// The full-size guides of all cards, and the outline to trace of one piece that is cut with
// scissors.
inline constexpr const char* templates_anchor = "templates";
inline std::string outline_anchor(const Card& card, const Piece& piece) {
  return "card-" + card.id + "-outline-" + piece.id;
}
// Whether a piece has a full-size outline: shaped, and cut by neither die nor punch.
bool is_traced(const Piece& piece);

// How many prints an impression leaves.
int prints(const Impression& impression);

// The sentences of everything stamped on one thing, each method in its own words. `target` is what
// is stamped on, as the first sentence names it: "the tree panel (D)". `several`
// things are stamped alike: "on each". `on` is for the distances.
void say_stamping(Prose& prose, const StepContext& context, const Carrier& on,
                  const std::vector<Impression>& stamped, const Prose& target, bool several);
// Those of one of them. `target` is empty where the sentences before have named it.
void say_impression(Prose& prose, const StepContext& context, const Carrier& on,
                    const std::vector<Impression>& stamped, std::size_t index, const Prose& target,
                    bool several);

// What the reader must not overlook: hot tools, wet ink.
std::vector<Notice> stamping_cautions(const StepContext& context,
                                      const std::vector<Impression>& stamped);

// Short titles of steps: "Add the dotted mat", "Raise the label".

// `prepared`: an earlier step has stamped or cut it.
std::string piece_title(const StepContext& context, const StepPieces& pieces, bool prepared);
std::string preparing_title(const StepContext& context, const StepPieces& pieces);
std::string finishing_title(const StepContext& context, const StepPieces& pieces);
std::string stamping_title(const StepContext& context, const Carrier& on);

// Ribbon, twine and embellishments.

Prose ribbon_words(const StepContext& context, const RibbonUse& use);
std::string ribbon_title(const Project& project, const RibbonUse& use); // "Wrap the ribbon"
// Whether it is tied through the hole of a piece: while that is in the hand, before it is stuck.
bool is_threaded(const Card& card, const RibbonUse& use);
std::string ribbon_part(const Project& project, const RibbonUse& use); // "9 1/2 in of ..."

Prose embellishment_words(const StepContext& context, const EmbellishmentUse& use);
std::string embellishment_title(const Project& project, const EmbellishmentUse& use);
std::string embellishment_part(const Project& project, const EmbellishmentUse& use);

} // namespace leafwright::guide
