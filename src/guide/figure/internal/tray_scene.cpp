#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/scenes.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/form.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace leafwright::figure {

namespace {

template <class T>
const T* item_at(const std::vector<T>& all, int index) {
  return index >= 0 && index < static_cast<int>(all.size()) ? &all.at(as_index(index)) : nullptr;
}

bool has_blank(const Piece& piece) {
  return piece.cut != Piece::CutBy::Trimmer && piece.cut_from != piece.size &&
         piece.cut_from.width.nm > 0 && piece.cut_from.height.nm > 0;
}

// A quarter turn to the left, so that what was below the fold lies to its right.
Frame quarter_turned(Size size) {
  return then(turned_about(degrees(-90), {}), shifted({{}, size.width}));
}

// A piece at the origin as it was cut, in one of its two lies.
LaidOut::Lie lie_of(const Project& project, const Card& card, int index, bool turned) {
  const Piece& piece = at(card.pieces, index);
  LaidOut::Lie lie;
  begin_thing(lie.items, {Build::Kind::Piece, index});
  const Frame frame = turned ? quarter_turned(piece.size) : Frame{};
  const Rect box = placed_bounds(frame, {{}, piece.size});
  lie.box = box;
  if (has_blank(piece)) {
    const Size blank = turned ? piece.cut_from.turned() : piece.cut_from;
    const Point c = box.centre();
    const Rect around{{c.x - blank.width / 2, c.y - blank.height / 2}, blank};
    fill(lie.items, rectangle(around), {255, 255, 255}, 0.55);
    drawn_stroke(lie.items, rectangle(around), line_ink, points(0.6), 0.9,
                 {micrometres(1100), micrometres(800)});
    lie.box = united(box, around);
  }
  draw_piece(lie.items, project, piece, frame);
  for (const Score& score : scores_of(card, piece)) {
    const Point from = score.vertical ? Point{score.at, {}} : Point{{}, score.at};
    const Point to =
        score.vertical ? Point{score.at, piece.size.height} : Point{piece.size.width, score.at};
    draw_score_line(lie.items, placed(frame, from), placed(frame, to), score.mountain, line_ink);
  }
  lie.items.emplace_back(SceneMark{"piece", piece.id, lie.box});
  end_thing(lie.items);
  return lie;
}

// "Cream", "Cream, from a blank 3 in square", "Kraft, 80 lb cover" of a base, which is named after
// its paper.
std::string paper_words(const Project& project, const Piece& piece) {
  std::string words = words::sentence_case(stock_name(project, piece.stock));
  const Stock* stock = item_at(project.stocks, piece.stock);
  if (piece.role == Piece::Role::Base && stock != nullptr && !stock->weight_words.empty())
    words += ", " + words::tie_measures(stock->weight_words);
  if (has_blank(piece))
    words += ", from a blank " + size_text(piece.cut_from, project.printing, true);
  return words;
}

LaidOut laid_piece(const Project& project, const Card& card, int index) {
  const Piece& piece = at(card.pieces, index);
  LaidOut thing;
  const bool base = piece.role == Piece::Role::Base;
  const bool tall = piece.size.height > piece.size.width;
  if (!base || tall) thing.lies.push_back(lie_of(project, card, index, false));
  // The base has no way up before it is folded; its long side goes along the row.
  if (base) thing.lies.push_back(lie_of(project, card, index, tall));
  thing.letter = piece.letter;
  std::string name(words::without_article(piece_name(piece)));
  if (piece.copies > 1) name += fmt::format(" ×\u00A0{}", piece.copies);
  thing.lines = {words::sentence_case(name), piece_size(piece, project.printing)};
  thing.lines.push_back(paper_words(project, piece));
  if (const Die* die = item_at(project.dies, piece.die))
    thing.lines.push_back(words::tie_measures(die->name));
  for (const Window& window : piece.windows)
    if (const Die* die = item_at(project.dies, window.die))
      thing.lines.push_back(words::tie_measures("Window: " + lower_first(die->name)));
  return thing;
}

// A length of ribbon; where it is longer than the row needs, broken in the middle.
LaidOut laid_ribbon(const Project& project, const Card& card, int index, const Ribbon& ribbon) {
  const RibbonUse& use = at(card.ribbons, index);
  LaidOut thing;
  constexpr Length longest = millimetres(100);
  const bool shortened = use.cut() > longest;
  const Size size{shortened ? longest : use.cut(), ribbon.width};
  RibbonUse flat = use;
  flat.as = RibbonUse::As::Band;
  flat.vertical = false;
  flat.at = size.height / 2;
  LaidOut::Lie lie;
  lie.box = grown({{}, size}, micrometres(500));
  const Rect reach = grown(lie.box, millimetres(2));
  const Length middle = size.width / 2;
  const Length half = micrometres(1600);
  const Length slant = reach.size.height / 4;
  const auto part = [&](bool left) { // what is drawn on one side of the break
    const Length at = left ? middle - half : middle + half;
    const Length far = left ? reach.left() : reach.right();
    return polyline({{far, reach.top()},
                     {at + slant, reach.top()},
                     {at - slant, reach.bottom()},
                     {far, reach.bottom()}},
                    true);
  };
  begin_thing(lie.items, {Build::Kind::Ribbon, index});
  if (!shortened) {
    draw_ribbon(lie.items, project, flat, size, Frame{});
  } else {
    for (const bool left : {true, false}) {
      lie.items.emplace_back(SceneClip{part(left)});
      draw_ribbon(lie.items, project, flat, size, Frame{});
      lie.items.emplace_back(SceneUnclip{});
      const Length at = left ? middle - half : middle + half;
      drawn_stroke(lie.items, segment({at + slant, reach.top()}, {at - slant, reach.bottom()}),
                   line_ink, points(0.5));
    }
    lie.box = united(lie.box, {{middle, reach.top()}, {{}, reach.size.height}});
  }
  end_thing(lie.items);
  lie.items.emplace_back(SceneMark{"ribbon", use.id, lie.box});
  thing.lies.push_back(std::move(lie));
  thing.lines = {ribbon.name,
                 length_text(use.cut(), project.printing) + (shortened ? ", drawn short" : "")};
  return thing;
}

LaidOut laid_embellishment(const Card& card, int index, const Embellishment& what) {
  const EmbellishmentUse& use = at(card.embellishments, index);
  LaidOut thing;
  LaidOut::Lie lie;
  const Length side = std::max(what.size.width, what.size.height);
  const Length shown = std::min(side, millimetres(6));
  thing.own_scale =
      side.nm > 0 ? static_cast<double>(shown.nm) / static_cast<double>(side.nm) : 1.0;
  begin_thing(lie.items, {Build::Kind::Embellishment, index});
  draw_embellishment(lie.items, what, Frame{});
  end_thing(lie.items);
  lie.box = {{}, what.size};
  lie.items.emplace_back(SceneMark{"embellishment", what.id, lie.box});
  thing.lies.push_back(std::move(lie));
  const std::size_t count = std::max<std::size_t>(use.places.size(), 1);
  thing.lines = {fmt::format("{}\u00A0× {}", count, lower_first(what.name))};
  return thing;
}

LaidOut laid_ink(const Ink& ink) {
  LaidOut thing;
  LaidOut::Lie lie;
  lie.box = {{}, {micrometres(4600), micrometres(4600)}};
  draw_ink(lie.items, ink, lie.box);
  lie.items.emplace_back(SceneMark{"ink", ink.id, lie.box});
  thing.own_scale = 1.0;
  thing.lies.push_back(std::move(lie));
  thing.lines = {ink.name + " ink"};
  return thing;
}

// By first use.
std::vector<int> inks_of(const Project& project, const Card& card) {
  std::vector<int> inks;
  const auto add = [&](int ink) {
    if (item_at(project.inks, ink) != nullptr && std::ranges::find(inks, ink) == inks.end())
      inks.push_back(ink);
  };
  for (const Piece& piece : card.pieces) {
    for (const Impression& impression : piece.stamped)
      for (const int ink : impression.inks) add(ink);
    for (const Finish& finish : piece.finishes) add(finish.ink);
  }
  for (const FaceStamping& stamping : card.face_stampings)
    for (const int ink : stamping.impression.inks) add(ink);
  return inks;
}

std::string told(const LaidOut& thing) {
  std::string words = thing.letter;
  for (std::size_t i = 0; i < thing.lines.size(); ++i)
    words += (words.empty() ? "" : i == 0 ? " " : ", ") + thing.lines.at(i);
  return words;
}

} // namespace

