#include "measure/print_length.h"
#include "model/carrier.h"
#include "model/sticking.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace leafwright::fit {

namespace {

// Everything the four rules about edges ask of one copy of a piece.
struct Laid {
  const Piece& piece;
  int copy = 0;
  Rect box;     // on its carrier
  Rect carrier; // origin 0
  Past over;    // past the carrier
  Past off;     // past the view of the card, or the envelope
};

bool larger(const Laid& layer) {
  return layer.box.size.width > layer.carrier.size.width ||
         layer.box.size.height > layer.carrier.size.height;
}

// Past the edge of everything the card shows there.
Past past_card(const Case& c, const PlacedOnFace& placed) {
  const Face* face = face_of(c.card, placed.root);
  const Face::Seen* seen = face ? best_seen(*face) : nullptr;
  if (seen)
    return past({placed.box.origin + seen->at, placed.box.size},
                {{}, view_size(c.card.plan, seen->view)});
  return past(placed.box, {{}, carrier_size(c.project, c.card, placed.root)});
}

template <class Do>
void for_each_layer(const Case& c, Do act) {
  for (std::size_t i = 0; i < c.card.pieces.size(); ++i) {
    const Piece& piece = c.card.pieces[i];
    if (piece.role == Piece::Role::Base) continue;
    for (int copy = 0; copy < copies_of(piece); ++copy) {
      const std::optional<PlacedOnFace> placed = placed_on_face(c.project, c.card, i, copy);
      const Size size = carrier_size(c.project, c.card, piece.on);
      if (!placed || size == Size{}) continue;
      const Rect box = visible_box(c.project, c.card, piece, copy), carrier{{}, size};
      act(Laid{piece, copy, box, carrier, past(box, carrier), past_card(c, *placed)});
    }
  }
}

// "1/4 in wider and 1/8 in taller"
std::string excess_words(const Laid& layer, const Reporter& report) {
  const Length wider = layer.box.size.width - layer.carrier.size.width;
  const Length taller = layer.box.size.height - layer.carrier.size.height;
  if (wider > Length{} && taller > Length{})
    return fmt::format("{} wider and {} taller", report.unrounded(wider), report.unrounded(taller));
  if (wider > Length{}) return fmt::format("{} wider", report.unrounded(wider));
  return fmt::format("{} taller", report.unrounded(taller));
}

// The number that would do, leaving the usual reveal where there is room for one.
std::string largest_words(const Case& c, const Laid& layer, const Reporter& report) {
  const Length reveal = usual_reveal(c.project.printing);
  const Size carrier = layer.carrier.size;
  if (layer.piece.rotation.udeg != 0)
    return fmt::format("make it smaller. Turned as it is, it takes {} of {}",
                       report.unrounded(layer.box.size), report.unrounded(carrier));
  const auto inside = [&](Length side) { return side > 4 * reveal ? side - 2 * reveal : side; };
  const bool wider = layer.box.size.width > carrier.width;
  const bool taller = layer.box.size.height > carrier.height;
  const std::string shows = report.unrounded(reveal) + " shows";
  if (wider && taller)
    return fmt::format("make it {} or smaller, and {} on every side",
                       report.unrounded(Size{inside(carrier.width), inside(carrier.height)}),
                       shows);
  if (wider)
    return fmt::format("make it {} wide or less, and {} on both sides",
                       report.unrounded(inside(carrier.width)), shows);
  return fmt::format("make it {} tall or less, and {} above and below",
                     report.unrounded(inside(carrier.height)), shows);
}

// Where its own size and place are the only thing to change: nothing turned, die-cut or repeated.
bool may_be_set(const Laid& layer) {
  return layer.piece.rotation.udeg == 0 && layer.piece.die < 0 && copies_of(layer.piece) == 1;
}

void mend_size(Finding& finding, const Laid& layer, Size size) {
  if (may_be_set(layer))
    finding.mend = {layer.piece.place, "size",
                    fmt::format("{} x {}", exact_text(size.width), exact_text(size.height))};
}

// As large as largest_words() says.
void mend_larger(Finding& finding, const Case& c, const Laid& layer) {
  const Length reveal = usual_reveal(c.project.printing);
  const auto inside = [&](Length own, Length carrier) {
    if (own <= carrier) return own;
    return carrier > 4 * reveal ? carrier - 2 * reveal : carrier;
  };
  mend_size(finding, layer,
            {inside(layer.piece.size.width, layer.carrier.size.width),
             inside(layer.piece.size.height, layer.carrier.size.height)});
}

// As far as move_words() says.
void mend_place(Finding& finding, const Laid& layer, const Past& past) {
  const Point at{layer.piece.at.x + past.left - past.right,
                 layer.piece.at.y + past.top - past.bottom};
  if (may_be_set(layer) && at.x >= Length{} && at.y >= Length{})
    finding.mend = {layer.piece.place, "at",
                    fmt::format("{} from left, {} from top", exact_text(at.x), exact_text(at.y))};
}

void say_larger(const Case& c, const Laid& layer, Reporter& report) {
  const std::string carrier = carrier_words(c.card, layer.piece.on);
  Finding& finding =
      report(known(layer.piece.size_place, layer.piece.place),
             fmt::format("{} is {} than {}: {} on {}", the(layer.piece, c.card),
                         excess_words(layer, report), carrier, report.unrounded(layer.box.size),
                         report.unrounded(layer.carrier.size)),
             fmt::format("a layer no larger than {}", carrier), largest_words(c, layer, report));
  finding.trace.push_back({carrier_place(c.card, layer.piece.on),
                           fmt::format("{} is {}", carrier, report.unrounded(layer.carrier.size))});
  mend_larger(finding, c, layer);
}

// A flap is there to carry something that reaches over the inside behind it.
bool reaches_from_flap(const Case& c, const Laid& layer) {
  const Face* face = face_of(c.card, layer.piece.on);
  return face && face->id == "flap";
}

// What lies on the front of a pop-up stands up with it: neither fold nor edge of the base is near.
bool on_pop_up(const Case& c, const Laid& layer) {
  return layer.piece.on.kind == Carrier::Kind::Face &&
         std::ranges::any_of(c.card.pop_ups, [&](const PopUp& pop_up) {
           return pop_up.face == layer.piece.on.index;
         });
}

// What is stuck in part may reach past its carrier; what of it is stuck may not, and that is said
// by stuck_past().
bool may_reach_past(const Case& c, const Laid& layer) {
  return layer.piece.may_overhang || on_pop_up(c, layer) || is_stuck_in_part(layer.piece.attach) ||
         reaches_from_flap(c, layer);
}

// How far what is stuck reaches past what carries it.
Past stuck_past_carrier(const Case& c, const Laid& layer) {
  Past all;
  if (layer.piece.rotation.udeg != 0) return all;
  for (const Rect& part : stuck_parts(c.project, c.card, layer.piece)) {
    const Past one = past({layer.box.origin + part.origin, part.size}, layer.carrier);
    all = {std::max(all.left, one.left), std::max(all.right, one.right), std::max(all.top, one.top),
           std::max(all.bottom, one.bottom)};
  }
  return all;
}

bool stuck_on_one_side(const Case& c, const Laid& layer, bool upright, Length fold) {
  if (!is_stuck_in_part(layer.piece.attach) || layer.piece.rotation.udeg != 0) return false;
  const auto parts = stuck_parts(c.project, c.card, layer.piece);
  const auto before = [&](const Rect& part) {
    return (upright ? part.right() : part.bottom()) <= fold;
  };
  const auto behind = [&](const Rect& part) {
    return (upright ? part.left() : part.top()) >= fold;
  };
  return std::ranges::all_of(parts, before) || std::ranges::all_of(parts, behind);
}

bool on_card_face(const Piece& piece) { return piece.on.kind != Carrier::Kind::Piece; }

} // namespace

