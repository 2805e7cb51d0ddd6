#include "guide/internal/prose/step_words.h"

#include "measure/index.h"

#include <cstddef>
#include <vector>

namespace leafwright::guide {
namespace {

// The same image in the same inks, once each, and as far from the left edge as from the right.
bool are_a_pair(const Impression& a, const Impression& b, Length image, Length carrier) {
  const bool alike = a.set == b.set && a.image == b.image && a.image >= 0 && a.inks == b.inks &&
                     a.method == b.method && a.rotation == b.rotation;
  const bool once = a.places.size() == 1 && b.places.size() == 1 && a.times == 1 && b.times == 1;
  return alike && once && a.rotation.udeg == 0 && a.places[0].y == b.places[0].y &&
         a.places[0].x < b.places[0].x && a.places[0].x + b.places[0].x + image == carrier;
}

Length width_of_image(const Project& project, const Impression& one) {
  const StampSet* set = find_at(project.stamp_sets, one.set);
  const auto* image = set ? find_at(set->images, one.image) : nullptr;
  return image ? image->size.width : Length{};
}

} // namespace

Card with_pairs(const Project& project, const Card& card) {
  Card paired = card;
  for (Piece& piece : paired.pieces)
    for (std::size_t i = 0; i + 1 < piece.stamped.size(); ++i) {
      Impression& left = piece.stamped[i];
      const Impression& right = piece.stamped[i + 1];
      if (!are_a_pair(left, right, width_of_image(project, left), piece.size.width)) continue;
      left.places.push_back(right.places[0]);
      left.times = 2;
      left.arranged = Impression::Arranged::Row;
      piece.stamped.erase(piece.stamped.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    }
  return paired;
}

} // namespace leafwright::guide
