#include "model/pop_up.h"

#include <string>
#include <utility>

namespace leafwright {

std::optional<Length> pop_up_fold(const Card& card) {
  const bool opens_upwards =
      card.form.kind == Form::Kind::TopFold || card.form.kind == Form::Kind::Tent;
  if (!opens_upwards || card.plan.scores.size() != 1) return std::nullopt;
  return card.plan.scores.front().at;
}

Rect pop_up_cut(const Card& card, const PopUp& pop_up) {
  const Length fold = pop_up_fold(card).value_or(Length{});
  return {{pop_up.left, fold - pop_up.height}, {pop_up.width, pop_up.height + pop_up.depth}};
}

Rect pop_up_front(const Card& card, const PopUp& pop_up) {
  const Rect cut = pop_up_cut(card, pop_up);
  return {{cut.left(), cut.top() + pop_up.depth}, {pop_up.width, pop_up.height}};
}

Rect pop_up_folded(const PopUp& pop_up, Rect on_front) {
  return {
      {pop_up.left + on_front.left(), reach_when_closed(pop_up, pop_up.height - on_front.bottom())},
      on_front.size};
}

void add_pop_up(Card& card, PopUp pop_up) {
  const Rect front = pop_up_front(card, pop_up);
  pop_up.face = static_cast<int>(card.plan.faces.size());
  card.plan.faces.push_back(
      {pop_up.id, "the front of the pop-up", front.size, {{View::Inside, front.origin}}});
  card.pop_ups.push_back(std::move(pop_up));
}

} // namespace leafwright
