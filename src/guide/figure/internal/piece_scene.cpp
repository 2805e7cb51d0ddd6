#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/scenes.h"
#include "measure/index.h"
#include "model/form.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace leafwright::figure {

namespace {

std::string fold_name(const Score& score) {
  return score.mountain ? "mountain fold" : "valley fold";
}

bool needs_plate(const Project& project, int stock) {
  if (stock < 0 || stock >= static_cast<int>(project.stocks.size())) return false;
  const Stock& found = project.stocks.at(as_index(stock));
  return found.pattern != Stock::Pattern::Plain || luminance(found.colour) < 0.40;
}

// Score lines of a piece: drawn, kept clear of labels, measured from the left or the top, named.
void add_scores(Scene& scene, const std::vector<Score>& scores, Size size, bool plate,
                const Printing& printing) {
  std::vector<Length> upright, level;
  for (const Score& score : scores) {
    const Point from = score.vertical ? Point{score.at, {}} : Point{{}, score.at};
    const Point to = score.vertical ? Point{score.at, size.height} : Point{size.width, score.at};
    draw_score_line(scene.items, from, to, score.mountain, line_ink);
    scene.keep_clear.push_back(clear_of_line(from, to));
    scene.items.emplace_back(SceneMark{"score", {}, {from, {to.x - from.x, to.y - from.y}}});
    (score.vertical ? upright : level).push_back(score.at);
  }
  // Each from the edge from which the words measure it, the nearest line first.
  const auto from_one_edge = [&](std::vector<Length>& stops, bool vertical) {
    std::sort(stops.begin(), stops.end());
    for (std::size_t i = 0; i < stops.size(); ++i) {
      Dimension part;
      part.from = vertical ? Point{{}, size.height} : Point{size.width, {}};
      part.to = vertical ? Point{stops[i], size.height} : Point{size.width, stops[i]};
      part.words = number_text(stops[i], printing);
      part.side = vertical ? Dimension::Side::Below : Dimension::Side::Right;
      part.rank = static_cast<int>(i);
      part.from_of = part.to_of = Rect{{}, size};
      scene.dimensions.push_back(std::move(part));
    }
  };
  from_one_edge(upright, true);
  from_one_edge(level, false);

  // Valley or mountain in words, once where all folds are alike.
  const bool alike = std::all_of(scores.begin(), scores.end(), [&](const Score& score) {
    return score.mountain == scores.front().mountain && score.vertical == scores.front().vertical;
  });
  for (std::size_t i = 0; i < scores.size() && (!alike || i == 0); ++i) {
    const Score& score = scores.at(i);
    Label label{{scores.size() > 1 && alike ? fold_name(score) + "s" : fold_name(score)},
                {{}, size}};
    label.anchors = {score.vertical ? Point{score.at, size.height / 2}
                                    : Point{size.width / 2, score.at}};
    label.beside = true;
    label.plate = plate;
    scene.labels.push_back(std::move(label));
  }
}

bool has_upright_pattern(const Project& project, int stock) {
  if (stock < 0 || stock >= static_cast<int>(project.stocks.size())) return false;
  const Stock& found = project.stocks.at(as_index(stock));
  return found.upright && found.pattern != Stock::Pattern::Plain;
}

} // namespace

Scene piece(const Project& project, const Card& card, std::size_t piece_index) {
  if (piece_index >= card.pieces.size()) return {};
  return piece(project, card, card.pieces[piece_index], 0);
}

Scene piece(const Project& project, const Card& card, const Piece& piece, std::size_t first_image) {
  Scene scene;
  const bool base = piece.role == Piece::Role::Base;
  const Rect whole{{}, piece.size};
  PaperStyle style;
  style.stamped = !base;
  draw_piece(scene.items, project, piece, Frame{}, style);
  scene.box = grown(whole, micrometres(800));
  scene.items.emplace_back(SceneMark{"piece", piece.id, whole});

  add_size(scene.dimensions, whole, project.printing);
  for (Dimension& dimension : scene.dimensions)
    dimension.side =
        dimension.from.y == dimension.to.y ? Dimension::Side::Above : Dimension::Side::Left;
  add_scores(scene, scores_of(card, piece), piece.size, needs_plate(project, piece.stock),
             project.printing);
  if (base) add_pop_ups(scene, project, card);
  for (const Window& window : piece.windows) {
    const Rect opening{window.at, window.size};
    if (first_image == 0) {
      add_size(scene.dimensions, opening, project.printing);
      add_distances(scene.dimensions, opening, piece.size, project);
    }
    scene.keep_clear.push_back(opening);
  }
  for (std::size_t i = 0; i < piece.stamped.size(); ++i) {
    for (const Rect& image : impression_boxes(project, piece.stamped[i]))
      scene.keep_clear.push_back(image);
    if (i >= first_image) add_image_distances(scene, project, piece.stamped[i], piece.size);
  }
  if (!piece.letter.empty()) {
    const Length in = std::min({millimetres(9), piece.size.width / 6, piece.size.height / 6});
    scene.badges.push_back({piece.letter, {in, in}, whole});
  }
  if (has_upright_pattern(project, piece.stock))
    draw_direction_arrow(scene.items, whole, false, line_ink);

  scene.alternative =
      fmt::format("{}: {} of {}", piece_name(piece), piece_size(piece, project.printing),
                  stock_name(project, piece.stock));
  for (const Score& score : scores_of(card, piece))
    scene.alternative +=
        fmt::format(", scored {} from the {} as a {}", length_text(score.at, project.printing),
                    score.vertical ? "left" : "top", fold_name(score));
  for (const Window& window : piece.windows)
    scene.alternative += fmt::format(
        ", with a window {}, {}", shape_size(window.shape, window.size, project.printing),
        where_words(measured_gaps(piece.size, {window.at, window.size}, {}), {}, project));
  scene.alternative = sentence(scene.alternative);
  return scene;
}