Scene tray(const Project& project, const Card& card) {
  Scene scene;
  std::vector<std::size_t> order(card.pieces.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto large = [&](std::size_t i) { return area(card.pieces.at(i).size); };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const bool base_a = card.pieces.at(a).role == Piece::Role::Base;
    const bool base_b = card.pieces.at(b).role == Piece::Role::Base;
    return base_a != base_b ? base_a : large(b) < large(a);
  });
  for (const std::size_t i : order)
    scene.laid_out.push_back(laid_piece(project, card, static_cast<int>(i)));
  for (int i = 0; i < std::ssize(card.ribbons); ++i)
    if (const Ribbon* ribbon = item_at(project.ribbons, at(card.ribbons, i).ribbon))
      scene.laid_out.push_back(laid_ribbon(project, card, i, *ribbon));
  for (int i = 0; i < std::ssize(card.embellishments); ++i)
    if (const Embellishment* what =
            item_at(project.embellishments, at(card.embellishments, i).embellishment))
      scene.laid_out.push_back(laid_embellishment(card, i, *what));
  for (const int ink : inks_of(project, card))
    scene.laid_out.push_back(laid_ink(project.inks.at(as_index(ink))));
  std::string all;
  for (const LaidOut& thing : scene.laid_out) all += (all.empty() ? "" : "; ") + told(thing);
  scene.alternative =
      sentence(fmt::format("The pieces of “{}” laid out flat: {}", card.title, all));
  scene.largest_scale = 0.6;
  scene.backdrop = true;
  if (!scene.laid_out.empty()) {
    scene.box = scene.laid_out.front().lies.front().box;
    scene.items.emplace_back(SceneMark{"tray", card.id, scene.box});
  }
  return scene;
}

} // namespace leafwright::figure
