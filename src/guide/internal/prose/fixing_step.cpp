#include "guide/internal/prose/step_words.h"

#include "guide/internal/prose/placement.h"
#include "guide/prose.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "model/sticking.h"
#include "model/technique.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <string_view>

namespace leafwright::guide {
namespace {

const Adhesive* adhesive_of(const Project& project, const Attach& attach) {
  const int index = attach.adhesive;
  if (index < 0 || as_index(index) >= project.adhesives.size()) return nullptr;
  return &project.adhesives[as_index(index)];
}

std::vector<Point> places_of(const Piece& piece) {
  std::vector<Point> places{piece.at};
  places.insert(places.end(), piece.more_at.begin(), piece.more_at.end());
  return places;
}

class Fixing {
 public:
  Fixing(const StepContext& context, const StepPieces& pieces, bool named)
      : telling_(context), pieces_(pieces), piece_(first_of(context, pieces)),
        adhesive_(adhesive_of(context.project, piece_.attach)) {
    // After sentences about an image, "it" would be the image.
    if (named && !piece_.stamped.empty() && !comes_stamped(context, piece_)) {
      subject_.say("the " + together_noun(context, pieces));
    } else if (named) {
      subject_.say(pronoun(context, pieces));
      told_by_pronoun_ = true;
    } else {
      say_pieces(subject_, context, pieces);
    }
  }

  Prose run() {
    if (goes_round(telling_.project, telling_.card, piece_)) { // its ends meet at the back
      wrap();
      return prose_;
    }
    Prose act;
    if (const int pocket = pocket_of(telling_.card, piece_); pocket >= 0) {
      prose_.say("Slide ").append(subject_).say(" into ");
      say_carrier(prose_, telling_.card, {Carrier::Kind::Piece, pocket});
      prose_.say(".");
      return prose_;
    }
    if (!adhesive_) {
      act.say("Lay ").append(subject_).say(" loose on ");
      carrier(act);
    } else if (is_stuck_in_part(piece_.attach)) {
      in_part(act);
    } else if (adhesive_->measured == Adhesive::Measured::ByCount) {
      on_squares(act);
    } else {
      flat(act);
    }
    say_placed(prose_, place(), act, where() + tucked_words(), pronoun(telling_, pieces_));
    return prose_;
  }

 private:
  Where place() const { return {telling_.project, telling_.card, piece_.on, telling_.drawn}; }

  void wrap() {
    const Size carrier_box = carrier_size(telling_.project, telling_.card, piece_.on);
    const Gaps gaps = gaps_in(carrier_box, {piece_.at, piece_.size});
    const bool down = !runs_across(piece_);
    Prose act;
    act.say("Wrap ").append(subject_).say(" around ");
    carrier(act);
    const std::string at = down ? across_words(place(), gaps, piece_.position)
                                : down_words(place(), gaps, piece_.position);
    say_placed(prose_, place(), act, ", " + at + tucked_words(), pronoun(telling_, pieces_));
    std::string_view ends = " Tuck one end into the other.";
    if (adhesive_)
      ends = adhesive_->kind == Adhesive::Kind::Glue ? " Glue the ends where they overlap."
                                                     : " Tape the ends where they overlap.";
    prose_.say(ends);
  }

  // How many squares it takes stands in the line of what is needed.
  void on_squares(Prose& act) {
    const bool foam = adhesive_->kind == Adhesive::Kind::Foam;
    const bool raised = piece_.attach.raised || foam;
    act.say(raised ? "Raise " : "Stick ").append(subject_);
    const std::string dots =
        words::plural(item_noun(telling_.project, {ItemKind::Adhesive, piece_.attach.adhesive}));
    const int layers = std::max(1, piece_.attach.layers);
    std::string on = foam ? " on foam" : " on " + dots;
    if (layers > 1) on = " on " + words::counted(layers, "layer") + " of " + (foam ? "foam" : dots);
    if (raised) act.say(on);
    if (piece_.position.over.empty() || !raised) {
      act.say(raised ? " over " : " to ");
      carrier(act);
    }
    if (!raised) act.say(" with " + dots);
  }

