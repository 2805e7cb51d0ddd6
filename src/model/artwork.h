#pragma once

#include "model/shape.h"

#include <string>
#include <variant>
#include <vector>

namespace leafwright {

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
