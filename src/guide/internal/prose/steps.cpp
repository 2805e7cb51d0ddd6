#include "guide/internal/prose/step_words.h"

#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "model/work.h"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <numeric>
#include <string>
#include <string_view>
#include <utility>

namespace leafwright::guide {

Works replaced_by(const AuthorStep& own) { return own.instead_of.value_or(usually_replaced()); }

namespace {

constexpr std::size_t most_sentences = 3; // of one step, so that an eye finds its place again

bool says_place(const Inlines& sentence) {
  const std::string words = spoken(sentence);
  return words.find(" from the ") != std::string::npos ||
         words.find(" past the ") != std::string::npos;
}

bool tells_place(const Preparation& made) {
  return std::ranges::any_of(sentences_of(made.prose.fragment()), says_place);
}

// One past the last act of the step that begins with `from`: as many whole acts as it bears.
std::size_t end_of_step(const std::vector<std::size_t>& sentences, std::size_t from) {
  std::size_t to = from, said = 0;
  while (to < sentences.size() && (said == 0 || said + sentences[to] <= most_sentences))
    said += sentences[to++];
  return to;
}

// The piece before `left` is done to it.
Piece as_made(Piece piece, PieceActs left) {
  std::vector<std::size_t> undone;
  for (auto act = left.rbegin(); act != left.rend(); ++act) { // those before keep their numbers
    const auto at = static_cast<std::ptrdiff_t>(act->index);
    if (act->kind == PieceAct::Kind::Stamp) piece.stamped.erase(piece.stamped.begin() + at);
    if (act->kind == PieceAct::Kind::Finish) undone.push_back(act->index);
  }
  std::ranges::sort(undone, std::greater{}); // techniques are not done in the order of their list
  for (const std::size_t index : undone)
    piece.finishes.erase(piece.finishes.begin() + static_cast<std::ptrdiff_t>(index));
  return piece;
}

// The first image that these acts stamp; one past the last when they stamp none.
std::size_t first_image(const Piece& piece, PieceActs acts) {
  const auto found = std::ranges::find(acts, PieceAct::Kind::Stamp, &PieceAct::kind);
  return found == acts.end() ? piece.stamped.size() : found->index;
}

class PieceStepWriter {
 public:
  PieceStepWriter(const StepContext& context, std::string anchor)
      : telling_(context), anchor_(std::move(anchor)) {}

  Steps run() {
    for (const Moment& moment : moments_of(telling_)) {
      const std::size_t first = steps_.steps.size();
      tell(moment);
      for (std::size_t i = first; i < steps_.steps.size(); ++i)
        if (Place& place = steps_.steps[i].place; place.file < 0)
          place = place_of(card(), build(moment));
    }
    return std::move(steps_);
  }

 private:
  const Card& card() const { return telling_.card; }
  const Build& build(const Moment& moment) const { return card().build[moment.builds.front()]; }

