#pragma once

#include "basics/parsed.h"
#include "guide/figure/drawing.h"
#include "model/project.h"
#include "output/internal/list/display_list.h"
#include "text/fonts.h"

#include <cairo.h>

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace leafwright::preview {

struct SurfaceDeleter {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceDeleter>;
struct ContextDeleter {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Context = std::unique_ptr<cairo_t, ContextDeleter>;

// Plays a display list on a cairo context whose unit is a millimetre, y down.
class CairoPen {
 public:
  // Lines thinner than `finest_mm` are drawn that thick, as PDF readers do on screens.
  CairoPen(cairo_t* context, const text::Fonts& fonts, std::span<const Picture> pictures,
           double finest_mm)
      : context_(context), fonts_(fonts), pictures_(pictures), outlines_(fonts),
        finest_mm_(finest_mm) {}

  // The first thing that went wrong, if any.
  std::optional<ParseError> play(const std::vector<DrawItem>& items);

 private:
  // An image surface and the pixels it looks at.
  struct Loaded {
    std::vector<unsigned char> pixels;
    Surface surface;
    int width = 0, height = 0;
  };

  void draw(const Fill& fill);
  void draw(const Stroke& stroke);
  void draw(const TextRun& run);
  void draw(const Image& image);
  void draw(const PushClip& clip);
  void draw(const PopClip& clip);
  // Nothing to see: for the PDF's readers and for tests.
  void draw(const Link&) {}
  void draw(const Begin&) {}
  void draw(const End&) {}
  void draw(const Mark&) {}

  bool trace(const Path& path);
  void set_colour(Colour colour, double opacity);
  const Loaded* load(int picture);

  cairo_t* context_;
  const text::Fonts& fonts_;
  std::span<const Picture> pictures_;
  GlyphOutlines outlines_;
  std::map<int, Loaded> loaded_;
  double finest_mm_ = 0;
  int clips_ = 0;
  std::optional<ParseError> failed_;
};

} // namespace leafwright::preview
