#include "guide/figure/paint.h"

#include "guide/figure/internal/surface.h"
#include "measure/index.h"
#include "model/notch.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace leafwright::figure {

namespace {

std::uint8_t mixed_part(std::uint8_t from, std::uint8_t to, double share) {
  const double value = from + (static_cast<double>(to) - from) * share;
  return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0, 255.0)));
}

double linear(std::uint8_t part) {
  const double v = part / 255.0;
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

} // namespace

Colour mixed(Colour from, Colour to, double share) {
  return {mixed_part(from.red, to.red, share), mixed_part(from.green, to.green, share),
          mixed_part(from.blue, to.blue, share)};
}

double luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

Colour edge_colour(Colour paper) {
  const Colour dark{30, 26, 20};
  return luminance(paper) > 0.12 ? mixed(paper, dark, 0.52) : mixed(paper, dark, 0.75);
}

void fill(Items& into, Path path, Colour colour, double opacity) {
  into.emplace_back(SceneFill{std::move(path), colour, opacity});
}

void real_stroke(Items& into, Path path, Colour colour, Length width, double opacity,
                 std::vector<Length> dash, Stroke::Cap cap) {
  into.emplace_back(SceneStroke{std::move(path), colour, width, true, std::move(dash), cap,
                                Stroke::Join::Round, opacity});
}

void drawn_stroke(Items& into, Path path, Colour colour, Length width, double opacity,
                  std::vector<Length> dash) {
  into.emplace_back(SceneStroke{std::move(path), colour, width, false, std::move(dash),
                                Stroke::Cap::Butt, Stroke::Join::Miter, opacity});
}

void begin_thing(Items& into, const Build& build, int card) {
  static constexpr std::array kinds{"piece", "ribbon", "embellishment", "stamping", "step"};
  std::string id =
      fmt::format("{}/{}", kinds.at(as_index(static_cast<int>(build.kind))), build.index);
  if (card >= 0) id = fmt::format("{}/{}", card, id);
  into.emplace_back(SceneMark{"thing", std::move(id), {}});
}

void begin_image(Items& into, std::size_t number) {
  into.emplace_back(SceneMark{"thing", fmt::format("image/{}", number), {}});
}

void end_thing(Items& into) { into.emplace_back(SceneMark{"thing-end", {}, {}}); }

void soft_shadow(Items& into, const Path& path, int lift) {
  struct Step {
    double x, y, opacity; // millimetres
  };
  constexpr std::array<Step, 3> steps{{{1.10, 1.35, 0.05}, {0.62, 0.78, 0.08}, {0.26, 0.34, 0.13}}};
  const Colour dark{46, 36, 24};
  const double deep = 1.0 + 1.15 * std::min(lift, 3);
  for (const Step& step : steps)
    fill(into, moved(path, {from_nm(step.x * deep * 1e6), from_nm(step.y * deep * 1e6)}), dark,
         step.opacity);
}

namespace {

constexpr Length stitch_inset = inches(0, 1, 16);

const Stock* stock_of(const Project& project, int index) {
  if (index < 0 || index >= static_cast<int>(project.stocks.size())) return nullptr;
  return &project.stocks.at(as_index(index));
}

double ground_opacity(const Stock& stock) {
  if (stock.kind == Stock::Kind::Vellum) return 0.72;
  return stock.kind == Stock::Kind::Clear ? 0.22 : 1.0;
}

// Whether there is more to draw of it than a colour and a pattern.
bool has_surface(Stock::Kind kind) {
  return kind == Stock::Kind::Clear || kind >= Stock::Kind::Foil;
}

const Finish* finish_of(const Piece& piece, Finish::Kind kind) {
  for (const Finish& finish : piece.finishes)
    if (finish.kind == kind) return &finish;
  return nullptr;
}

// Light from the upper left catches the thickness of the sheet.
void draw_light_edge(Items& into, const Frame& frame, Rect box, Colour paper) {
  if (frame.cosine < 0.8) return; // turned away from the light
  const Length in = micrometres(150);
  const Rect inner = grown(box, -in);
  const Path corner = polyline(
      {{inner.left(), inner.bottom()}, {inner.left(), inner.top()}, {inner.right(), inner.top()}},
      false);
  real_stroke(into, placed(frame, corner), mixed(paper, {255, 255, 255}, 0.85), micrometres(260),
              0.75);
}

void draw_glare(Items& into, const Frame& frame, Size size) {
  const auto at = [&](double u, double v) {
    return placed(frame, {from_nm(static_cast<double>(size.width.nm) * u),
                          from_nm(static_cast<double>(size.height.nm) * v)});
  };
  fill(into, polyline({at(0.12, 0.0), at(0.30, 0.0), at(0.0, 0.34), at(0.0, 0.16)}, true),
       {255, 255, 255}, 0.55);
  fill(into, polyline({at(0.36, 0.0), at(0.41, 0.0), at(0.0, 0.46), at(0.0, 0.41)}, true),
       {255, 255, 255}, 0.45);
}

int lift_of(const Piece& piece) {
  return piece.attach.raised ? std::max(piece.attach.layers, 1) : 0;
}

bool plain_rectangle(const Piece& piece) {
  return piece.shape.outline == Shape::Outline::Rectangle &&
         finish_of(piece, Finish::Kind::CornersRounded) == nullptr;
}

} // namespace

