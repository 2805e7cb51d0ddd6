#include "guide/figure/internal/surface.h"

#include "measure/index.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace leafwright::figure {

namespace {

constexpr Colour bright{255, 255, 255};
constexpr Colour gold{196, 160, 84};
constexpr Colour silver{206, 210, 214};

// A light band across, from the upper right to the lower left, at that share of the way.
void draw_sheen(Items& into, const Frame& frame, Size size, double from, double to,
                double opacity) {
  const auto w = static_cast<double>(size.width.nm), h = static_cast<double>(size.height.nm);
  const double whole = w + h;
  const auto at = [&](double x, double y) { return placed(frame, {from_nm(x), from_nm(y)}); };
  const double a = whole * from, b = whole * to;
  fill(into, polyline({at(a, 0), at(b, 0), at(b - h, h), at(a - h, h)}, true), bright, opacity);
}

// The same speckles each time: a low-discrepancy sequence (the golden ratio and its square).
std::vector<Point> speckles(Size size, Length apart) {
  const double area = static_cast<double>(size.width.nm) * static_cast<double>(size.height.nm);
  const auto each = static_cast<double>(apart.nm);
  const int count = std::clamp(static_cast<int>(area / (each * each)), 4, 500);
  std::vector<Point> places;
  double u = 0.5, v = 0.5;
  for (int i = 0; i < count; ++i) {
    u = std::fmod(u + 0.7548776662466927, 1.0);
    v = std::fmod(v + 0.5698402909980532, 1.0);
    places.push_back({from_nm(u * static_cast<double>(size.width.nm)),
                      from_nm(v * static_cast<double>(size.height.nm))});
  }
  return places;
}

void draw_speckles(Items& into, const Frame& frame, Size size, Length apart, Length width,
                   Colour colour, double opacity) {
  Path dots;
  for (const Point place : speckles(size, apart)) append_dot(dots, placed(frame, place));
  real_stroke(into, std::move(dots), colour, width, opacity, {}, Stroke::Cap::Round);
}

// The threads of a cloth.
void draw_weave(Items& into, const Frame& frame, Size size, Colour thread) {
  constexpr Length apart = micrometres(1400);
  Path lines;
  const auto line = [&](Point from, Point to) {
    append(lines, segment(placed(frame, from), placed(frame, to)));
  };
  for (Length x = apart; x < size.width; x += apart) line({x, {}}, {x, size.height});
  for (Length y = apart; y < size.height; y += apart) line({{}, y}, {size.width, y});
  real_stroke(into, std::move(lines), thread, micrometres(120), 0.3);
}

// Raised ribs from an embossing folder: a light line and a dark one beside it.
void draw_ribs(Items& into, const Frame& frame, Size size, Colour paper) {
  Path light;
  Path dark;
  const double w = static_cast<double>(size.width.nm);
  const double h = static_cast<double>(size.height.nm);
  constexpr double apart = 5.0e6;
  constexpr double off = 0.16e6;
  const auto add = [&](double x0, double y0, double x1, double y1) {
    const auto at = [&](double x, double y) { return placed(frame, {from_nm(x), from_nm(y)}); };
    append(light, segment(at(x0 - off, y0 - off), at(x1 - off, y1 - off)));
    append(dark, segment(at(x0 + off, y0 + off), at(x1 + off, y1 + off)));
  };
  const int count = static_cast<int>((w + h) / apart);
  for (int i = 0; i < count; ++i) {
    const double c = (i + 0.5) * apart;
    add(c - h, h, c, 0.0);
    add(w - c, 0.0, w - c + h, h);
  }
  real_stroke(into, std::move(dark), edge_colour(paper), micrometres(180), 0.35);
  real_stroke(into, std::move(light), {255, 255, 255}, micrometres(180), 0.65);
}

void draw_inked_edge(Items& into, const Path& outline, Colour ink) {
  struct Pass {
    std::int64_t width_um; // the inner half of it is seen
    double opacity;
  };
  for (const Pass pass : {Pass{9000, 0.10}, Pass{6200, 0.13}, Pass{3800, 0.18}, Pass{1800, 0.28}})
    real_stroke(into, outline, ink, micrometres(pass.width_um), pass.opacity);
}

// A worn edge: the paper's pale core shows in a broken line along it.
void draw_distressed(Items& into, const Path& outline, Colour paper) {
  const Colour core = mixed(paper, {255, 255, 255}, 0.7);
  const auto um = [](std::int64_t a) { return micrometres(a); };
  real_stroke(into, outline, core, um(1900), 0.55,
              {um(2600), um(700), um(900), um(1500), um(4100), um(500)});
  real_stroke(into, outline, core, um(1100), 0.8, {um(1200), um(900), um(3300), um(600)});
  real_stroke(into, outline, edge_colour(paper), um(420), 0.5,
              {um(800), um(1700), um(2300), um(400)});
}

// Colour that ran and dried with a darker rim.
void draw_wash(Items& into, const Frame& frame, Size size, const Path& outline, Colour ink) {
  fill(into, outline, ink, 0.14);
  const auto w = static_cast<double>(size.width.nm), h = static_cast<double>(size.height.nm);
  std::vector<Point> rim;
  constexpr int steps = 24;
  for (int i = 0; i <= steps; ++i) {
    const double share = static_cast<double>(i) / steps;
    const double wave = 0.06 * std::sin(7.0 * share) + 0.03 * std::sin(17.0 * share + 1.0);
    rim.push_back(placed(frame, {from_nm(w * share), from_nm(h * (0.62 + wave))}));
  }
  real_stroke(into, polyline(rim, false), ink, micrometres(500), 0.35);
  rim.push_back(placed(frame, Point{size.width, {}}));
  rim.push_back(placed(frame, Point{}));
  fill(into, polyline(rim, true), ink, 0.20);
}

// What a stencil or a folder leaves, as a pattern in one colour.
void draw_through(Items& into, const Finish& finish, const Project& project, const Frame& frame,
                  Size size, Colour colour, Stock::Pattern otherwise) {
  Stock mask;
  mask.figure = colour;
  mask.repeat = millimetres(9);
  mask.pattern = otherwise;
  if (const Tool* tool = find_at(project.tools, finish.tool);
      tool && tool->pattern != Stock::Pattern::Plain)
    mask.pattern = tool->pattern;
  draw_pattern(into, mask, frame, {{}, size});
}

void draw_embossing(Items& into, const Project& project, const Finish& finish, const Frame& frame,
                    Size size, Colour paper) {
  const Tool* folder = find_at(project.tools, finish.tool);
  if (!folder || folder->pattern == Stock::Pattern::Plain)
    return draw_ribs(into, frame, size, paper);
  const Length off = micrometres(200);
  draw_through(into, finish, project, then(shifted({off, off}), frame), size,
               mixed(paper, edge_colour(paper), 0.5), folder->pattern);
  draw_through(into, finish, project, frame, size, mixed(paper, bright, 0.6), folder->pattern);
}

// The fibres of the core along one edge, or all of them.
void draw_torn(Items& into, const Finish& finish, const Frame& frame, Size size,
               const Path& outline, Colour paper) {
  const Colour core = mixed(paper, bright, 0.8);
  const auto um = [](std::int64_t a) { return micrometres(a); };
  Path line = outline;
  const Length w = size.width, h = size.height, none{};
  const auto side = [&](Point from, Point to) {
    line = segment(placed(frame, from), placed(frame, to));
  };
  switch (finish.edge) {
  case Finish::Edge::All: break;
  case Finish::Edge::Top: side({none, none}, {w, none}); break;
  case Finish::Edge::Right: side({w, none}, {w, h}); break;
  case Finish::Edge::Bottom: side({none, h}, {w, h}); break;
  case Finish::Edge::Left: side({none, none}, {none, h}); break;
  }
  real_stroke(into, line, core, um(5200), 0.9, {um(3100), um(300), um(1900), um(200)});
  real_stroke(into, line, edge_colour(paper), um(2600), 0.35, {um(700), um(900), um(300), um(500)});
}

// Where the images are; the middle of a piece without any.
std::vector<Rect> coloured_areas(const Project& project, const Piece& piece) {
  std::vector<Rect> areas;
  for (const Impression& one : piece.stamped)
    for (const Rect& box : impression_boxes(project, one)) areas.push_back(box);
  if (areas.empty())
    areas.push_back({{piece.size.width / 4, piece.size.height / 4},
                     {piece.size.width / 2, piece.size.height / 2}});
  return areas;
}

} // namespace