void mat_wider(const Case& c, Reporter& report) {
  for_each_layer(c, [&](const Laid& layer) {
    if (layer.copy == 0 && on_card_face(layer.piece) && larger(layer) && layer.off.any())
      say_larger(c, layer, report);
  });
}

void off_card(const Case& c, Reporter& report) {
  for_each_layer(c, [&](const Laid& layer) {
    if (!layer.off.any() || (on_card_face(layer.piece) && larger(layer))) return;
    const char* whole = is_envelope(layer.piece.on) ? "envelope" : "card";
    Finding& finding =
        report(known(layer.piece.at_place, layer.piece.place),
               fmt::format("{} sticks out {} of the {}", the(layer.piece, c.card),
                           past_words(layer.off, report), whole),
               fmt::format("every layer inside the edges of the {}", whole),
               larger(layer) ? largest_words(c, layer, report) : move_words(layer.off, report));
    if (larger(layer))
      mend_larger(finding, c, layer);
    else
      mend_place(finding, layer, layer.off);
  });
}

void overhang(const Case& c, Reporter& report) {
  for_each_layer(c, [&](const Laid& layer) {
    if (!layer.over.any() || layer.off.any() || may_reach_past(c, layer)) return;
    if (larger(layer)) {
      if (layer.copy == 0) say_larger(c, layer, report);
      return;
    }
    const std::string carrier = carrier_words(c.card, layer.piece.on);
    Finding& finding =
        report(known(layer.piece.at_place, layer.piece.place),
               fmt::format("{} sticks out {} of {}", the(layer.piece, c.card),
                           past_words(layer.over, report), carrier),
               fmt::format("a layer inside the edges of {}", carrier),
               fmt::format("{}, or set may-overhang=\"yes\"", move_words(layer.over, report)));
    mend_place(finding, layer, layer.over);
  });
}

