#include "guide/internal/prose/step_words.h"

#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "measure/index.h"
#include "model/work.h"

#include <algorithm>
#include <string>
#include <utility>

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
  if (before.kind != next.kind) return false;
  const auto at = [](int index) { return as_index(index); };
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

Works replaced_by(const AuthorStep& own) { return own.instead_of.value_or(usually_replaced()); }

namespace {

class PieceStepWriter {
 public:
  PieceStepWriter(const StepContext& context, std::string anchor)
      : telling_(context), anchor_(std::move(anchor)) {}

  Steps run() {
    for (const Moment& moment : moments_of(telling_)) tell(moment);
    return std::move(steps_);
  }

 private:
  const Card& card() const { return telling_.card; }
  const Build& build(const Moment& moment) const { return card().build[moment.builds.front()]; }

  void tell(const Moment& moment) {
    switch (moment.kind) {
    case Build::Kind::Piece: return tell_pieces(moment);
    case Build::Kind::Ribbon: return tell_ribbon(moment);
    case Build::Kind::Embellishment: return tell_embellishment(moment);
    case Build::Kind::Stamping: return tell_stamping(moment);
    case Build::Kind::Step: return tell_own(moment);
    }
  }

  Step& begin(std::string title, figure::Scene scene) {
    Step step;
    step.number = std::to_string(steps_.steps.size() + 1);
    step.anchor = anchor_ + "-step-" + step.number;
    step.title = std::move(title);
    step.figure = Figure{std::move(scene), {}, Figure::Width::Half};
    return steps_.steps.emplace_back(std::move(step));
  }
  Step& begin_at(std::string title, const Moment& moment) {
    return begin(std::move(title), figure::step(telling_.project, card(), moment.builds));
  }

  static void add_text(Step& step, const Prose& prose) {
    if (!prose.empty()) step.text.push_back(prose.sentence());
  }
  static void add_notices(Step& step, std::vector<Notice> notices) {
    for (Notice& notice : notices) step.notices.push_back(std::move(notice));
  }

  // The author's words in place of ours; title, caution, tip and photograph with them.
  void take_over(Step& step, const AuthorStep& own) const {
    if (!own.title.empty()) step.title = own.title;
    Inlines text = author_text(telling_, own.text);
    if (!text.empty()) step.text = {std::move(text)};
    Inlines caution = author_text(telling_, own.caution);
    if (!caution.empty())
      step.notices.push_back({Notice::Kind::Caution, "Take care.", std::move(caution)});
    Inlines tip = author_text(telling_, own.tip);
    if (!tip.empty()) step.notices.push_back({Notice::Kind::Tip, "Tip.", std::move(tip)});
    if (own.picture >= 0) {
      step.picture = own.picture;
      step.picture_words =
          own.picture_words.empty() ? "Photograph: " + step.title : own.picture_words;
    }
  }

  // What the author's words do not tell stands before them, as it is done; sticking comes last.
  void add_rest(Step& step, const StepPieces& pieces, const AuthorStep& own) const {
    const Works told = replaced_by(own);
    Preparation rest = preparation_beside(telling_, pieces, told);
    add_notices(step, std::move(rest.notices));
    Prose prose = std::move(rest.prose);
    prose.next().append(step.text.front());
    const bool base = first_of(telling_, pieces).role == Piece::Role::Base;
    if (base && !told.has(Work::Fold)) prose.next().append(base_words(telling_, true));
    if (!base && !told.has(Work::Stick)) prose.next().append(fixing(telling_, pieces, true, false));
    step.text.front() = prose.sentence();
  }

