#include "language/english.h"
#include "model/carrier.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace leafwright::fit {

namespace {

// What an impression is stamped on.
struct StampedSurface {
  Size size;
  std::string words;
};

Length worst(const Past& over) { return std::max({over.left, over.right, over.top, over.bottom}); }

void check_impression(const Project& project, const Impression& impression,
                      const StampedSurface& ground, Place fallback, Reporter& report) {
  const StampSet* set = find_at(project.stamp_sets, impression.set);
  const StampImage* image = set ? find_at(set->images, impression.image) : nullptr;
  if (!image || ground.size == Size{}) return;
  std::size_t outside = 0;
  Past most;
  Size taken = image->size;
  for (std::size_t i = 0; i < impression.places.size(); ++i) {
    const Rect box = impression_box(impression, image->size, i);
    const Past over = past(box, {{}, ground.size});
    if (!over.any()) continue;
    outside += 1;
    if (worst(over) > worst(most)) most = over;
    taken = box.size;
  }
  if (outside == 0) return;
  const std::string several =
      impression.places.size() > 1
          ? fmt::format(" ({} of {} impressions)", outside, impression.places.size())
          : "";
  report(known(impression.place, fallback),
         fmt::format("the image “{}”, {}, reaches {} of {}{}", image->name, report.unrounded(taken),
                     past_words(most, report), ground.words, several),
         "an image inside what it is stamped on",
         !fits(taken, ground.size)
             ? fmt::format("stamp it on a piece of at least {}", report.unrounded(taken))
         : impression.places.size() > 1 ? "move its places closer together, or stamp it fewer times"
                                        : move_words(most, report));
}

bool tied(const RibbonUse& use) {
  return use.as == RibbonUse::As::Bow || use.as == RibbonUse::As::Knot;
}

std::string ribbon_words(const Project& project, const Card& card, const RibbonUse& use) {
  return fmt::format("{} on {} of “{}”", item_name(project, {ItemKind::Ribbon, use.ribbon}),
                     carrier_words(card, use.on), card.title);
}

} // namespace

void image_past_panel(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces)
    for (const Impression& impression : piece.stamped)
      check_impression(c.project, impression, {piece.size, the(piece, c.card)}, piece.place,
                       report);
  for (const FaceStamping& stamping : c.card.face_stampings)
    check_impression(c.project, stamping.impression,
                     {carrier_size(c.project, c.card, stamping.on),
                      fmt::format("{} of “{}”", carrier_words(c.card, stamping.on), c.card.title)},
                     c.card.place, report);
}

void image_in_window(const Case& c, Reporter& report) {
  for (const Piece& piece : c.card.pieces)
    for (const Impression& impression : piece.stamped) {
      const StampSet* set = find_at(c.project.stamp_sets, impression.set);
      const StampImage* image = set ? find_at(set->images, impression.image) : nullptr;
      if (!image) continue;
      const auto falls_out = [&](const Window& window) {
        for (std::size_t i = 0; i < impression.places.size(); ++i)
          if (Rect{window.at, window.size}.contains(impression_box(impression, image->size, i)))
            return true;
        return false;
      };
      const auto window = std::find_if(piece.windows.begin(), piece.windows.end(), falls_out);
      if (window == piece.windows.end()) continue;
      report(known(impression.place, piece.place),
             fmt::format("the image “{}” lies where {} has a window of {}", image->name,
                         the(piece, c.card), report.unrounded(window->size)),
             "an image on paper that stays",
             "stamp it beside the window, or on what shows through it");
    }
}

void image_short_of_colours(const Case& c, Reporter& report) {
  const auto check = [&](const Impression& impression, Place place) {
    const StampSet* set = find_at(c.project.stamp_sets, impression.set);
    const StampImage* image = set ? find_at(set->images, impression.image) : nullptr;
    if (!image || image->artwork.empty()) return;
    int last = 0;
    for (const Art& art : image->artwork) last = std::max(last, art.ink);
    const int colours = last + 1, inks = static_cast<int>(impression.inks.size());
    if (inks <= colours) return;
    report(known(impression.place, place),
           fmt::format("the image “{}” on “{}” is given {} inks but is drawn in {}", image->name,
                       c.card.title, inks,
                       colours == 1 ? "one color" : fmt::format("{} colors", colours)),
           "one ink for each color of the image",
           colours == 1 ? "name one ink, and stamp the other places as an impression of their own"
                        : "name fewer inks, or give parts of the image another ink number");
  };
  for (const Piece& piece : c.card.pieces)
    for (const Impression& impression : piece.stamped) check(impression, piece.place);
  for (const FaceStamping& stamping : c.card.face_stampings)
    check(stamping.impression, c.card.place);
}

