#pragma once

#include "guide/figure/frame.h"
#include "guide/figure/scene.h"
#include "model/project.h"

#include <vector>

// How materials look: paper, patterns, ink, ribbon, embellishments. Everything is given in the
// coordinates of the thing itself and placed by a frame; light falls from the upper left.

namespace leafwright::figure {

inline constexpr Length none{};
inline const Colour line_ink{38, 36, 33}; // of edges and score lines

using Items = std::vector<SceneItem>;

// --- Colour -----------------------------------------------------------------------------------

Colour mixed(Colour from, Colour to, double share); // 0 = from, 1 = to
double
luminance(Colour colour); // 0 black to 1 white, relative luminance of sRGB (ITU-R BT.709 weights)
Colour edge_colour(Colour paper); // of the hairline around a sheet of that colour

// --- Small helpers ----------------------------------------------------------------------------

void fill(Items& into, Path path, Colour colour, double opacity = 1.0);
// A line that is part of the object: its width is real.
void real_stroke(Items& into, Path path, Colour colour, Length width, double opacity = 1.0,
                 std::vector<Length> dash = {}, Stroke::Cap cap = Stroke::Cap::Butt);
// A line of the drawing: its width is printed.
void drawn_stroke(Items& into, Path path, Colour colour, Length width, double opacity = 1.0,
                  std::vector<Length> dash = {});
// Two or three offset shapes of low opacity below a thing that stands `lift` layers high (0 =
// flat).
void soft_shadow(Items& into, const Path& path, int lift);

// What is drawn between these belongs to one entry of a card's making: marks that paper does not
// show, and by which a screen tells what is pointed at. The mark's id is "piece/3", by the number
// in the card's list; on sheets, where cards lie mixed, "0/piece/3" with that of the card before
// it.
void begin_thing(Items& into, const Build& build, int card = -1);
// An image within its piece: "image/0", by the number in Piece::stamped.
void begin_image(Items& into, std::size_t number);
void end_thing(Items& into);

// --- Paper ------------------------------------------------------------------------------------

// The figures of a patterned paper on `area` of a piece. Not clipped.
void draw_pattern(Items& into, const Stock& stock, const Frame& frame, Rect area);

// The outline of a piece with its corners as finished and its windows cut out, at the origin.
Path piece_outline(const Piece& piece);
// The same without windows.
Path piece_edge(const Piece& piece);

struct PaperStyle {
  bool shadow = true;
  bool stamped = true;
  double pattern_strength = 1.0; // diagrams draw patterns fainter
};
// A piece as it looks, with its stamped images.
void draw_piece(Items& into, const Project& project, const Piece& piece, const Frame& frame,
                const PaperStyle& style = {});
// A plain part of a card's base, an envelope: fill, pattern, hairline edge.
void draw_sheet(Items& into, const Stock& stock, const Path& outline, Rect area, const Frame& frame,
                const PaperStyle& style = {});

// --- Ink --------------------------------------------------------------------------------------

// All impressions of one stamping onto paper of colour `paper`; `frame` is the carrier's.
void draw_impression(Items& into, const Project& project, const Impression& impression,
                     const Frame& frame, Colour paper);
// The image of a stamp in a box of its own size, its inks in order.
void draw_artwork(Items& into, const Artwork& artwork, const Frame& frame,
                  const std::vector<Colour>& inks, Colour paper, double tone);
// The box of each impression on the carrier, before it is turned.
std::vector<Rect> impression_boxes(const Project& project, const Impression& impression);

// What an ink's mark is drawn of within a square, by which inks are told apart in grey: lines of a
// real width, and discs where there is a radius, filled where there is no width.
struct MarkPart {
  Path path;
  Point centre;
  Length radius, width;
};
std::vector<MarkPart> ink_mark(Ink::Mark mark, Rect box);

// A chip of an ink with its mark.
void draw_ink(Items& into, const Ink& ink, Rect box);

// --- Ribbon and embellishments ------------------------------------------------------------------

// Where the flat part of a ribbon lies on a carrier of the given size.
Rect ribbon_box(const Project& project, const RibbonUse& use, Size carrier);
void draw_ribbon(Items& into, const Project& project, const RibbonUse& use, Size carrier,
                 const Frame& frame);
// A cord through a hole that lies near the upper edge of what `frame` places.
void draw_threaded(Items& into, const Project& project, const RibbonUse& use, Rect hole,
                   const Frame& frame);
void draw_embellishment(Items& into, const Embellishment& what, const Frame& frame);

} // namespace leafwright::figure