  void tell_pieces(const Moment& moment) {
    StepPieces pieces;
    for (const std::size_t index : moment.builds) pieces.push_back(card().build[index].index);
    const Piece& piece = first_of(telling_, pieces);
    if (const AuthorStep* own = author_step_for(card(), piece.id)) {
      Step& step = begin_at(piece_title(telling_, pieces, false), moment);
      Preparation ready = preparation(telling_, pieces, true);
      step.parts = own_parts(telling_, *own, piece_parts(telling_, pieces, Parts::All));
      add_notices(step, std::move(ready.notices));
      take_over(step, *own);
      if (!step.text.empty()) {
        add_rest(step, pieces, *own);
      } else {
        add_text(step, ready.prose);
        add_text(step, fixing(telling_, pieces, ready.named, true));
      }
      return;
    }
    if (piece.role == Piece::Role::Base) return tell_base(moment, pieces);
    const bool apart = needs_own_step(telling_, piece);
    Preparation ready = preparation(telling_, pieces, true);
    if (apart) {
      const auto scene = figure::piece(telling_.project, card(), as_index(pieces.front()));
      Step& first = begin(preparing_title(telling_, pieces), scene);
      first.parts = piece_parts(telling_, pieces, Parts::Preparing);
      add_text(first, ready.prose);
      add_notices(first, std::move(ready.notices));
      Step& second = begin_at(piece_title(telling_, pieces, true), moment);
      second.parts = piece_parts(telling_, pieces, Parts::Fixing);
      add_text(second, fixing(telling_, pieces, false, false));
      return;
    }
    Step& step = begin_at(piece_title(telling_, pieces, false), moment);
    step.parts = piece_parts(telling_, pieces, Parts::All);
    Prose prose = ready.prose;
    prose.next().append(fixing(telling_, pieces, ready.named, true));
    add_text(step, prose);
    add_notices(step, std::move(ready.notices));
  }

  void tell_base(const Moment& moment, const StepPieces& pieces) {
    Preparation ready = preparation(telling_, pieces, true);
    Step& step = begin_at(base_title(card()), moment);
    step.parts = piece_parts(telling_, pieces, Parts::All);
    Prose prose = ready.prose;
    const Prose folding = base_words(telling_, ready.named);
    if (!folding.empty()) prose.next().append(folding);
    add_text(step, prose);
    add_notices(step, std::move(ready.notices));
  }

  void tell_ribbon(const Moment& moment) {
    const RibbonUse& use = card().ribbons[as_index(build(moment).index)];
    Step& step = begin_at(ribbon_title(telling_.project, use), moment);
    step.parts = ribbon_parts(telling_, use);
    add_text(step, ribbon_words(telling_, use));
    if (const AuthorStep* own = author_step_for(card(), use.id)) {
      step.parts = own_parts(telling_, *own, std::move(step.parts));
      take_over(step, *own);
    }
  }

  void tell_embellishment(const Moment& moment) {
    const EmbellishmentUse& use = card().embellishments[as_index(build(moment).index)];
    Step& step = begin_at(embellishment_title(telling_.project, use), moment);
    step.parts = embellishment_parts(telling_, use);
    add_text(step, embellishment_words(telling_, use));
    if (const AuthorStep* own = author_step_for(card(), use.id)) {
      step.parts = own_parts(telling_, *own, std::move(step.parts));
      take_over(step, *own);
    }
  }

  void tell_stamping(const Moment& moment) {
    std::vector<Impression> stamped;
    Carrier on;
    for (const std::size_t index : moment.builds) {
      const auto at = as_index(card().build[index].index);
      stamped.push_back(card().face_stampings[at].impression);
      on = card().face_stampings[at].on;
    }
    Step& step = begin_at(stamping_title(telling_, on), moment);
    step.parts = stamping_parts(telling_, stamped);
    Prose target, prose;
    say_carrier(target, card(), on);
    say_stamping(prose, telling_, on, stamped, target, false);
    add_text(step, prose);
    add_notices(step, stamping_cautions(telling_, stamped));
  }

  void tell_own(const Moment& moment) {
    const AuthorStep& own = card().steps[as_index(build(moment).index)];
    Step& step = begin_at(own.title.empty() ? "Then" : own.title, moment);
    step.parts = own_parts(telling_, own, {});
    take_over(step, own);
  }

  const StepContext& telling_;
  std::string anchor_;
  Steps steps_;
};

} // namespace

Steps steps_of(const StepContext& context, const std::string& anchor) {
  return PieceStepWriter(context, anchor).run();
}

} // namespace leafwright::guide