  // "Run tape behind the left half of the label (C) only. Press it onto the front".
  void in_part(Prose& act) {
    using Where = Attach::Where;
    const StickingRow& row = sticking_row(piece_.attach.where);
    const auto& terms = words::terms(words::english_of(telling_.project.language));
    switch (adhesive_->kind) {
    case Adhesive::Kind::Tape: prose_.say("Run tape"); break;
    case Adhesive::Kind::Glue: prose_.say("Spread glue"); break;
    case Adhesive::Kind::Sheet: prose_.say("Lay adhesive sheet"); break;
    case Adhesive::Kind::Dots:
    case Adhesive::Kind::Foam:
      prose_.say("Set " + words::plural(item_noun(telling_.project,
                                                  {ItemKind::Adhesive, piece_.attach.adhesive})));
      break;
    }
    if (told_by_pronoun_) { // "behind its left half", "behind three of its edges"
      const std::string its = pronoun(telling_, pieces_) == "it" ? "its " : "their ";
      const bool edges = !row.open.empty();
      prose_.say(" behind " + (edges ? "three of " + its + "edges"
                                     : its + std::string(words::without_article(row.words))));
    } else {
      prose_.say(" behind " + std::string(row.words) + " of ").append(subject_);
    }
    if (!row.open.empty())
      prose_.say("; its " + std::string(row.open) + " stays open. ");
    else if (piece_.attach.where == Where::Frame)
      prose_.say(", " + std::string(terms.all_around) + ". ");
    else
      prose_.say(" only. ");
    act.say("Press " + std::string(pronoun(telling_, pieces_)) + " onto ");
    carrier(act);
  }

  void flat(Prose& act) {
    switch (adhesive_->kind) {
    case Adhesive::Kind::Sheet:
      prose_.say("Back ").append(subject_).say(" with adhesive sheet. ");
      act.say("Press " + std::string(pronoun(telling_, pieces_)));
      break;
    case Adhesive::Kind::Glue: act.say("Glue ").append(subject_); break;
    case Adhesive::Kind::Tape:
    case Adhesive::Kind::Dots:
    case Adhesive::Kind::Foam: act.say("Tape ").append(subject_); break;
    }
    act.say(" to ");
    carrier(act);
  }

  void carrier(Prose& prose) {
    if (pieces_.size() == 1 || piece_.on.kind != Carrier::Kind::Face) {
      say_carrier(prose, telling_.card, piece_.on);
      return;
    }
    std::vector<std::string> faces;
    bool articles = true;
    for (const int index : pieces_) {
      const Piece& one = telling_.card.pieces.at(as_index(index));
      const std::string words = face_words(telling_.card, one.on.index);
      const std::string bare(words::without_article(words));
      articles = articles && bare != words;
      if (std::find(faces.begin(), faces.end(), bare) == faces.end()) faces.push_back(bare);
    }
    prose.say((articles ? "the " : "") + words::listed_together(faces));
  }

  std::string where() const {
    const std::string turned = turned_words(piece_.rotation);
    const std::vector<Point> places = places_of(piece_);
    if (places.size() > 1)
      return arranged_words(place(), places, piece_.size, piece_.rotation, piece_.position) +
             turned;
    const Size carrier = carrier_size(telling_.project, telling_.card, piece_.on);
    const Gaps gaps = measured_gaps(carrier, {piece_.at, piece_.size}, piece_.rotation);
    const bool shows = piece_.rotation.udeg == 0 &&
                       std::all_of(pieces_.begin(), pieces_.end(),
                                   [&](int index) { return surface_shows(telling_.card, index); });
    if (shows)
      return where_words(place(), gaps, piece_.position,
                         carrier_surface(telling_.project, telling_.card, piece_.on));
    return where_words(place(), gaps, piece_.position, {}) + turned;
  }

  std::string tucked_words() const {
    std::vector<std::string> under;
    for (const std::string& id : piece_.layers_below) {
      std::string thing = thing_with_the(telling_.project, telling_.card, id);
      if (!thing.empty()) under.push_back(std::move(thing));
    }
    return under.empty() ? std::string() : ", tucked under " + words::listed(under);
  }

