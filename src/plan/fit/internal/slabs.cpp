#include "plan/fit/internal/slabs.h"

#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "model/pop_up.h"
#include "plan/fit/internal/case.h"
#include "plan/fit/internal/thickness.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <iterator>
#include <optional>
#include <utility>

namespace leafwright::fit {

namespace {

std::string called(const Piece& piece) { return piece.name.empty() ? piece.id : piece.name; }

// Strips that surely lie inside an opening, apart from each other. A round one is cut into strips
// as wide as it is at their narrower end, so that what lies in a shaker's well counts as beside its
// rim; of any other outline the middle seven tenths.
std::vector<Rect> surely_open(const Window& window) {
  const Rect box{window.at, window.size};
  const bool round = window.shape.outline == Shape::Outline::Circle ||
                     window.shape.outline == Shape::Outline::Oval;
  if (window.shape.outline == Shape::Outline::Rectangle) return {box};
  if (!round) {
    const Size inner{box.size.width / 10 * 7, box.size.height / 10 * 7};
    return {{{box.left() + (box.size.width - inner.width) / 2,
              box.top() + (box.size.height - inner.height) / 2},
             inner}};
  }
  // Half-width at height y of an ellipse with half-axes a and b: a sqrt(1 - (y / b)^2).
  constexpr int strips = 32;
  std::vector<Rect> open;
  const Point centre = box.centre();
  for (int i = 0; i < strips; ++i) {
    const Length from = box.size.height * i / strips, to = box.size.height * (i + 1) / strips;
    const int outer = std::max(std::abs(2 * i - strips), std::abs(2 * (i + 1) - strips));
    const double y = static_cast<double>(outer) / strips;
    const auto half = static_cast<std::int64_t>(static_cast<double>(box.size.width.nm) / 2 *
                                                std::sqrt(std::max(0.0, 1 - y * y)));
    if (half <= 0) continue;
    open.push_back({{centre.x - Length{half}, box.top() + from}, {Length{2 * half}, to - from}});
  }
  return open;
}

class LayerStacker {
 public:
  LayerStacker(const Project& project, const Card& card)
      : project_(project), card_(card), leaves_(card.plan.leaves) {}

  LayerStack take() {
    add_base();
    add_in_build_order();
    LayerStack pile;
    std::reverse(back_.begin(), back_.end());
    for (std::vector<Slab>* part : {&back_, &base_, &inside_, &front_})
      std::move(part->begin(), part->end(), std::back_inserter(pile.slabs));
    pile.unknown = std::move(unknown_);
    pile.hard = hard_;
    return pile;
  }

 private:
  // Where on the closed card a box on a face lies: one box, or one for each leaf that it spans.
  struct Closed {
    View view = View::Front;
    std::vector<Rect> boxes;
  };

  Closed closed(const PlacedOnFace& placed) const {
    for (const PopUp& pop_up : card_.pop_ups)
      if (placed.root == Carrier{Carrier::Kind::Face, pop_up.face})
        return {View::Inside, {pop_up_folded(pop_up, placed.box)}};
    const Face* face = face_of(card_, placed.root);
    const Face::Seen* seen = face ? best_seen(*face) : nullptr;
    if (!seen) return {};
    const Rect box{placed.box.origin + seen->at, placed.box.size};
    if (seen->view == View::Front) return {View::Front, {box}};
    if (seen->view == View::Back) {
      const Length width = card_.plan.back_view.width;
      return {View::Back, {{{width - box.right(), box.top()}, box.size}}};
    }
    return {View::Inside, on_leaves(*face, *seen, box)};
  }

  std::vector<Rect> on_leaves(const Face& face, const Face::Seen& seen, Rect box) const {
    std::vector<Rect> boxes;
    const bool spans = face.size == card_.plan.unfolded && leaves_.size() > 1;
    const Point centre = Rect{seen.at, face.size}.centre();
    for (const Leaf& leaf : leaves_) {
      if (!spans) {
        if (leaf.on_base.contains({centre, {}})) return {folded(leaf, box)};
        continue;
      }
      const Length left = std::max(box.left(), leaf.on_base.left());
      const Length right = std::min(box.right(), leaf.on_base.right());
      const Length top = std::max(box.top(), leaf.on_base.top());
      const Length bottom = std::min(box.bottom(), leaf.on_base.bottom());
      if (left < right && top < bottom)
        boxes.push_back(folded(leaf, {{left, top}, {right - left, bottom - top}}));
    }
    return boxes;
  }

