#pragma once

#include "measure/length.h"

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace leafwright {

struct Colour {
  std::uint8_t red = 0, green = 0, blue = 0;
  friend constexpr bool operator==(Colour, Colour) = default;
};

// The outline of a piece, a die or a window. Every outline fills the box (Size) it is given.
struct Shape {
  enum class Outline {
    Rectangle,
    Rounded, // corners of `radius`
    Circle,  // the largest in the box, centred
    Oval,
    Polygon,         // regular, `count` corners, first at the top, stretched to the box
    Star,            // `count` points, inner radius = outer x (1 - depth/half the shorter side)
    Scalloped,       // half-round bumps of about `radius`, a whole number of them on each side
    ScallopedCircle, // the same round a circle (stretched to the box), the bumps a multiple of four
    Banner,          // rectangle with a swallow-tail notch `depth` deep at the bottom
    Tag,  // rectangle with the two top corners cut off at 45° by `depth`, and a hole of `radius`
    Free, // `path` in a box of `path_size`, scaled to fit
  };
  enum class Edge { Plain, Stitched }; // stitched: a dashed line 1/16 in inside the edge
  Outline outline = Outline::Rectangle;
  Edge edge = Edge::Plain;
  Length radius{}, depth{};
  int count = 0;
  Path path;
  Size path_size{};
  friend bool operator==(const Shape&, const Shape&) = default;
};

// Told by one measure, its width, in a square box: "1 3/4 in across".
constexpr bool is_round(const Shape& shape) {
  return shape.outline == Shape::Outline::Circle ||
         shape.outline == Shape::Outline::ScallopedCircle;
}

// The closed outline with its box's top left corner at the origin; even-odd filling (a tag's hole
// is a second ring). Curves approximate circles to better than 0.03 % of the radius.
Path outline_path(const Shape& shape, Size box);
// Axis-parallel bounding box of a path (control points included only where the curve reaches).
Rect bounds(const Path& path);
// Moves a path; turns it clockwise about a point.
Path moved(Path path, Point by);
Path turned(const Path& path, Angle angle, Point about);
Path scaled(const Path& path, double sx, double sy);

// What a stamp image, a die face or an embellishment looks like, drawn in a box of its own size.
struct TextArt {
  std::string text;
  std::string face =
      "display";   // "display", "text", "display-italic", or a font file of the project
  Length height{}; // font size; the line is centred on `at`
  Point at;
};
struct PathArt {
  Path path;
  bool filled = true;
  Length stroke{}; // line width when not filled
};
struct ShapeArt {
  Shape shape;
  Rect box;
  bool filled = true;
  Length stroke{};
};
struct PictureArt {
  int picture = -1; // index into Project::pictures
  Rect box;
};

struct Art {
  std::variant<TextArt, PathArt, ShapeArt, PictureArt> what;
  // Stamped art takes the ink's colour; `tone` mixes it with the paper: 1 full, 0 nothing.
  double tone = 1.0;
  // A second ink (by order in the impression's `inks`) for images stamped in more than one colour.
  int ink = 0;
};

using Artwork = std::vector<Art>;

} // namespace leafwright
