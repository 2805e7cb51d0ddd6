#pragma once

#include "measure/length.h"
#include "model/outline.h"

#include <vector>

// Where something lies in a view: carried things move and turn with what carries them. Also the few
// plain paths that drawings are made of.

namespace leafwright::figure {

// A rigid move: turned about the origin, then shifted. Doubles hold whole nanometres exactly up to
// 9 000 km, so an unturned frame moves exactly.
struct Frame {
  double cosine = 1.0, sine = 0.0;
  double dx = 0.0, dy = 0.0; // nanometres
  bool turned() const { return sine != 0.0 || cosine != 1.0; }
};

Frame shifted(Point by);
Frame turned_about(Angle angle, Point centre);
// First `inner`, then `outer`.
Frame then(const Frame& inner, const Frame& outer);
// A thing with its top left corner at `at` on what `carrier` places, turned about its own centre.
Frame lying_on(const Frame& carrier, Point at, Size size, Angle rotation);

Point placed(const Frame& frame, Point point);
Path placed(const Frame& frame, Path path);
Angle angle_of(const Frame& frame);
// The upright box around a placed rectangle.
Rect placed_bounds(const Frame& frame, Rect rect);

Path rectangle(Rect rect);
Path rounded(Rect rect, Length radius);
Path oval(Rect rect);
Path segment(Point from, Point to);
Path polyline(const std::vector<Point>& points, bool closed);
void append(Path& into, const Path& path);
// A segment too short to see: with a round cap and a width it is a dot, the cheapest one there is.
void append_dot(Path& into, Point centre);

Rect grown(Rect rect, Length by);
Rect united(Rect a, Rect b);
Rect common(Rect a, Rect b); // of size 0 when they do not meet
Length from_nm(double nm);

} // namespace leafwright::figure