  std::vector<Slab>& layers(View view) {
    return view == View::Front ? front_ : view == View::Inside ? inside_ : back_;
  }

  void add(const PlacedOnFace& placed, const std::string& words, Length thickness, bool raised,
           const std::vector<Rect>& openings = {}, bool loops = false) {
    if (thickness <= Length{}) return;
    const Closed place = closed(placed);
    for (const Rect& box : place.boxes)
      layers(place.view).push_back({words, box, thickness, openings, raised, loops});
  }

  void unknown(ItemRef item) {
    if (std::find(unknown_.begin(), unknown_.end(), item) == unknown_.end())
      unknown_.push_back(item);
  }

  Length caliper(int stock) {
    const Stock* found = find_at(project_.stocks, stock);
    if (!found) return {};
    if (found->caliper <= Length{}) unknown({ItemKind::Stock, stock});
    return found->caliper;
  }

  void add_base() {
    if (card_.pieces.empty()) return;
    const Piece& base = card_.pieces.front();
    const Length thickness = caliper(base.stock);
    for (std::size_t i = 0; i < leaves_.size(); ++i) {
      const Rect box = folded(leaves_[i], leaves_[i].on_base);
      const std::string words = leaves_.size() == 1
                                    ? called(base)
                                    : fmt::format("leaf {} of the {}", i + 1, called(base));
      if (thickness > Length{}) base_.push_back({words, box, thickness, {}, false});
    }
  }

  void add_in_build_order() {
    std::vector<char> done(card_.pieces.size(), 0);
    for (const Build& build : card_.build) {
      const auto index = as_index(std::max(build.index, 0));
      if (build.kind == Build::Kind::Piece && index < done.size() && !done[index]) {
        done[index] = 1;
        add_piece(index);
      } else if (build.kind == Build::Kind::Ribbon && index < card_.ribbons.size()) {
        add_ribbon(card_.ribbons[index]);
      } else if (build.kind == Build::Kind::Embellishment && index < card_.embellishments.size()) {
        add_embellishment(card_.embellishments[index]);
      }
    }
    for (std::size_t i = 0; i < done.size(); ++i) // a card built in code may leave the order out
      if (!done[i]) add_piece(i);
  }

  void add_piece(std::size_t index) {
    const Piece& piece = card_.pieces[index];
    if (piece.role == Piece::Role::Base) return;
    const Length paper = caliper(piece.stock);
    const Adhesive* adhesive = find_at(project_.adhesives, piece.attach.adhesive);
    if (adhesive && piece.attach.raised && adhesive->thickness <= Length{})
      unknown({ItemKind::Adhesive, piece.attach.adhesive});
    const Length stuck =
        adhesive ? adhesive->thickness * std::max(piece.attach.layers, 1) : Length{};
    for (int copy = 0; copy < copies_of(piece); ++copy) {
      const std::optional<PlacedOnFace> placed = placed_on_face(project_, card_, index, copy);
      if (!placed) continue;
      const std::vector<Rect> openings = openings_of(piece, copy, *placed);
      if (adhesive)
        add(*placed, fmt::format("{} under the {}", adhesive->name, called(piece)), stuck,
            piece.attach.raised, openings);
      add(*placed, called(piece), goes_round(project_, card_, piece) ? paper * 2 : paper, false,
          openings);
    }
  }

  // On the closed card. A piece that spans leaves or is turned is taken as closed all over.
  std::vector<Rect> openings_of(const Piece& piece, int copy, const PlacedOnFace& placed) const {
    std::vector<Rect> openings;
    const Closed whole = closed(placed);
    if (piece.rotation.udeg != 0 || placed.box.size != piece.size || whole.boxes.size() != 1)
      return openings;
    for (const Window& window : piece.windows)
      for (const Rect& local : surely_open(window)) {
        const Point corner = box_on_carrier(piece, copy).origin + local.origin;
        const std::optional<PlacedOnFace> open =
            placed_on_face(card_, piece.on, {corner, local.size});
        if (!open) continue;
        const Closed place = closed({placed.root, open->box});
        if (place.boxes.size() != 1 || !whole.boxes.front().contains(place.boxes.front())) continue;
        const auto overlaps = [&](const Rect& other) {
          return other.overlaps(place.boxes.front());
        };
        if (std::none_of(openings.begin(), openings.end(), overlaps))
          openings.push_back(place.boxes.front());
      }
    return openings;
  }

