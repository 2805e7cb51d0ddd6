#include "guide/prose/pieces.h"

#include "guide/prose/where.h"
#include "guide/words/count.h"
#include "guide/words/list.h"
#include "guide/words/plural.h"
#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

bool same_impression(const Impression& a, const Impression& b) {
  return a.set == b.set && a.image == b.image && a.inks == b.inks && a.method == b.method &&
         a.times == b.times && a.fading == b.fading && a.rotation == b.rotation &&
         a.places == b.places;
}

bool same_window(const Window& a, const Window& b) {
  return a.shape == b.shape && a.size == b.size && a.at == b.at && a.die == b.die;
}

bool same_finish(const Finish& a, const Finish& b) {
  return a.kind == b.kind && a.ink == b.ink && a.radius == b.radius && a.with == b.with;
}

template <class T, class Same>
bool same_all(const std::vector<T>& a, const std::vector<T>& b, Same same) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), same);
}

bool same_attach(const Attach& a, const Attach& b) {
  return a.adhesive == b.adhesive && a.raised == b.raised && a.layers == b.layers &&
         a.count == b.count && a.length == b.length;
}

bool same_gaps(const Telling& telling, const Piece& a, const Piece& b) {
  const auto gaps = [&](const Piece& piece) {
    return gaps_in(carrier_size(telling.project, telling.card, piece.on), piece.at, piece.size,
                   piece.rotation);
  };
  const Gaps first = gaps(a);
  const Gaps second = gaps(b);
  return alike(first.left, second.left) && alike(first.top, second.top) &&
         alike(first.right, second.right) && alike(first.bottom, second.bottom);
}

std::vector<std::string> nouns(const Telling& telling, const Together& pieces) {
  std::vector<std::string> out;
  for (const int index : pieces)
    if (const Piece* piece = piece_at(telling.card, index)) out.push_back(piece_noun(*piece));
  return out;
}

// Letters in order, each once.
std::vector<std::string> letters(const Telling& telling, const Together& pieces) {
  std::vector<std::string> out;
  for (const int index : pieces) {
    const Piece* piece = piece_at(telling.card, index);
    if (piece && !piece->letter.empty() &&
        std::find(out.begin(), out.end(), piece->letter) == out.end())
      out.push_back(piece->letter);
  }
  return out;
}

} // namespace

const Piece& first_of(const Telling& telling, const Together& pieces) {
  return telling.card.pieces.at(as_index(pieces.at(0)));
}

int how_many(const Telling& telling, const Together& pieces) {
  int count = 0;
  for (const int index : pieces)
    if (const Piece* piece = piece_at(telling.card, index)) count += std::max(1, piece->copies);
  return count;
}

std::string together_noun(const Telling& telling, const Together& pieces,
                          std::string_view adjective) {
  std::string noun = words::listed_together(nouns(telling, pieces));
  if (!adjective.empty()) noun = std::string(adjective) + " " + noun;
  const int count = how_many(telling, pieces);
  if (pieces.size() == 1 && count > 1) return words::counted(count, noun);
  return noun;
}

void say_pieces(Prose& prose, const Telling& telling, const Together& pieces, bool sized,
                std::string_view adjective) {
  prose.say("the " + together_noun(telling, pieces, adjective));
  const std::vector<std::string> all = letters(telling, pieces);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i > 0) prose.say(i + 1 == all.size() ? " and" : ",");
    prose.letter(all[i]);
  }
  if (!sized) return;
  const Piece& piece = first_of(telling, pieces);
  const std::string size = piece_size_words(telling.project, piece.shape, piece.size);
  prose.aside((how_many(telling, pieces) > 1 ? "each " : "") + size);
}

std::string_view pronoun(const Telling& telling, const Together& pieces) {
  const bool many =
      how_many(telling, pieces) > 1 || words::is_plural(piece_noun(first_of(telling, pieces)));
  return many ? "them" : "it";
}

bool made_alike(const Telling& telling, const Piece& a, const Piece& b) {
  return a.role == b.role && a.stock == b.stock && a.size == b.size && a.shape == b.shape &&
         a.cut == b.cut && a.die == b.die && a.rotation == b.rotation && a.scores == b.scores &&
         a.copies == b.copies && a.on.kind == b.on.kind && a.position.over == b.position.over &&
         same_attach(a.attach, b.attach) && same_all(a.stamped, b.stamped, same_impression) &&
         same_all(a.windows, b.windows, same_window) &&
         same_all(a.finishes, b.finishes, same_finish) && same_gaps(telling, a, b);
}

} // namespace leafwright::guide