void stuck_past(const Case& c, Reporter& report) {
  for_each_layer(c, [&](const Laid& layer) {
    if (!is_stuck_in_part(layer.piece.attach) || layer.off.any()) return;
    const Past over = stuck_past_carrier(c, layer);
    if (!over.any()) return;
    const std::string carrier = carrier_words(c.card, layer.piece.on);
    report(known(layer.piece.attach.where_place, layer.piece.place),
           fmt::format("{} is stuck behind {}, which reaches {} of {}", the(layer.piece, c.card),
                       sticking_row(layer.piece.attach.where).words, past_words(over, report),
                       carrier),
           fmt::format("adhesive on {} alone, so that the card still opens", carrier),
           "stick another part of it, or move it");
  });
}

void reveal_unequal(const Case& c, Reporter& report) {
  for_each_layer(c, [&](const Laid& layer) {
    if (!layer.piece.equal_reveal_wanted || layer.piece.rotation.udeg != 0) return;
    const Length left = layer.box.left(), top = layer.box.top();
    const Length right = layer.carrier.right() - layer.box.right();
    const Length bottom = layer.carrier.bottom() - layer.box.bottom();
    const auto [least, most] = std::minmax({left, right, top, bottom});
    if (most - least <= same_size || least < Length{}) return;
    Finding& finding =
        report(known(layer.piece.at_place, layer.piece.place),
               fmt::format("{} shows of {} {} at the left, {} at the right, {} above and {} below",
                           the(layer.piece, c.card), carrier_words(c.card, layer.piece.on),
                           report.unrounded(left), report.unrounded(right), report.unrounded(top),
                           report.unrounded(bottom)),
               "the same on every side, as an inset asks for",
               fmt::format("make it {} and center it",
                           report.unrounded(Size{layer.carrier.size.width - 2 * least,
                                                 layer.carrier.size.height - 2 * least})));
    mend_size(finding, layer,
              {layer.carrier.size.width - 2 * least, layer.carrier.size.height - 2 * least});
  });
}

void reveal_slip(const Case& c, Reporter& report) {
  for_each_layer(c, [&](const Laid& layer) {
    if (layer.piece.equal_reveal_wanted || layer.piece.rotation.udeg != 0 || layer.over.any())
      return;
    const Length limit = slip(c.project.printing);
    const auto speak = [&](Length near, Length far, Length side, Length whole, const char* words) {
      const Length difference = absolute(near - far);
      // Only something that takes most of the room looks as if it was meant to lie in the middle.
      if (difference <= same_size || difference > limit || side * 4 < whole * 3) return;
      report(known(layer.piece.at_place, layer.piece.place),
             fmt::format("{} lies {} from one edge of {} and {} from the other {}",
                         the(layer.piece, c.card), report.unrounded(near),
                         carrier_words(c.card, layer.piece.on), report.unrounded(far), words),
             "the same on both sides, or a clear difference",
             fmt::format("leave {} on both sides", report.unrounded((near + far) / 2)));
    };
    speak(layer.box.left(), layer.carrier.right() - layer.box.right(), layer.box.size.width,
          layer.carrier.size.width, "across");
    speak(layer.box.top(), layer.carrier.bottom() - layer.box.bottom(), layer.box.size.height,
          layer.carrier.size.height, "down");
  });
}

void over_fold(const Case& c, Reporter& report) {
  for_each_layer(c, [&](const Laid& layer) {
    const Face* face = face_of(c.card, layer.piece.on);
    const Face::Seen* seen = face ? best_seen(*face) : nullptr;
    if (!seen || seen->view != View::Inside || layer.off.any() || on_pop_up(c, layer)) return;
    const Rect on_base{layer.box.origin + seen->at, layer.box.size};
    for (const Score& fold : c.card.plan.scores) {
      const Length from = fold.vertical ? on_base.left() : on_base.top();
      const Length to = fold.vertical ? on_base.right() : on_base.bottom();
      if (fold.at <= from || fold.at >= to) continue;
      // Stuck to one leaf of a mountain fold, it lies free over the other and lets the card close.
      if (fold.mountain && stuck_on_one_side(c, layer, fold.vertical, fold.at - from)) continue;
      const Length here = fold.at - from;
      const bool scored =
          std::any_of(layer.piece.scores.begin(), layer.piece.scores.end(), [&](const Score& own) {
            return own.vertical == fold.vertical && absolute(own.at - here) <= same_line;
          });
      if (scored) continue;
      report(
          known(layer.piece.at_place, layer.piece.place),
          fmt::format("{} lies across the fold and has no score there", the(layer.piece, c.card)),
          "a layer on one side of the fold, or scored along it",
          fmt::format("score it {} from its {} edge", report.unrounded(here),
                      fold.vertical ? "left" : "top"));
    }
  });
}

} // namespace leafwright::fit
