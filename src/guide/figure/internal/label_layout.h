#pragma once

#include "guide/figure/scene.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// Where labels go. Every label comes with candidates: places it could take, each with the boxes and
// lines it would occupy and a cost (lower reads better). `choose_places` picks one each so that
// nothing collides. All lengths are printed millimetres, y down.

namespace leafwright::figure {

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};
Box grown(Box box, double by);
Box united(Box a, Box b);
bool overlap(const Box& a, const Box& b); // touching edges do not
bool inside(const Box& inner, const Box& outer);

struct LabelStroke { // a straight line of a label
  enum class Kind { Dimension, Extension, Leader };
  Kind kind = Kind::Dimension;
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};
// Whether the line meets the inside of the box.
bool crosses(const LabelStroke& line, const Box& box);
// Whether two lines may not both be drawn: a crossing of anything but two extension lines, or two
// dimension or leader lines on top of each other. Lines may meet at their ends.
bool clash(const LabelStroke& a, const LabelStroke& b);

struct Candidate {
  std::vector<Box> boxes; // text and badges
  std::vector<LabelStroke> lines;
  double cost = 0;
  // What to draw, kept with the place it belongs to.
  struct Text {
    std::size_t line = 0; // of the label's lines
    double x = 0, y = 0;  // start of the baseline
    bool upwards = false; // reads from bottom to top
  };
  std::vector<Text> texts;
  struct Tip { // of an arrow pointing along (dx, dy), or a tick across that direction
    double x = 0, y = 0, dx = 0, dy = 0;
    bool tick = false;
  };
  std::vector<Tip> tips;
  double dot_x = 0, dot_y = 0;     // centre of a badge, or end of a leader
  bool leader = false;             // a dot stands at the leader's end
  double badge_x = 0, badge_y = 0; // centre of the badge before a label's first line
  bool plate = false;              // light ground behind the text
  Box reach;                       // around all boxes and lines; set by `choose_places`
};

enum class Crossings {
  None,     // no dimension line is crossed
  Tolerated // by extension and leader lines, as drawing practice allows where there is no other way
};
bool collide(const Candidate& a, const Candidate& b, Crossings crossings = Crossings::None);

// The index of the chosen candidate of each label, or -1 when no free place was found. Labels come
// in order of importance. Greedy in that order; then labels left over push others aside (each push
// makes the pushed one heavier, so that it ends), and the whole starts again with them first where
// that helps; then single and paired changes that lower the total cost. The result never holds two
// candidates that collide. Deterministic.
std::vector<int> choose_places(std::vector<std::vector<Candidate>>& labels, int rounds = 4);

// From the wishes of a scene to candidate places, at one scale.

// The printed sizes of lettering, from the look and the fonts. Millimetres.
struct Lettering {
  const text::Fonts* fonts = nullptr;
  Length size, dimension, badge; // font sizes of labels and dimensions; height of a badge
  double em = 0;                 // font size
  double above = 0;              // from the baseline to the top of figures and capitals
  double below = 0;              // to the bottom of descenders
  double leading = 0;            // from baseline to baseline
};
// Never below 8 pt, 9 pt for dimensions: what hands at a table still read.
Lettering lettering(const Look& look, const text::Fonts& fonts);
// The same for the words of dimensions.
Lettering dimension_lettering(const Lettering& lettering);
// The shaped words of a line of a label: the first line of several is bold.
text::Shaped shaped(const Lettering& lettering, const std::string& words, bool bold);
double width_mm(const text::Shaped& words);

// The ground on which candidates stand: the scene at a scale, its (0, 0) at the origin.
struct LabelArea {
  double scale = 1;
  Box object;                  // around everything drawn
  std::vector<Box> solid;      // labels outside keep off these
  std::vector<Box> keep_clear; // labels inside keep off these
  std::optional<Box> room;     // nothing may leave this
  bool inside_first = false;   // labels with choice enough inside are not offered places outside
};
LabelArea ground_of(const Scene& scene, double scale);
Box at_scale(Rect rect, double scale); // in printed mm
bool meets_any(const Box& box, const std::vector<Box>& others);

// A label before its place is chosen.
struct LabelRequest {
  std::vector<Candidate> candidates;
  int rank = 0;
  enum class Kind { Dimension, Badge, Label } kind = Kind::Dimension;
  std::size_t index = 0; // in the scene's list of that kind
};
// All labels in order of importance: badges, then by rank.
std::vector<LabelRequest> wishes(const Scene& scene, const LabelArea& ground,
                                 const Lettering& lettering);

// The letter of a piece in its place, beside it, or with a leader line to it.
std::vector<Candidate> badge_candidates(const Badge& badge, const LabelArea& ground,
                                        const Lettering& lettering);

// The width that columns of upright dimension lines keep between them: of the widest of their words
// that stand in a gap of their line. Printed mm.
double widest_upright_dimension(const std::vector<Dimension>& dimensions,
                                const Lettering& lettering);

// A dimension line beside the object in several tiers on each allowed side, or in the gap that it
// measures; its words in a gap of the line, with arrows, with ticks when it is short, or beside it
// when they do not fit. Words are always upright. `column` as above.
std::vector<Candidate> dimension_candidates(const Dimension& dimension, const LabelArea& ground,
                                            const Lettering& lettering, double column);

// The letter of a piece in a dot: a pill where two letters want more room.
void draw_letter(const std::string& letter, Point centre, const Look& look,
                 const Lettering& lettering, Drawing& into);
inline constexpr double number_height = 0.88; // of the ring of a cut, as a share of a badge
inline Length badge_text(const Lettering& lettering) { return lettering.badge * 66 / 100; }
// The width of that dot in printed mm; `number` for the ring of a cut.
double letter_width(const std::string& letter, const Lettering& lettering, bool number = false);

// Draws one placed label onto `composed` and lists its boxes and lines there. `shift` is where the
// ground's (0, 0) lies in the drawing.
void draw_label(const Scene& scene, const LabelRequest& wish, const Candidate& candidate,
                Point shift, const Look& look, const Lettering& lettering, Composed& composed);

} // namespace leafwright::figure
