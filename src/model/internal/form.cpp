#include "measure/index.h"
#include "model/card.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace leafwright {

namespace {

constexpr Length none{};
constexpr int most_leaves = 1000; // far beyond paper; keeps a wild number from filling memory

void add_face(FormPlan& plan, std::string id, std::string words, Size size,
              std::vector<Face::Seen> seen) {
  plan.faces.push_back({std::move(id), std::move(words), size, std::move(seen)});
}

void add_opened(FormPlan& plan) {
  add_face(plan, "opened", "the whole inside, opened flat", plan.unfolded,
           {{View::Inside, {none, none}}});
}

// Opened flat, the front of a top-fold card lies above the fold with its inner side up; the part
// below the fold is where one writes.
FormPlan top_fold(Size card) {
  const auto [w, h] = card;
  FormPlan plan;
  plan.unfolded = {w, h * 2};
  plan.scores = {{.vertical = false, .at = h, .mountain = false}};
  plan.front_view = plan.back_view = card;
  plan.inside_view = plan.unfolded;
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  add_face(plan, "inside", "the inside, below the fold", card, {{View::Inside, {none, h}}});
  add_face(plan, "inside-top", "the inside, above the fold", card, {{View::Inside, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
  add_opened(plan);
  return plan;
}

FormPlan side_fold(Size card) {
  const auto [w, h] = card;
  FormPlan plan;
  plan.unfolded = {w * 2, h};
  plan.scores = {{.vertical = true, .at = w, .mountain = false}};
  plan.front_view = plan.back_view = card;
  plan.inside_view = plan.unfolded;
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  add_face(plan, "inside", "the inside, right of the fold", card, {{View::Inside, {w, none}}});
  add_face(plan, "inside-left", "the inside, left of the fold", card,
           {{View::Inside, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
  add_opened(plan);
  return plan;
}

FormPlan gate_fold(Size card) {
  const auto [w, h] = card;
  const Length left = w / 2;
  const Length right = w - left; // an odd nanometre goes to the right gate: together they are W
  FormPlan plan;
  plan.unfolded = {w * 2, h};
  plan.scores = {{.vertical = true, .at = left, .mountain = false},
                 {.vertical = true, .at = left + w, .mountain = false}};
  plan.front_view = plan.back_view = card;
  plan.inside_view = plan.unfolded;
  add_face(plan, "front", "the closed front", card, {{View::Front, {none, none}}});
  add_face(plan, "left", "the left gate", {left, h}, {{View::Front, {none, none}}});
  add_face(plan, "right", "the right gate", {right, h}, {{View::Front, {left, none}}});
  add_face(plan, "inside", "the inside, between the folds", card, {{View::Inside, {left, none}}});
  add_face(plan, "inside-left", "the inside of the left gate", {left, h},
           {{View::Inside, {none, none}}});
  add_face(plan, "inside-right", "the inside of the right gate", {right, h},
           {{View::Inside, {left + w, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
  add_opened(plan);
  return plan;
}

// Opened with its inside up: flap (W/2), middle (W/2), inside (W). The middle folds over the inside
// and the flap back over the middle, so that the closed front shows the flap at the left, unturned,
// and the right half of the inside beside it.
FormPlan z_fold(Size card) {
  const auto [w, h] = card;
  const Length flap = w / 2;
  FormPlan plan;
  plan.unfolded = {w * 2, h};
  plan.scores = {{.vertical = true, .at = flap, .mountain = true},
                 {.vertical = true, .at = w, .mountain = false}};
  plan.front_view = plan.back_view = card;
  plan.inside_view = plan.unfolded;
  add_face(plan, "front", "the closed front", card, {{View::Front, {none, none}}});
  add_face(plan, "flap", "the flap", {flap, h},
           {{View::Front, {none, none}}, {View::Inside, {none, none}}});
  add_face(plan, "middle", "the middle leaf", {w - flap, h}, {{View::Inside, {flap, none}}});
  add_face(plan, "inside", "the inside, right of the folds", card,
           {{View::Inside, {w, none}}, {View::Front, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
  add_opened(plan);
  return plan;
}

// Folds to and fro beginning with a valley, so that it opens as a book does: the front is the
// outside of the first leaf. With an odd number of leaves the last one closes with its inner side
// outwards.
FormPlan accordion(Size card, int leaves) {
  const auto [w, h] = card;
  leaves = std::clamp(leaves == 0 ? 4 : leaves, 2, most_leaves);
  FormPlan plan;
  plan.unfolded = {w * leaves, h};
  plan.front_view = plan.back_view = card;
  plan.inside_view = plan.unfolded;
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  for (int i = 0; i < leaves; ++i) {
    if (i > 0) plan.scores.push_back({.vertical = true, .at = w * i, .mountain = i % 2 == 0});
    std::vector<Face::Seen> seen{{View::Inside, {w * i, none}}};
    if (i == leaves - 1 && leaves % 2 == 1) seen.push_back({View::Back, {none, none}});
    add_face(plan, "leaf-" + std::to_string(i + 1), "leaf " + std::to_string(i + 1), card,
             std::move(seen));
  }
  if (leaves % 2 == 0) add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
  add_opened(plan);
  return plan;
}

FormPlan unfolding_nothing(Size card) {
  FormPlan plan;
  plan.unfolded = plan.front_view = plan.back_view = card;
  add_face(plan, "front", "the front", card, {{View::Front, {none, none}}});
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
  return plan;
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

// Leaves row by row, from the top left.
FormPlan custom(Size card, Size unfolded, std::vector<Score> scores) {
  FormPlan plan;
  plan.unfolded = plan.inside_view = unfolded;
  plan.front_view = plan.back_view = card;
  plan.scores = std::move(scores);
  add_face(plan, "front", "the closed front", card, {{View::Front, {none, none}}});
  const std::vector<Length> x = edges(plan.scores, true, unfolded.width);
  const std::vector<Length> y = edges(plan.scores, false, unfolded.height);
  int number = 0;
  for (std::size_t row = 0; row + 1 < y.size(); ++row)
    for (std::size_t column = 0; column + 1 < x.size() && number < most_leaves; ++column) {
      const std::string n = std::to_string(++number);
      add_face(plan, "leaf-" + n, "leaf " + n, {x[column + 1] - x[column], y[row + 1] - y[row]},
               {{View::Inside, {x[column], y[row]}}});
    }
  add_face(plan, "back", "the back", card, {{View::Back, {none, none}}});
  add_opened(plan);
  return plan;
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

FormPlan plan_of(const Form& form, Size finished, Size unfolded, std::vector<Score> scores) {
  switch (form.kind) {
  case Form::Kind::TopFold:
  case Form::Kind::Tent: return top_fold(finished);
  case Form::Kind::SideFold: return side_fold(finished);
  case Form::Kind::Gate: return gate_fold(finished);
  case Form::Kind::Z: return z_fold(finished);
  case Form::Kind::Accordion: return accordion(finished, form.leaves);
  case Form::Kind::Custom: return custom(finished, unfolded, std::move(scores));
  case Form::Kind::Flat:
  case Form::Kind::Tag: break;
  }
  return unfolding_nothing(finished);
}

std::string form_words(const Form& form) {
  switch (form.kind) {
  case Form::Kind::TopFold: return "top fold";
  case Form::Kind::SideFold: return "side fold";
  case Form::Kind::Tent: return "tent fold";
  case Form::Kind::Gate: return "gate fold";
  case Form::Kind::Z: return "Z fold";
  case Form::Kind::Accordion:
    return "accordion of " + leaves_words(form.leaves == 0 ? 4 : form.leaves);
  case Form::Kind::Flat: return "flat card";
  case Form::Kind::Tag: return "tag";
  case Form::Kind::Custom: break;
  }
  return form.leaves > 0 ? "fold of " + leaves_words(form.leaves) : "fold of its own";
}

} // namespace leafwright
