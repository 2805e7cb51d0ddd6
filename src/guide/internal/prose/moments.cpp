#include "guide/internal/prose/step_words.h"

#include "measure/index.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

namespace leafwright::guide {
namespace {

template <class T>
bool within(const std::vector<T>& list, int index) {
  return index >= 0 && as_index(index) < list.size();
}

bool is_known(const Card& card, const Build& build) {
  switch (build.kind) {
  case Build::Kind::Piece: return within(card.pieces, build.index);
  case Build::Kind::Ribbon: return within(card.ribbons, build.index);
  case Build::Kind::Embellishment: return within(card.embellishments, build.index);
  case Build::Kind::Stamping: return within(card.face_stampings, build.index);
  case Build::Kind::Step:
    return within(card.steps, build.index) && card.steps[as_index(build.index)].for_id.empty();
  }
  return false;
}

bool joins(const StepContext& context, const Build& before, const Build& next) {
  const Card& card = context.card;
  const auto at = [](int index) { return as_index(index); };
  if (before.kind == Build::Kind::Piece && next.kind == Build::Kind::Ribbon) {
    const RibbonUse& use = card.ribbons[at(next.index)];
    return use.on == Carrier{Carrier::Kind::Piece, before.index} && is_threaded(card, use) &&
           !author_step_for(card, use.id) &&
           !author_step_for(card, card.pieces[at(before.index)].id);
  }
  if (before.kind != next.kind) return false;
  if (next.kind == Build::Kind::Piece) {
    const Piece& a = card.pieces[at(before.index)];
    const Piece& b = card.pieces[at(next.index)];
    const bool told_by_author = author_step_for(card, a.id) || author_step_for(card, b.id);
    return a.role == Piece::Role::Panel && !told_by_author && made_alike(context, a, b);
  }
  if (next.kind == Build::Kind::Stamping)
    return card.face_stampings[at(before.index)].on == card.face_stampings[at(next.index)].on;
  return false;
}

} // namespace

const AuthorStep* author_step_for(const Card& card, const std::string& id) {
  if (id.empty()) return nullptr;
  const auto found = std::find_if(card.steps.begin(), card.steps.end(),
                                  [&](const AuthorStep& step) { return step.for_id == id; });
  return found == card.steps.end() ? nullptr : &*found;
}

std::vector<Moment> moments_of(const StepContext& context) {
  const Card& card = context.card;
  std::vector<Moment> out;
  const Build* before = nullptr;
  for (std::size_t i = 0; i < card.build.size(); ++i) {
    const Build& build = card.build[i];
    if (!is_known(card, build)) continue;
    if (before && joins(context, *before, build)) {
      out.back().builds.push_back(i);
    } else {
      out.push_back({build.kind, {i}});
    }
    before = &build;
  }
  return out;
}

} // namespace leafwright::guide
