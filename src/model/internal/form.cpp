#include "model/form.h"

#include "measure/index.h"

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright {

namespace {

constexpr Length none{};
constexpr int most_leaves = 1000; // far beyond paper; keeps a mistyped number from filling memory

void add_face(FormPlan& plan, std::string id, std::string words, Size size,
              std::vector<Face::Seen> seen) {
  plan.faces.push_back({std::move(id), std::move(words), size, std::move(seen)});
}

// Opened flat, the front of a top-fold card lies above the fold with its inner side up; the part
// below the fold is where one writes.
void top_fold(FormPlan& plan, const Form&, Size card) {
  const auto [w, h] = card;
  plan.unfolded = {w, h * 2};
  plan.scores = {{.vertical = false, .at = h, .mountain = false}};
  plan.front_leaves = {0};
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  add_face(plan, "inside", "the inside, below the fold", card, {{View::Inside, {none, h}}});
  add_face(plan, "inside-top", "the inside, above the fold", card, {{View::Inside, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

void side_fold(FormPlan& plan, const Form&, Size card) {
  const auto [w, h] = card;
  plan.unfolded = {w * 2, h};
  plan.scores = {{.vertical = true, .at = w, .mountain = false}};
  plan.front_leaves = {0};
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  add_face(plan, "inside", "the inside, right of the fold", card, {{View::Inside, {w, none}}});
  add_face(plan, "inside-left", "the inside, left of the fold", card,
           {{View::Inside, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

void gate_fold(FormPlan& plan, const Form&, Size card) {
  const auto [w, h] = card;
  const Length left = w / 2;
  const Length right = w - left; // an odd nanometre goes to the right gate: together they are W
  plan.unfolded = {w * 2, h};
  plan.scores = {{.vertical = true, .at = left, .mountain = false},
                 {.vertical = true, .at = left + w, .mountain = false}};
  plan.front_leaves = {0, 2};
  add_face(plan, "front", "the closed front", card, {{View::Front, {none, none}}});
  add_face(plan, "left", "the left gate", {left, h}, {{View::Front, {none, none}}});
  add_face(plan, "right", "the right gate", {right, h}, {{View::Front, {left, none}}});
  add_face(plan, "inside", "the inside, between the folds", card, {{View::Inside, {left, none}}});
  add_face(plan, "inside-left", "the inside of the left gate", {left, h},
           {{View::Inside, {none, none}}});
  add_face(plan, "inside-right", "the inside of the right gate", {right, h},
           {{View::Inside, {left + w, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

// Opened with its inside up: flap (W/2), middle (W/2), inside (W). The middle folds over the inside
// and the flap back over the middle, so that the closed front shows the flap at the left, unturned,
// and the right half of the inside beside it.
void z_fold(FormPlan& plan, const Form&, Size card) {
  const auto [w, h] = card;
  const Length flap = w / 2;
  plan.unfolded = {w * 2, h};
  plan.scores = {{.vertical = true, .at = flap, .mountain = true},
                 {.vertical = true, .at = w, .mountain = false}};
  plan.front_leaves = {0};
  add_face(plan, "front", "the closed front", card, {{View::Front, {none, none}}});
  add_face(plan, "flap", "the flap", {flap, h},
           {{View::Front, {none, none}}, {View::Inside, {none, none}}});
  add_face(plan, "middle", "the middle leaf", {w - flap, h}, {{View::Inside, {flap, none}}});
  add_face(plan, "inside", "the inside, right of the folds", card,
           {{View::Inside, {w, none}}, {View::Front, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

// A standing card: a top fold whose front is folded back on itself halfway. Opened with its inside
// up: flap (H/2), leg (H/2), inside (H). The leg folds over the inside and the flap back over the
// leg; a panel as large as the card is glued to the flap alone.
void easel_fold(FormPlan& plan, const Form&, Size card) {
  const auto [w, h] = card;
  const Length flap = h / 2;
  plan.unfolded = {w, h * 2};
  plan.scores = {{.vertical = false, .at = flap, .mountain = true},
                 {.vertical = false, .at = h, .mountain = false}};
  plan.front_leaves = {0};
  add_face(plan, "front", "the closed front", card, {{View::Front, {none, none}}});
  add_face(plan, "flap", "the flap", {w, flap},
           {{View::Front, {none, none}}, {View::Inside, {none, none}}});
  add_face(plan, "leg", "the leg", {w, h - flap}, {{View::Inside, {none, flap}}});
  add_face(plan, "inside", "the inside, below the folds", card,
           {{View::Inside, {none, h}}, {View::Front, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

// Folds to and fro beginning with a valley, so that it opens as a book does: the front is the
// outside of the first leaf. With an odd number of leaves the last one closes with its inner side
// outwards.
void accordion(FormPlan& plan, const Form& form, Size card) {
  const auto [w, h] = card;
  const int leaves = std::clamp(form.leaves, 2, most_leaves);
  plan.unfolded = {w * leaves, h};
  plan.front_leaves = {0};
  plan.leaves_behind = std::min(leaves - 1, 3);
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  for (int i = 0; i < leaves; ++i) {
    if (i > 0) plan.scores.push_back({.vertical = true, .at = w * i, .mountain = i % 2 == 0});
    std::vector<Face::Seen> seen{{View::Inside, {w * i, none}}};
    if (i == leaves - 1 && leaves % 2 == 1) seen.push_back({View::Back, {none, none}});
    add_face(plan, "leaf-" + std::to_string(i + 1), "leaf " + std::to_string(i + 1), card,
             std::move(seen));
  }
  if (leaves % 2 == 0) add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

void unfolding_nothing(FormPlan& plan, const Form&, Size card) {
  plan.unfolded = card;
  plan.leaves_behind = 0;
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

// Edges of the leaves along one direction: 0, the scores in order, the far edge.
std::vector<Length> edges(const std::vector<Score>& scores, bool vertical, Length whole) {
  std::vector<Length> at{none};
  for (const Score& score : scores)
    if (score.vertical == vertical && score.at > none && score.at < whole) at.push_back(score.at);
  at.push_back(whole);
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return at;
}

// Its size and scores are given. Leaves row by row, from the top left.
void custom(FormPlan& plan, const Form&, Size card) {
  add_face(plan, "front", "the closed front", card, {{View::Front, {none, none}}});
  const std::vector<Length> x = edges(plan.scores, true, plan.unfolded.width);
  const std::vector<Length> y = edges(plan.scores, false, plan.unfolded.height);
  int number = 0;
  for (std::size_t row = 0; row + 1 < y.size(); ++row)
    for (std::size_t column = 0; column + 1 < x.size() && number < most_leaves; ++column) {
      const std::string n = std::to_string(++number);
      add_face(plan, "leaf-" + n, "leaf " + n, {x[column + 1] - x[column], y[row + 1] - y[row]},
               {{View::Inside, {x[column], y[row]}}});
    }
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
}

constexpr std::array form_table = [] {
  using Kind = Form::Kind;
  using Folding = FormRow::Folding;
  using Leaves = FormRow::Leaves;
  return std::array{
      FormRow{Kind::TopFold, "top-fold", "top fold", Folding::InHalf, Leaves::Fixed, 0, 1,
              top_fold},
      FormRow{Kind::SideFold, "side-fold", "side fold", Folding::InHalf, Leaves::Fixed, 0, 1,
              side_fold},
      FormRow{Kind::Tent, "tent", "tent fold", Folding::InHalf, Leaves::Fixed, 0, 1, top_fold},
      FormRow{Kind::Gate, "gate", "gate fold", Folding::Gates, Leaves::Fixed, 0, 1, gate_fold},
      FormRow{Kind::Z, "z", "Z fold", Folding::Each, Leaves::Fixed, 0, 2, z_fold},
      FormRow{Kind::Accordion, "accordion", "accordion", Folding::BackAndForth, Leaves::Required, 4,
              1, accordion},
      FormRow{Kind::Flat, "flat", "flat card", Folding::None, Leaves::Fixed, 0, 0,
              unfolding_nothing},
      FormRow{Kind::Tag, "tag", "tag", Folding::None, Leaves::Fixed, 0, 0, unfolding_nothing},
      FormRow{Kind::Easel, "easel", "easel fold", Folding::Each, Leaves::Fixed, 0, 2, easel_fold},
      FormRow{Kind::Custom, "custom", "fold", Folding::Each, Leaves::Allowed, 0, 0, custom},
  };
}();

constexpr bool in_order_of_form() {
  for (std::size_t i = 0; i < form_table.size(); ++i)
    if (form_table[i].kind != static_cast<Form::Kind>(i)) return false;
  return true;
}
static_assert(in_order_of_form());

// One direction of folding: the part between two neighbouring edges and its mapping.
struct Part {
  Length from{}, to{};
  int sign = 1;
  Length by{};
};

// Reflected outwards from the part that stays: over the edge at X, x goes to 2 X - x first.
std::vector<Part> parts_along(const FormPlan& plan, bool vertical, int stays) {
  const std::vector<Length> at =
      edges(plan.scores, vertical, vertical ? plan.unfolded.width : plan.unfolded.height);
  std::vector<Part> parts;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) parts.push_back({at[i], at[i + 1]});
  if (parts.empty()) return parts;
  const std::size_t fixed = std::min(as_index(stays), parts.size() - 1);
  parts[fixed].by = -parts[fixed].from;
  const auto reflect = [&](std::size_t known, std::size_t next, Length edge) {
    parts[next].sign = -parts[known].sign;
    parts[next].by = parts[known].by + 2 * edge * parts[known].sign;
  };
  for (std::size_t i = fixed + 1; i < parts.size(); ++i) reflect(i - 1, i, parts[i].from);
  for (std::size_t i = fixed; i-- > 0;) reflect(i + 1, i, parts[i].to);
  return parts;
}

// The leaves between the scores, folded flat one onto the other.
std::vector<Leaf> leaves_of(const FormPlan& plan, int stays) {
  const std::vector<Part> across = parts_along(plan, true, stays);
  const std::vector<Part> down = parts_along(plan, false, stays);
  std::vector<Leaf> leaves;
  Point least; // a fold of its own may reach left of or above the leaf that stays
  for (const Part& y : down)
    for (const Part& x : across) {
      if (leaves.size() == as_index(most_leaves)) break;
      const Rect cell{{x.from, y.from}, {x.to - x.from, y.to - y.from}};
      leaves.push_back({cell, x.sign, y.sign, {x.by, y.by}});
      const Rect lies = folded(leaves.back(), cell);
      least = {std::min(least.x, lies.left()), std::min(least.y, lies.top())};
    }
  for (Leaf& leaf : leaves) leaf.by = leaf.by - least;
  return leaves;
}

std::string leaves_words(int leaves) {
  static constexpr std::array<std::string_view, 13> words{
      "no",    "one",   "two",  "three", "four",   "five",  "six",
      "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  const std::string count = leaves >= 0 && leaves < static_cast<int>(words.size())
                                ? std::string(words.at(as_index(leaves)))
                                : std::to_string(leaves);
  return count + (leaves == 1 ? " leaf" : " leaves");
}

} // namespace

std::span<const FormRow> form_rows() { return form_table; }
const FormRow& form_row(Form::Kind kind) { return form_table.at(static_cast<std::size_t>(kind)); }

FormPlan plan_of(const Form& form, Size finished, Size unfolded, std::vector<Score> scores) {
  const FormRow& row = form_row(form.kind);
  FormPlan plan;
  if (form.kind == Form::Kind::Custom) {
    plan.unfolded = unfolded;
    plan.scores = std::move(scores);
  }
  row.plan(plan, {form.kind, form.leaves == 0 ? row.usual_leaves : form.leaves}, finished);
  plan.leaves = leaves_of(plan, row.stays);
  plan.front_view = plan.back_view = finished;
  if (row.folding == FormRow::Folding::None) return plan;
  plan.inside_view = plan.unfolded;
  add_face(plan, "opened", "the whole inside, opened flat", plan.unfolded,
           {{View::Inside, {none, none}}});
  return plan;
}

std::string form_words(const Form& form) {
  const FormRow& row = form_row(form.kind);
  std::string words(row.words);
  if (row.leaves == FormRow::Leaves::Fixed) return words;
  const int leaves = form.leaves == 0 ? row.usual_leaves : form.leaves;
  return words + (leaves > 0 ? " of " + leaves_words(leaves) : " of its own");
}

int face_index(const FormPlan& plan, std::string_view id) {
  const auto found = std::ranges::find(plan.faces, id, &Face::id);
  return found == plan.faces.end() ? -1 : static_cast<int>(found - plan.faces.begin());
}

Rect folded(const Leaf& leaf, Rect on_base) {
  const Length x = leaf.sign_x > 0 ? on_base.left() + leaf.by.x : leaf.by.x - on_base.right();
  const Length y = leaf.sign_y > 0 ? on_base.top() + leaf.by.y : leaf.by.y - on_base.bottom();
  return {{x, y}, on_base.size};
}

std::optional<Length> opening_edge(const FormPlan& plan) {
  if (plan.front_leaves.empty()) return std::nullopt;
  const Leaf& first = at(plan.leaves, plan.front_leaves.front());
  const Length edge = folded(first, first.on_base).right();
  return edge < plan.front_view.width ? std::optional(edge) : std::nullopt;
}

bool leaves_part_free(const FormPlan& plan) {
  if (plan.front_leaves.size() != 1) return false;
  const Leaf& first = at(plan.leaves, plan.front_leaves.front());
  const Rect lies = folded(first, first.on_base);
  return lies.right() < plan.front_view.width || lies.bottom() < plan.front_view.height;
}

std::optional<Behind> behind(const FormPlan& plan, const Face& face, Rect box) {
  const auto is_seen = [](const Face& one, View view, Rect there) {
    return one.size == there.size && std::ranges::any_of(one.seen, [&](const Face::Seen& seen) {
             return seen.view == view && seen.at == there.origin;
           });
  };
  for (const int index : plan.front_leaves) {
    const Leaf& leaf = at(plan.leaves, index);
    if (!leaf.turned_over() || !is_seen(face, View::Front, folded(leaf, leaf.on_base))) continue;
    for (std::size_t i = 0; i < plan.faces.size(); ++i) {
      if (!is_seen(plan.faces[i], View::Inside, leaf.on_base)) continue;
      if (leaf.sign_x < 0) box.origin.x = face.size.width - box.right();
      if (leaf.sign_y < 0) box.origin.y = face.size.height - box.bottom();
      return Behind{static_cast<int>(i), box};
    }
  }
  return std::nullopt;
}

} // namespace leafwright