  // A band lies on one side, a wrap goes round: two thicknesses. Where it is tied, about three
  // widths square, a knot crosses once more and the loops of a bow twice. Twine flattens to about
  // half under what lies on it (from experience, not from a standard).
  void add_ribbon(const RibbonUse& use) {
    const Ribbon* ribbon = find_at(project_.ribbons, use.ribbon);
    if (!ribbon) return;
    const Rect box = ribbon_box(use, ribbon->width, carrier_size(project_, card_, use.on));
    const std::optional<PlacedOnFace> placed = placed_on_face(card_, use.on, box);
    if (!placed) return;
    const Length once =
        ribbon->kind == Ribbon::Kind::Twine ? ribbon->thickness / 2 : ribbon->thickness;
    const int times = use.as == RibbonUse::As::Band ? 1 : 2;
    add(*placed, ribbon->name, once * times, true);
    if (use.as != RibbonUse::As::Bow && use.as != RibbonUse::As::Knot) return;
    const Length side = 3 * ribbon->width;
    const Point centre = box.centre();
    const std::optional<PlacedOnFace> tied =
        placed_on_face(card_, use.on, {{centre.x - side / 2, centre.y - side / 2}, {side, side}});
    const bool bow = use.as == RibbonUse::As::Bow;
    if (tied)
      add(*tied, fmt::format("{} of {}", bow ? "bow" : "knot", ribbon->name), once * (bow ? 2 : 1),
          true, {}, true);
  }

  void add_embellishment(const EmbellishmentUse& use) {
    const Embellishment* thing = find_at(project_.embellishments, use.embellishment);
    if (!thing) return;
    for (const Point& corner : use.places) {
      const std::optional<PlacedOnFace> placed =
          placed_on_face(card_, use.on, {corner, thing->size});
      if (!placed || !face_of(card_, placed->root)) continue;
      add(*placed, thing->name, thing->height, true);
      hard_ = hard_ || thing->hard;
    }
  }

  const Project& project_;
  const Card& card_;
  const std::vector<Leaf>& leaves_;
  std::vector<Slab> back_, base_, inside_, front_;
  std::vector<ItemRef> unknown_;
  bool hard_ = false;
};

} // namespace

LayerStack pile_of(const Project& project, const Card& card) {
  return LayerStacker(project, card).take();
}

namespace {

Rect rect_of(Length left, Length top, Length right, Length bottom) {
  return {{left, top}, {right - left, bottom - top}};
}

Rect around(Rect a, Rect b) {
  return rect_of(std::min(a.left(), b.left()), std::min(a.top(), b.top()),
                 std::max(a.right(), b.right()), std::max(a.bottom(), b.bottom()));
}

// Of negative size where they are apart.
Rect common_part(Rect a, Rect b) {
  return rect_of(std::max(a.left(), b.left()), std::max(a.top(), b.top()),
                 std::min(a.right(), b.right()), std::min(a.bottom(), b.bottom()));
}

} // namespace

std::vector<Weighted> weights_of(const LayerStack& pile) {
  std::optional<Rect> flat;
  for (const Slab& slab : pile.slabs)
    if (!slab.loops) flat = flat ? around(*flat, slab.box) : slab.box;
  std::vector<Weighted> weights;
  for (const Slab& slab : pile.slabs) {
    const Rect box = slab.loops && flat ? common_part(slab.box, *flat) : slab.box;
    if (box.size.width <= Length{} || box.size.height <= Length{}) continue;
    weights.push_back({box, slab.thickness});
    for (const Rect& opening : slab.openings) weights.push_back({opening, -slab.thickness});
  }
  return weights;
}

} // namespace leafwright::fit