  const StepContext& telling_;
  const StepPieces& pieces_;
  const Piece& piece_;
  const Adhesive* adhesive_;
  Prose subject_;
  bool told_by_pronoun_ = false;
  Prose prose_;
};

} // namespace

Prose fixing(const StepContext& context, const StepPieces& pieces, bool named) {
  return Fixing(context, pieces, named).run();
}

std::string adhesive_words(const StepContext& context, const StepPieces& pieces) {
  const Piece& piece = first_of(context, pieces);
  const Adhesive* adhesive = adhesive_of(context.project, piece.attach);
  if (!adhesive) return {};
  if (adhesive->measured != Adhesive::Measured::ByCount)
    return item_noun(context.project, {ItemKind::Adhesive, piece.attach.adhesive});
  const std::int64_t each = supply::consumption_of(context.project, context.card, piece).count;
  const std::string name =
      words::singular(item_noun(context.project, {ItemKind::Adhesive, piece.attach.adhesive}));
  return words::counted(each * how_many(context, pieces), name);
}

bool surface_shows(const Card& card, int index) {
  const Piece* piece = piece_at(card, index);
  if (!piece) return false;
  const auto reach = [](const Piece& one) { return Rect{one.at, one.size}; };
  for (const Build& build : card.build) {
    if (build.kind != Build::Kind::Piece) continue;
    if (build.index == index) return true;
    const Piece* earlier = piece_at(card, build.index);
    if (!earlier || earlier->role == Piece::Role::Base || earlier->on != piece->on) continue;
    if (reach(*earlier).overlaps(reach(*piece))) return false;
  }
  return true;
}

namespace {

bool is_inside(const Card& card, const Carrier& on) {
  const Face* face = face_of(card, on);
  // The inside of a Z is also seen from the front.
  return face && face->id.starts_with("inside") && !seen_in(card, on, View::Front);
}

} // namespace

std::string piece_title(const StepContext& context, const StepPieces& pieces, bool prepared) {
  const Piece& piece = first_of(context, pieces);
  const std::string the = "the " + together_noun(context, pieces);
  const bool stamped = !piece.stamped.empty() && !comes_stamped(context, piece);
  if (piece.on.kind == Carrier::Kind::EnvelopeInside) return "Line the envelope";
  if (pocket_of(context.card, piece) >= 0) return "Slide in " + the;
  if (piece.role == Piece::Role::Liner) return "Line the inside";
  if (piece.role == Piece::Role::Band) return "Wrap " + the;
  if (!prepared && stamped && !piece.attach.raised) return "Stamp " + the;
  if (piece.attach.raised) return "Raise " + the;
  // What is stuck in part, as a pocket, lines nothing.
  if (is_inside(context.card, piece.on) && pieces.size() == 1 && !prepared &&
      !is_stuck_in_part(piece.attach))
    return "Line the inside";
  return "Add " + the;
}

std::string preparing_title(const StepContext& context, const StepPieces& pieces) {
  const Piece& piece = first_of(context, pieces);
  const std::string the = "the " + together_noun(context, pieces);
  const bool techniques = std::ranges::any_of(
      piece.finishes, [](const Finish& one) { return technique_row(one.kind).as_written; });
  if (techniques) return "Prepare " + the;
  return (piece.stamped.empty() || comes_stamped(context, piece) ? "Cut " : "Stamp ") + the;
}

std::string finishing_title(const StepContext& context, const StepPieces& pieces) {
  return "Finish the " + together_noun(context, pieces);
}

std::string stamping_title(const StepContext& context, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::EnvelopeFront:
  case Carrier::Kind::EnvelopeInside: return "Stamp the envelope";
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_at(context.card, on.index);
    return piece ? "Stamp the " + piece_noun(*piece) : "Stamp the panel";
  }
  case Carrier::Kind::Face: break;
  }
  if (is_inside(context.card, on)) return "Stamp the inside";
  return "Stamp " + face_words(context.card, on.index);
}

} // namespace leafwright::guide