  void tell(const Moment& moment) {
    switch (moment.kind) {
    case Build::Kind::Piece:
      tell_pieces(moment);
      if (build(moment).index == 0) tell_pop_ups(moment);
      return;
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
  Step& begin_at(std::string title, const Moment& moment, bool made_here = false) {
    return begin(std::move(title),
                 figure::step(telling_.project, card(), moment.builds, made_here));
  }

  static void add_text(Step& step, const Prose& prose) {
    if (!prose.empty()) step.text.push_back(prose.sentence());
  }
  static void add_notices(Step& step, std::vector<Notice> notices) {
    for (Notice& notice : notices) step.notices.push_back(std::move(notice));
  }

  // The author's words in place of ours; title, caution, tip and photograph with them.
  void take_over(Step& step, const AuthorStep& own) const {
    step.place = own.place;
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
    Prose prose = std::move(rest.prose);
    prose.next().append(step.text.front());
    const bool base = first_of(telling_, pieces).role == Piece::Role::Base;
    if (base && !told.has(Work::Fold)) prose.next().append(base_words(telling_, true));
    if (!base && !told.has(Work::Stick)) prose.next().append(fixing(telling_, pieces, true));
    step.text.front() = prose.sentence();
  }

  void tell_pieces(const Moment& moment) {
    StepPieces pieces;
    std::vector<std::size_t> cords;
    for (const std::size_t index : moment.builds) {
      const Build& one = card().build[index];
      if (one.kind == Build::Kind::Piece)
        pieces.push_back(one.index);
      else
        cords.push_back(as_index(one.index));
    }
    const Piece& piece = first_of(telling_, pieces);
    if (const AuthorStep* own = author_step_for(card(), piece.id)) {
      const bool makes = !replaced_by(*own).has(Work::Stamp) && !comes_stamped(telling_, piece);
      Step& step = begin_at(piece_title(telling_, pieces, false), moment, makes);
      Preparation ready = preparation(telling_, pieces);
      step.parts = own_parts(telling_, *own, piece_parts(telling_, pieces, acts_on(piece), true));
      add_notices(step, std::move(ready.notices));
      take_over(step, *own);
      if (!step.text.empty()) {
        add_rest(step, pieces, *own);
      } else {
        add_text(step, ready.prose);
        add_text(step, fixing(telling_, pieces, ready.named));
      }
      return;
    }
    if (piece.role == Piece::Role::Base) return tell_base(moment, pieces);
    Preparation ready = preparation(telling_, pieces);
    Prose whole = ready.prose;
    whole.next().append(fixing(telling_, pieces, ready.named));
    // On a turned piece the card's drawing does not say which edge was its top.
    const bool turned_places = piece.rotation.udeg != 0 && tells_place(ready);
    if (!needs_own_step(telling_, piece) && !turned_places && cords.empty() &&
        sentences_of(whole.fragment()).size() <= most_sentences) {
      Step& step =
          begin_at(piece_title(telling_, pieces, false), moment, !comes_stamped(telling_, piece));
      step.parts = piece_parts(telling_, pieces, acts_on(piece), true);
      add_text(step, whole);
      add_notices(step, std::move(ready.notices));
      return;
    }
    tell_apart(moment, pieces, ready.sentences, cords);
  }

  // Some of what is done to a piece, on a drawing that shows it so far.
  void tell_making(std::string title, const StepPieces& pieces, PieceActs acts, PieceActs left) {
    const Piece& piece = first_of(telling_, pieces);
    Step& step =
        begin(std::move(title), figure::piece(telling_.project, card(), as_made(piece, left),
                                              first_image(piece, acts)));
    Preparation made = preparation(telling_, pieces, acts);
    step.parts = piece_parts(telling_, pieces, acts, false);
    add_text(step, made.prose);
    add_notices(step, std::move(made.notices));
  }

  // First what is done to the piece, on drawings of its own; then what did not go into those
  // steps, and how it comes onto the card. `sentences`: of each act.
  void tell_apart(const Moment& moment, const StepPieces& pieces,
                  const std::vector<std::size_t>& sentences,
                  const std::vector<std::size_t>& cords) {
    const std::vector<PieceAct> all = acts_on(first_of(telling_, pieces));
    const PieceActs acts{all};
    const auto left = [&](std::size_t from) {
      return std::reduce(sentences.begin() + static_cast<std::ptrdiff_t>(from), sentences.end());
    };
    std::size_t at = 0;
    if (left(0) > 0) {
      at = end_of_step(sentences, 0);
      tell_making(preparing_title(telling_, pieces), pieces, acts.first(at), acts.subspan(at));
    }
    const std::size_t fixing_sentences =
        sentences_of(fixing(telling_, pieces, false).fragment()).size();
    Preparation rest = preparation(telling_, pieces, acts.subspan(at));
    // A place is told beside the drawing that measures it: of the piece, not of the card.
    while (left(at) > 0 &&
           (left(at) + fixing_sentences > most_sentences || !cords.empty() || tells_place(rest))) {
      const std::size_t to = end_of_step(sentences, at);
      tell_making(finishing_title(telling_, pieces), pieces, acts.subspan(at, to - at),
                  acts.subspan(to));
      at = to;
      rest = preparation(telling_, pieces, acts.subspan(at));
    }
    for (const std::size_t cord : cords) {
      const RibbonUse& use = card().ribbons[cord];
      Step& threading =
          begin(ribbon_title(telling_.project, use),
                figure::threaded(telling_.project, card(), as_index(pieces.front()), cord));
      threading.parts = ribbon_parts(telling_, use);
      add_text(threading, ribbon_words(telling_, use));
    }
    Step& last = begin_at(piece_title(telling_, pieces, true), moment);
    last.parts = piece_parts(telling_, pieces, acts.subspan(at), true);
    Prose prose = std::move(rest.prose);
    prose.next().append(fixing(telling_, pieces, rest.named));
    add_text(last, prose);
    add_notices(last, std::move(rest.notices));
  }

  void tell_base(const Moment& moment, const StepPieces& pieces) {
    Preparation ready = preparation(telling_, pieces);
    Step& step = begin_at(base_title(card()), moment);
    step.parts = piece_parts(telling_, pieces, acts_on(first_of(telling_, pieces)), true);
    Prose prose = ready.prose;
    const Prose folding = base_words(telling_, ready.named);
    if (!folding.empty()) prose.next().append(folding);
    add_text(step, prose);
    add_notices(step, std::move(ready.notices));
  }

  void tell_pop_ups(const Moment& moment) {
    for (const PopUp& pop_up : card().pop_ups) {
      Step& step = begin_at("Cut the pop-up", moment);
      step.parts = plain("a knife, ruler and mat");
      add_text(step, pop_up_words(telling_, pop_up));
      step.notices.push_back(knife_caution());
    }
  }

  void tell_ribbon(const Moment& moment) {
    const RibbonUse& use = card().ribbons[as_index(build(moment).index)];
    Step& step = begin_at(ribbon_title(telling_.project, use), moment);
    step.parts = ribbon_parts(telling_, use);
    add_text(step, ribbon_words(telling_, use));
    if (const AuthorStep* own = author_step_for(card(), use.id)) {
      step.parts = own_parts(telling_, *own, step.parts);
      take_over(step, *own);
    }
  }

  void tell_embellishment(const Moment& moment) {
    const EmbellishmentUse& use = card().embellishments[as_index(build(moment).index)];
    Step& step = begin_at(embellishment_title(telling_.project, use), moment);
    step.parts = embellishment_parts(telling_, use);
    add_text(step, embellishment_words(telling_, use));
    if (const AuthorStep* own = author_step_for(card(), use.id)) {
      step.parts = own_parts(telling_, *own, step.parts);
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

  const StepContext telling_;
  std::string anchor_;
  Steps steps_;
};

} // namespace

Steps steps_of(const StepContext& context, const std::string& anchor) {
  const Card card = with_pairs(context.project, context.card);
  return PieceStepWriter(
             {context.project, card, context.guides_apart, context.ready, context.drawn}, anchor)
      .run();
}

} // namespace leafwright::guide
