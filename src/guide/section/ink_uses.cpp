#include "guide/section/ink_uses.h"

#include "guide/prose/naming.h"
#include "guide/words/article.h"
#include "measure/index.h"

namespace leafwright::guide {
namespace {

std::string place_name(const Card& card, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_at(card, on.index);
    return piece ? piece_noun(*piece) : std::string();
  }
  case Carrier::Kind::Face: return std::string(words::without_article(face_words(card, on.index)));
  case Carrier::Kind::EnvelopeFront:
  case Carrier::Kind::EnvelopeInside: break;
  }
  return "envelope";
}

void add_piece(std::vector<InkUse>& out, int card_index, const Piece& piece) {
  for (const Impression& one : piece.stamped)
    out.push_back({card_index, one.set, one.image, piece_noun(piece), &one, one.inks});
  for (const Finish& finish : piece.finishes)
    if (finish.kind == Finish::Kind::EdgeInked && finish.ink >= 0)
      out.push_back({card_index, -1, -1, piece_noun(piece), nullptr, {finish.ink}});
}

} // namespace

std::vector<InkUse> ink_uses(const Project& project) {
  std::vector<InkUse> out;
  for (std::size_t c = 0; c < project.cards.size(); ++c) {
    const Card& card = project.cards[c];
    const int index = static_cast<int>(c);
    for (const Build& build : card.build) {
      if (build.kind == Build::Kind::Piece) {
        if (const Piece* piece = piece_at(card, build.index)) add_piece(out, index, *piece);
      } else if (build.kind == Build::Kind::Stamping && build.index >= 0 &&
                 as_index(build.index) < card.face_stampings.size()) {
        const FaceStamping& one = card.face_stampings[as_index(build.index)];
        out.push_back({index, one.impression.set, one.impression.image, place_name(card, one.on),
                       &one.impression, one.impression.inks});
      }
    }
  }
  return out;
}

} // namespace leafwright::guide