Scene shape_template(const Project& project, const Card& card, std::size_t piece_index) {
  Scene scene;
  if (piece_index >= card.pieces.size()) return scene;
  const Piece& piece = card.pieces.at(piece_index);
  const Rect whole{{}, piece.size};
  const Path outline = piece_outline(piece);
  drawn_stroke(scene.items, outline, line_ink, points(0.5));
  draw_cross(scene.items, whole.centre(), millimetres(2), line_ink, points(0.3));
  scene.items.emplace_back(SceneMark{"template", piece.id, whole});
  scene.box = grown(whole, micrometres(300));
  scene.fixed_scale = 1.0;
  add_size(scene.dimensions, whole, project.printing);
  for (const Window& window : piece.windows) scene.keep_clear.push_back({window.at, window.size});
  for (const Rect& dot : clear_of_path(outline)) scene.keep_clear.push_back(dot);
  const Length arm = millimetres(3);
  scene.keep_clear.push_back(grown(Rect{whole.centre(), {}}, arm));
  Label label{{piece_name(piece), piece_size(piece, project.printing)}, whole};
  label.letter = piece.letter;
  scene.labels.push_back(std::move(label));
  scene.alternative = sentence(fmt::format("Full-size outline of the {}, {}", piece_name(piece),
                                           piece_size(piece, project.printing)));
  return scene;
}

bool gauged_from_left(const std::vector<Score>& scores) {
  const auto upright = std::ranges::count_if(scores, &Score::vertical);
  return upright * 2 >= static_cast<std::ptrdiff_t>(scores.size());
}

bool gauged_from_both(const std::vector<Score>& scores, Size size) {
  const bool from_left = gauged_from_left(scores);
  const Length whole = from_left ? size.width : size.height;
  return std::ranges::any_of(scores, [&](const Score& score) {
    return score.vertical == from_left && score.at * 2 > whole;
  });
}

namespace {

// A fold by its distance from the edge nearer to it: the paper is turned round for the others.
struct Stop {
  std::string near_fold, far_fold; // names; empty = none at this distance from that edge
  bool mountain = false;
};

std::map<Length, Stop> stops_of(const std::vector<Score>& scores, bool from_left, Length across) {
  std::map<Length, Stop> stops;
  for (const Score& score : scores) {
    if (score.vertical != from_left) continue;
    const bool is_far = score.at * 2 > across;
    Stop& stop = stops[is_far ? across - score.at : score.at];
    (is_far ? stop.far_fold : stop.near_fold) = fold_name(score);
    stop.mountain = score.mountain;
  }
  return stops;
}

std::vector<std::string> stop_words(const Stop& stop, const std::string& near,
                                    const std::string& far) {
  if (stop.near_fold == stop.far_fold) return {stop.near_fold, "from both edges"};
  if (stop.far_fold.empty()) return {stop.near_fold, "from the " + near};
  if (stop.near_fold.empty()) return {stop.far_fold, "from the " + far};
  return {stop.near_fold + " from the " + near, stop.far_fold + " from the " + far};
}

} // namespace

Scene score_gauge(const Project& project, const Card& card, std::size_t piece_index) {
  Scene scene;
  if (piece_index >= card.pieces.size()) return scene;
  const Piece& piece = card.pieces.at(piece_index);
  const std::vector<Score>& scores = scores_of(card, piece);
  if (scores.empty()) return scene;
  const bool from_left = gauged_from_left(scores);
  const bool both = gauged_from_both(scores, piece.size);
  const std::string near = from_left ? "left" : "top", far = from_left ? "right" : "bottom";
  const auto stops = stops_of(scores, from_left, from_left ? piece.size.width : piece.size.height);
  // It ends a little past the last fold: what comes after need not be measured.
  const Size strip{stops.rbegin()->first + millimetres(8), millimetres(20)};
  const Rect whole{{}, strip};
  drawn_stroke(scene.items, polyline({{{}, strip.height}, {}, {strip.width, {}}}, false), line_ink,
               points(0.8));
  scene.items.emplace_back(SceneMark{"template", piece.id, whole});
  scene.box = grown(whole, micrometres(400));
  scene.fixed_scale = 1.0;
  scene.alternative = fmt::format("Full-size strip for the folds of the {}", piece_name(piece));
  for (const auto& [at, stop] : stops) {
    const Point from{at, {}}, to{at, strip.height};
    draw_score_line(scene.items, from, to, stop.mountain, line_ink);
    scene.items.emplace_back(SceneMark{"score", {}, {from, {{}, strip.height}}});
    scene.keep_clear.push_back(clear_of_line(from, to));
    Dimension dimension;
    dimension.from = {{}, strip.height};
    dimension.to = to;
    dimension.words = number_text(at, project.printing);
    dimension.side = Dimension::Side::Below;
    dimension.from_of = dimension.to_of = whole;
    scene.dimensions.push_back(std::move(dimension));
    Label label{stop_words(stop, near, far), whole};
    if (!both) label.lines.resize(1);
    label.anchors = {{at, strip.height / 2}};
    label.beside = true;
    const std::string length = length_text(at, project.printing);
    for (const auto& [fold, edge] :
         {std::pair(stop.near_fold, near), std::pair(stop.far_fold, far)})
      if (!fold.empty())
        scene.alternative += fmt::format(", a {} {} from the {} edge", fold, length, edge);
    scene.labels.push_back(std::move(label));
  }
  scene.alternative = sentence(scene.alternative);
  return scene;
}

} // namespace leafwright::figure