Path piece_edge(const Piece& piece) {
  if (const Finish* rounding = finish_of(piece, Finish::Kind::CornersRounded);
      rounding != nullptr && piece.shape.outline == Shape::Outline::Rectangle)
    return rounded({{}, piece.size}, rounding->radius);
  if (Path notched = notched_rectangle(piece); !notched.empty()) return notched;
  return outline_path(piece.shape, piece.size);
}

Path piece_outline(const Piece& piece) {
  Path outline = piece_edge(piece);
  const bool cut_out = !notched_rectangle(piece).empty();
  for (const Window& window : piece.windows)
    if (window.notch == Window::Notch::None || !cut_out)
      append(outline, moved(outline_path(window.shape, window.size), window.at));
  return outline;
}

void draw_sheet(Items& into, const Stock& stock, const Path& outline, Rect area, const Frame& frame,
                const PaperStyle& style) {
  const Path path = placed(frame, outline);
  if (style.shadow) soft_shadow(into, path, 0);
  fill(into, path, stock.colour, ground_opacity(stock));
  if (stock.pattern != Stock::Pattern::Plain || stock.kind >= Stock::Kind::Foil) {
    into.emplace_back(SceneClip{path});
    if (stock.pattern != Stock::Pattern::Plain) draw_pattern(into, stock, frame, area);
    if (style.pattern_strength < 1.0) fill(into, path, stock.colour, 1.0 - style.pattern_strength);
    draw_surface(into, stock, frame, area.size);
    into.emplace_back(SceneUnclip{});
  }
  drawn_stroke(into, path, edge_colour(stock.colour), points(0.35), 0.9);
}

void draw_piece(Items& into, const Project& project, const Piece& piece, const Frame& frame,
                const PaperStyle& style) {
  static const Stock unknown; // a piece without a stock is a finding elsewhere; it is drawn plain
  const Stock* found = stock_of(project, piece.stock);
  const Stock& stock = found != nullptr ? *found : unknown;
  const Path local = piece_outline(piece);
  const Path path = placed(frame, local);
  const Rect area{{}, piece.size};

  if (style.shadow) soft_shadow(into, path, lift_of(piece));
  fill(into, path, stock.colour, ground_opacity(stock));
  const bool patterned = stock.pattern != Stock::Pattern::Plain;
  const bool stamped = style.stamped && !piece.stamped.empty();
  if (patterned || stamped || !piece.finishes.empty() || has_surface(stock.kind)) {
    into.emplace_back(SceneClip{path});
    if (patterned) {
      draw_pattern(into, stock, frame, area);
      if (style.pattern_strength < 1.0)
        fill(into, path, stock.colour, 1.0 - style.pattern_strength);
    }
    draw_surface(into, stock, frame, piece.size);
    for (const Finish& finish : piece.finishes)
      draw_finish(into, project, piece, finish, frame, path, stock);
    if (stamped)
      for (std::size_t i = 0; i < piece.stamped.size(); ++i) {
        begin_image(into, i);
        draw_impression(into, project, piece.stamped[i], frame, stock.colour);
        end_thing(into);
      }
    if (stock.kind == Stock::Kind::Clear) draw_glare(into, frame, piece.size);
    into.emplace_back(SceneUnclip{});
  }
  if (plain_rectangle(piece) && style.shadow) draw_light_edge(into, frame, area, stock.colour);
  drawn_stroke(into, path, edge_colour(stock.colour), points(0.35), 0.9);
  if (piece.shape.edge == Shape::Edge::Stitched)
    draw_stitches(into, piece.shape, piece.size, frame, {}, stock.colour, stitch_inset);
  for (const Window& window : piece.windows)
    if (window.shape.edge == Shape::Edge::Stitched) {
      // Stitches run outside the opening: the sheet is there.
      const Size outer{window.size.width + stitch_inset * 4, window.size.height + stitch_inset * 4};
      draw_stitches(into, window.shape, outer, frame,
                    {window.at.x - stitch_inset * 2, window.at.y - stitch_inset * 2}, stock.colour,
                    stitch_inset);
    }
}

} // namespace leafwright::figure