void draw_surface(Items& into, const Stock& stock, const Frame& frame, Size size) {
  switch (stock.kind) {
  case Stock::Kind::Cardstock:
  case Stock::Kind::Patterned:
  case Stock::Kind::Vellum:
  case Stock::Kind::Clear:
  case Stock::Kind::AdhesiveSheet:
  case Stock::Kind::Magnet: return;
  case Stock::Kind::Foil:
    draw_sheen(into, frame, size, 0.15, 0.30, 0.35);
    draw_sheen(into, frame, size, 0.48, 0.56, 0.25);
    draw_sheen(into, frame, size, 0.72, 0.84, 0.3);
    return;
  case Stock::Kind::Mirror:
    draw_sheen(into, frame, size, 0.10, 0.42, 0.5);
    draw_sheen(into, frame, size, 0.46, 0.50, 0.6);
    return;
  case Stock::Kind::Glitter:
    draw_speckles(into, frame, size, micrometres(1900), micrometres(700), bright, 0.75);
    return;
  case Stock::Kind::Fabric: return draw_weave(into, frame, size, edge_colour(stock.colour));
  case Stock::Kind::Chipboard:
  case Stock::Kind::Watercolour:
    draw_speckles(into, frame, size, micrometres(3200), micrometres(450), edge_colour(stock.colour),
                  0.18);
    return;
  }
}

