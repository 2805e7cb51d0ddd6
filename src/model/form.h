#pragma once

#include "model/card.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

// The forms of fold. A form is one row: all that others ask of it follows from its row and from the
// geometry that its plan gives (leaves, scores, faces, views).
//
//   const FormPlan plan = plan_of({Form::Kind::Gate}, {inches(4, 1, 4), inches(5, 1, 2)});
//   plan.unfolded                          // 8 1/2 x 5 1/2 in, scored at 2 1/8 and 6 3/8
//   form_row(Form::Kind::Gate).word        // "gate", as the project file says it

namespace leafwright {

struct FormRow {
  Form::Kind kind;
  std::string_view word;  // in the project file: "top-fold"
  std::string_view words; // in a sentence: "top fold"
  // How the folding is told; Each: every score with its direction. None: there is no inside.
  enum class Folding { None, InHalf, Gates, BackAndForth, Each } folding;
  enum class Leaves { Fixed, Required, Allowed } leaves; // whether the author says how many
  int usual_leaves;                                      // when they are not said
  int stays; // the leaf that lies still behind the front while the others close over it
  // Fills in what the closed size and the form make of the base; views and leaves follow from it.
  void (*plan)(FormPlan& plan, const Form& form, Size closed);
};

// One row for each, in the order of the enumeration.
std::span<const FormRow> form_rows();
const FormRow& form_row(Form::Kind kind);

// From the finished (closed) size. Common practice: top-fold W x 2H scored at H; side-fold 2W x H
// at W; gate 2W x H at W/2 and 3W/2; Z 2W x H at W/2 and W; accordion n W x H at each W. Custom
// takes `unfolded` and `scores` as given and names its faces leaf-1 ... in order.
FormPlan plan_of(const Form& form, Size finished, Size unfolded = {},
                 std::vector<Score> scores = {});
std::string form_words(const Form& form); // "top fold", "gate fold", "accordion of four leaves"

// The index of a face by its id; -1 when the form has none of that name.
int face_index(const FormPlan& plan, std::string_view id);

// A box on the unfolded base, wholly on `leaf`, where it lies when the card is closed.
Rect folded(const Leaf& leaf, Rect on_base);
// The leaf of the closed front that ends before its right edge does, as the left gate and the flap
// of a Z fold do: there the front opens. Nothing when the front is one leaf.
std::optional<Length> opening_edge(const FormPlan& plan);

// Whether the closed front leaves a part of what lies behind it free, to the right or below.
bool leaves_part_free(const FormPlan& plan);

// What lies behind a box on a face of the closed front: the inner side of the leaf, seen from
// inside. Nothing where the face is not the outer side of one leaf.
struct Behind {
  int face = -1; // of the plan
  Rect box;
};
std::optional<Behind> behind(const FormPlan& plan, const Face& face, Rect box);

// Where a piece is scored: a base without scores of its own has those of its card's form.
inline const std::vector<Score>& scores_of(const Card& card, const Piece& piece) {
  const bool of_form = piece.role == Piece::Role::Base && piece.scores.empty();
  return of_form ? card.plan.scores : piece.scores;
}

} // namespace leafwright
