#include "text/internal/glyph_outline.h"

#include <memory>
#include <utility>

namespace leafwright::text {
namespace {

struct DrawDeleter {
  void operator()(hb_draw_funcs_t* draw) const { hb_draw_funcs_destroy(draw); }
};
using DrawHandle = std::unique_ptr<hb_draw_funcs_t, DrawDeleter>;

// Collects an outline. HarfBuzz gives font units, y up; a Path is real lengths, y down.
struct Tracer {
  Path path;
  Length size;
  int units_per_em = 1000;

  Point point(float x, float y) const {
    const double scale = static_cast<double>(size.nm) / units_per_em;
    const auto nm = [scale](float units) {
      const double exact = static_cast<double>(units) * scale;
      return Length{static_cast<std::int64_t>(exact + (exact < 0 ? -0.5 : 0.5))};
    };
    return {nm(x), -nm(y)};
  }
};

DrawHandle tracing() {
  hb_draw_funcs_t* draw = hb_draw_funcs_create();
  hb_draw_funcs_set_move_to_func(
      draw,
      [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y, void*) {
        auto& tracer = *static_cast<Tracer*>(data);
        tracer.path.push_back({Segment::Kind::Move, {}, {}, tracer.point(x, y)});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_line_to_func(
      draw,
      [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x, float y, void*) {
        auto& tracer = *static_cast<Tracer*>(data);
        tracer.path.push_back({Segment::Kind::Line, {}, {}, tracer.point(x, y)});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_cubic_to_func(
      draw,
      [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, float x1, float y1, float x2, float y2,
         float x, float y, void*) {
        auto& tracer = *static_cast<Tracer*>(data);
        tracer.path.push_back(
            {Segment::Kind::Curve, tracer.point(x1, y1), tracer.point(x2, y2), tracer.point(x, y)});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_close_path_func(
      draw,
      [](hb_draw_funcs_t*, void* data, hb_draw_state_t*, void*) {
        static_cast<Tracer*>(data)->path.push_back({Segment::Kind::Close, {}, {}, {}});
      },
      nullptr, nullptr);
  return DrawHandle(draw);
}

} // namespace

Path traced(hb_font_t* font, std::uint32_t glyph, Length size, int units_per_em) {
  Tracer tracer{{}, size, units_per_em};
  const DrawHandle draw = tracing();
  hb_font_get_glyph_shape(font, glyph, draw.get(), &tracer);
  return std::move(tracer.path);
}

} // namespace leafwright::text