void embellishment_past_edge(const Case& c, Reporter& report) {
  for (const EmbellishmentUse& use : c.card.embellishments) {
    const Embellishment* thing = find_at(c.project.embellishments, use.embellishment);
    const Size carrier = carrier_size(c.project, c.card, use.on);
    if (!thing || carrier == Size{}) continue;
    for (const Point& corner : use.places) {
      const Past over = past({corner, thing->size}, {{}, carrier});
      if (!over.any()) continue;
      report(known(use.place, c.card.place),
             fmt::format("{} on {} of “{}” reaches {}", thing->name, carrier_words(c.card, use.on),
                         c.card.title, past_words(over, report)),
             "inside the edges of what it sits on", move_words(over, report));
    }
  }
}

void ribbon_short(const Case& c, Reporter& report) {
  for (const RibbonUse& use : c.card.ribbons)
    if (use.given && *use.given < use.path)
      report(known(use.place, c.card.place),
             fmt::format("{} is cut {} long and has {} to go", ribbon_words(c.project, c.card, use),
                         report.unrounded(*use.given), report.unrounded(use.path)),
             "a cut that reaches, with something over for the ends",
             fmt::format("cut {}", report.unrounded(use.path + use.extra)));
}

void ribbon_ends_short(const Case& c, Reporter& report) {
  for (const RibbonUse& use : c.card.ribbons) {
    if (!use.given || *use.given < use.path || *use.given >= use.path + use.extra) continue;
    const char* purpose = tied(use) ? "to tie it" : "for the ends";
    report(known(use.place, c.card.place),
           fmt::format("{} is cut {} long; on the way of {} that leaves {} {}",
                       ribbon_words(c.project, c.card, use), report.unrounded(*use.given),
                       report.unrounded(use.path), report.unrounded(*use.given - use.path),
                       purpose),
           fmt::format("{} {}", report.unrounded(use.extra), purpose),
           fmt::format("cut {}", report.unrounded(use.path + use.extra)));
  }
}

void ribbon_longer_than_spool(const Case& c, Reporter& report) {
  const std::string_view spool = words::terms(c.project.language).spool;
  for (const RibbonUse& use : c.card.ribbons) {
    const Ribbon* ribbon = find_at(c.project.ribbons, use.ribbon);
    if (!ribbon || ribbon->spool <= Length{} || use.cut() <= ribbon->spool) continue;
    report(known(use.place, c.card.place),
           fmt::format("one cut of {} for “{}” is {}", ribbon->name, c.card.title,
                       report.unrounded(use.cut())),
           fmt::format("at most {}, which is one whole {}", report.unrounded(ribbon->spool), spool),
           fmt::format("shorten it by {}, or choose a {} of at least {}",
                       report.unrounded(use.cut() - ribbon->spool), spool,
                       report.unrounded(use.cut())));
  }
}

void band_short(const Case& c, Reporter& report) {
  const Length overlap = either(c.project.printing, inches(0, 1, 2), millimetres(12));
  for (const Piece& piece : c.card.pieces) {
    if (!goes_round(c.project, c.card, piece)) continue;
    const Size carrier = carrier_size(c.project, c.card, piece.on);
    const bool across = runs_across(piece);
    const Length round = 2 * (across ? carrier.width : carrier.height);
    const Length length = across ? piece.size.width : piece.size.height;
    if (length >= round + overlap) continue;
    report(known(piece.size_place, piece.place),
           fmt::format("{} is {} long; once round {} is {}{}", the(piece, c.card),
                       report.unrounded(length), carrier_words(c.card, piece.on),
                       report.unrounded(round),
                       length > round ? fmt::format(" and leaves {} to stick",
                                                    report.unrounded(length - round))
                                      : ""),
           fmt::format("a band that goes round and overlaps by {}", report.unrounded(overlap)),
           fmt::format("cut it {} long", report.unrounded(round + overlap)));
  }
}

void ribbon_past_edge(const Case& c, Reporter& report) {
  for (const RibbonUse& use : c.card.ribbons) {
    const Ribbon* ribbon = find_at(c.project.ribbons, use.ribbon);
    const Size carrier = carrier_size(c.project, c.card, use.on);
    if (!ribbon || carrier == Size{}) continue;
    const Past over = past(ribbon_box(use, ribbon->width, carrier), {{}, carrier});
    if (!over.any()) continue;
    report(known(use.place, c.card.place),
           fmt::format("{}, {} wide, reaches {}", ribbon_words(c.project, c.card, use),
                       report.unrounded(ribbon->width), past_words(over, report)),
           "a ribbon that lies on what it is tied round", move_words(over, report));
  }
}

} // namespace leafwright::fit