void draw_stitches(Items& into, const Shape& shape, Size size, const Frame& frame, Point at,
                   Colour paper, Length inset) {
  const Size inner{size.width - inset * 2, size.height - inset * 2};
  if (inner.width.nm <= 0 || inner.height.nm <= 0) return;
  const Path line = moved(outline_path(shape, inner), {at.x + inset, at.y + inset});
  const Colour thread =
      luminance(paper) > 0.3 ? mixed(paper, {40, 34, 28}, 0.5) : mixed(paper, {255, 255, 255}, 0.7);
  real_stroke(into, placed(frame, line), thread, micrometres(340), 0.9,
              {micrometres(1100), micrometres(700)}, Stroke::Cap::Butt);
}

void draw_finish(Items& into, const Project& project, const Piece& piece, const Finish& finish,
                 const Frame& frame, const Path& outline, const Stock& stock) {
  using Kind = Finish::Kind;
  const Size size = piece.size;
  const Ink* ink = find_at(project.inks, finish.ink);
  const Colour colour = ink ? ink->colour : mixed(stock.colour, edge_colour(stock.colour), 0.6);
  switch (finish.kind) {
  case Kind::Embossed: return draw_embossing(into, project, finish, frame, size, stock.colour);
  case Kind::Distressed: return draw_distressed(into, outline, stock.colour);
  case Kind::EdgeInked:
    if (ink) draw_inked_edge(into, outline, colour);
    return;
  case Kind::CornersRounded: return; // part of the outline
  case Kind::Washed: return draw_wash(into, frame, size, outline, colour);
  case Kind::Blended:
    return draw_through(into, finish, project, frame, size, mixed(stock.colour, colour, 0.55),
                        Stock::Pattern::Dots);
  case Kind::Splattered:
    draw_speckles(into, frame, size, millimetres(6), micrometres(900), colour, 0.7);
    return draw_speckles(into, frame, {size.width * 7 / 8, size.height * 5 / 8}, millimetres(11),
                         micrometres(1900), colour, 0.6);
  case Kind::Coloured:
    for (const Rect& box : coloured_areas(project, piece))
      fill(into, placed(frame, oval(box)), colour, 0.22);
    return;
  case Kind::Foiled:
    return draw_speckles(into, frame, size, millimetres(5), micrometres(1300), gold, 0.9);
  case Kind::Stitched:
    return draw_stitches(into, piece.shape, size, frame, {}, stock.colour, finish.radius);
  case Kind::Torn: return draw_torn(into, finish, frame, size, outline, stock.colour);
  case Kind::Glittered:
    return draw_speckles(into, frame, size, millimetres(8), micrometres(1500),
                         ink ? colour : silver, 0.85);
  }
}

} // namespace leafwright::figure
