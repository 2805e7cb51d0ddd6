#include "app/local_page/internal/thing_rows.h"

#include "app/local_page/internal/answers.h"
#include "guide/figure/scenes.h"
#include "measure/index.h"
#include "model/carrier.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace leafwright::local_page {

std::string_view view_word(View view) {
  switch (view) {
  case View::Inside: return "inside";
  case View::Back: return "back";
  case View::Front: break;
  }
  return "front";
}

namespace {

class ThingFinder {
 public:
  ThingFinder(const Shown& shown, const Card& card)
      : shown_(shown), project_(shown.project()), card_(card) {}

  std::vector<ThingRow> run() {
    for (std::size_t i = 0; i < card_.build.size(); ++i) {
      const Build& build = card_.build[i];
      if (build.kind == Build::Kind::Step) continue;
      order_ = static_cast<int>(i);
      thing(build);
    }
    return std::move(rows_);
  }

 private:
  // The face, the piece or the envelope that a thing is placed in, where a view shows it.
  std::optional<Rect> carrier_box(Carrier on) const {
    const Piece* piece = piece_of(card_, on);
    if (piece != nullptr && piece->role == Piece::Role::Base) on = whole_face(card_);
    Rect box{{}, carrier_size(project_, card_, on)};
    Carrier root = on;
    if (piece != nullptr && piece->role != Piece::Role::Base) {
      const auto placed = placed_on_face(project_, card_, as_index(on.index));
      if (!placed) return std::nullopt;
      box = placed->box;
      root = placed->root;
    }
    if (const Face* face = face_of(card_, root)) {
      const Face::Seen* seen = best_seen(*face);
      if (seen == nullptr) return std::nullopt;
      box.origin = box.origin + seen->at;
    }
    return box;
  }

  // What lies where, once what carries it is followed down to a side that a view shows.
  void put(ThingRow& row, const std::optional<PlacedOnFace>& placed, Size own) const {
    if (!placed) return;
    Point at = placed->box.origin;
    if (const Face* face = face_of(card_, placed->root)) {
      const Face::Seen* seen = best_seen(*face);
      if (seen == nullptr) return;
      row.view = view_word(seen->view);
      at = at + seen->at;
    } else {
      row.view = "envelope";
      if (placed->root.kind == Carrier::Kind::EnvelopeInside) return; // lies beside the front
    }
    row.carrier = carrier_box(row.on);
    const Size box = placed->box.size;
    const Size size = own.width.nm > 0 ? own : box;
    row.box =
        Rect{{at.x + (box.width - size.width) / 2, at.y + (box.height - size.height) / 2}, size};
  }

  ThingRow begun(const Build& build) const {
    static constexpr std::array kinds{"panel", "ribbon", "embellishment", "image"};
    ThingRow row;
    row.place = place_of(card_, build);
    row.name = plain_blanks(figure::short_name(project_, card_, build));
    row.words = plain_blanks(figure::build_words(project_, card_, build));
    row.kind = kinds.at(as_index(static_cast<int>(build.kind)));
    row.order = order_;
    if (const auto on = carrier_of(card_, build)) row.on = *on;
    return row;
  }

  void thing(const Build& build) {
    ThingRow row = begun(build);
    const auto index = as_index(build.index);
    switch (build.kind) {
    case Build::Kind::Piece: return piece(row, build.index);
    case Build::Kind::Ribbon: {
      const RibbonUse& use = card_.ribbons.at(index);
      const Ribbon* ribbon = find_at(project_.ribbons, use.ribbon);
      const Rect box =
          ribbon_box(use, ribbon ? ribbon->width : Length{}, carrier_size(project_, card_, use.on));
      put(row, placed_on_face(card_, use.on, box), {});
      break;
    }
    case Build::Kind::Embellishment: {
      const EmbellishmentUse& use = card_.embellishments.at(index);
      const Embellishment* what = find_at(project_.embellishments, use.embellishment);
      if (what != nullptr)
        put(row, placed_on_face(card_, use.on, around(use.places, what->size)), {});
      break;
    }
    case Build::Kind::Stamping:
      impression(row, card_.face_stampings.at(index).impression, card_.face_stampings.at(index).on);
      break;
    case Build::Kind::Step: return;
    }
    add(row);
  }

  static Rect around(const std::vector<Point>& places, Size size) {
    if (places.empty()) return {};
    Rect all{places.front(), size};
    for (const Point at : places) {
      const Length left = std::min(all.left(), at.x), top = std::min(all.top(), at.y);
      all = {{left, top},
             {std::max(all.right(), at.x + size.width) - left,
              std::max(all.bottom(), at.y + size.height) - top}};
    }
    return all;
  }

  void impression(ThingRow& row, const Impression& impression, Carrier on) const {
    const StampSet* set = find_at(project_.stamp_sets, impression.set);
    const StampImage* image = set ? find_at(set->images, impression.image) : nullptr;
    if (image == nullptr || impression.places.empty()) return;
    const bool one = impression.places.size() == 1;
    put(row, placed_on_face(card_, on, around(impression.places, image->size)),
        one ? image->size : Size{});
    if (one) row.turned = impression.rotation;
    row.name = image->name;
  }

  void piece(ThingRow& row, int index) {
    static constexpr std::array roles{"base", "panel", "band", "liner"};
    const Piece& piece = at(card_.pieces, index);
    row.kind = roles.at(as_index(static_cast<int>(piece.role)));
    row.letter = piece.letter;
    row.turned = piece.rotation;
    if (piece.role == Piece::Role::Base) {
      row.view = "front";
      row.box = Rect{{}, card_.finished};
    } else {
      put(row, placed_on_face(project_, card_, as_index(index)), piece.size);
    }
    add(row);
    const std::string key = shown_.key_at(piece.place);
    for (const Impression& one : piece.stamped) {
      ThingRow image;
      image.place = one.place;
      image.kind = "image";
      image.parent = key;
      image.order = order_;
      image.on = {Carrier::Kind::Piece, index};
      impression(image, one, image.on);
      image.words = fmt::format("{}, stamped on {}", image.name, row.name);
      add(image);
    }
  }

  std::string parent_of(const ThingRow& row) const {
    if (!row.parent.empty()) return row.parent;
    if (row.kind == "base") return shown_.key_at(card_.place);
    const Piece* carrier = piece_of(card_, row.on);
    if (carrier == nullptr) carrier = base_of(card_);
    return carrier == nullptr ? shown_.key_at(card_.place) : shown_.key_at(carrier->place);
  }

  void add(ThingRow row) {
    row.parent = parent_of(row);
    rows_.push_back(std::move(row));
  }

  const Shown& shown_;
  const Project& project_;
  const Card& card_;
  std::vector<ThingRow> rows_;
  int order_ = 0;
};

} // namespace

std::vector<ThingRow> things_of(const Shown& shown, const Card& card) {
  return ThingFinder(shown, card).run();
}

} // namespace leafwright::local_page
