#pragma once

#include "basics/reuse.h"
#include "guide/figure/drawing.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

// A scene is a figure before its scale is known: shapes in real lengths and requests for labels
// that are printed at one size whatever the scale. `compose` turns it into a Drawing for the room
// it gets.

namespace leafwright::figure {

// Shapes. Positions and sizes are real; a stroke's width is real only when it says so (the line of
// a stamped image), else it is a printed width that does not change with the scale.
struct SceneFill {
  Path path;
  Colour colour;
  double opacity = 1.0;
};
struct SceneStroke {
  Path path;
  Colour colour;
  Length width = micrometres(88);
  bool real_width = false;
  std::vector<Length> dash; // printed lengths, or real when real_width
  Stroke::Cap cap = Stroke::Cap::Butt;
  Stroke::Join join = Stroke::Join::Miter;
  double opacity = 1.0;
};
// Text that is part of the object (a stamped greeting), centred on `centre`, real size.
struct SceneText {
  std::string text;
  text::Role role = text::Role::Display;
  Length height; // font size
  Point centre;
  Angle turned{};
  Colour colour;
};
struct SceneImage {
  int picture = -1;
  Rect box;
  Angle turned{};
};
struct SceneClip {
  Path path;
};
struct SceneUnclip {};
struct SceneMark {
  std::string kind, id;
  Rect box; // real; compose keeps its size as Mark::real
};
using SceneItem =
    std::variant<SceneFill, SceneStroke, SceneText, SceneImage, SceneClip, SceneUnclip, SceneMark>;

// A dimension line with arrows or ticks, set outside the object beside `from`-`to`, or inside the
// reveal when there is room; the engine finds a place where nothing collides.
struct Dimension {
  Point from,
      to; // real points on the object; their level or upright distance, the larger, is meant
  std::string words; // "4 1/4"
  enum class Side { Any, Above, Below, Left, Right } side = Side::Any;
  int rank = 0;       // 0 is placed first and nearest
  bool gap = false;   // measures the empty space between two things: it may stand in that space
  bool brief = false; // also said beside the figure: left out where it finds no room
  // The things on whose edges `from` and `to` lie: extension lines start at their near edge.
  std::optional<Rect> from_of{}, to_of{};
};
// The letter of a piece in a dot, or the number of a cut in a ring.
struct Badge {
  enum class Kind { Letter, Number };
  std::string letter;
  Point at;    // wished centre, real
  Rect within; // real: the area it may move in
  Kind kind = Kind::Letter;
};
// Words in or near a place, with a leader line when they must stand off it.
struct Label {
  std::vector<std::string> lines; // first line bold
  Rect within;                    // real: set inside when it fits at the printed size ...
  bool outside = false;           // ... or always outside with a leader line
  bool plate = false; // on a light plate, where what lies below would make it hard to read
  std::vector<Point> anchors{}; // real: where its leader line may end; empty = a point of `within`
  bool beside = false;          // inside, it keeps near the first anchor (the name of a fold)
  std::string letter{};         // a badge before the first line
  // Where the words find no room inside, the letter stands alone (without one: nothing does). For
  // what is also said beside the figure.
  bool brief = false;
  int rank = 1;
};

// A thing laid out flat with its words beside or below it. Where it stands is found by `compose`,
// for the room and the scale.
struct LaidOut {
  struct Lie { // a way that it may lie; its items may hold marks
    std::vector<SceneItem> items;
    Rect box; // real: all of it
  };
  std::vector<Lie> lies;             // the first is preferred
  std::vector<std::string> lines;    // first line bold
  std::string letter;                // a badge before the first line
  std::optional<double> own_scale{}; // of small things, which are shown larger than the others
};

struct Scene {
  // Defined in scene.cpp.
  Scene();
  Scene(const Scene&);
  Scene(Scene&&) noexcept;
  Scene& operator=(const Scene&);
  Scene& operator=(Scene&&) noexcept;
  ~Scene();

  Rect box;                     // real: everything drawn lies in it, labels excepted
  std::vector<Rect> solid;      // real: what labels outside must not cover; empty = `box`
  std::vector<Rect> keep_clear; // real: fold lines and the like that labels inside must not cover
  std::vector<SceneItem> items;
  std::vector<Dimension> dimensions;
  std::vector<Badge> badges;
  std::vector<Label> labels;
  std::string alternative;           // what a reader who cannot see it is told
  std::optional<double> fixed_scale; // 1.0 for full-size templates
  double largest_scale = 1.0;
  std::string scale_group; // figures of one group are drawn at one scale
  bool backdrop = false;   // a tinted ground behind it
  // Things without a place of their own: set in rows, in this order, as wide as the room. A scene
  // has these or the rest; its scale is asked of `fitting_scale`, for it does not follow from
  // `box`.
  std::vector<LaidOut> laid_out{};
};

// A line that belongs to a label, for tests.
struct LabelLine {
  enum class Kind { Dimension, Extension, Leader };
  Kind kind = Kind::Dimension;
  Point from, to; // printed
  int label = 0;  // index into Composed::label_boxes: the label it belongs to
};

struct Composed {
  Drawing drawing;
  double scale = 1.0;                 // printed : real
  std::vector<Rect> label_boxes;      // for tests: printed boxes of all labels
  std::vector<LabelLine> label_lines; // and the lines that go with them
  Point object_origin;                // printed: where the scene's real (0, 0) lies in the drawing
  bool crowded = false;               // a label found no free place and was left out (a finding)
};

struct Look {
  Colour ink{38, 36, 33}, quiet{116, 110, 103}, accent{0x3d, 0x5e, 0x49}, paper{255, 255, 255},
      ground{0xf3, 0xef, 0xe4};
  Length label_size = points(8);
  Length dimension_size = points(9);
  Length badge_size = points(12.5); // diameter
};

// The scale at which `scene` and its labels fit into `room` (never above its limits).
double fitting_scale(const Scene& scene, Size room, const Look& look, const text::Fonts& fonts);
// Draws it. `scale` 0 = as large as fits. The drawing is no larger than `room` and its size is
// tight.
Composed compose(const Scene& scene, Size room, double scale, const Look& look,
                 const text::Fonts& fonts);

// Two scenes of one fingerprint give one drawing, in the same room, at the same scale and with the
// same fonts.
Fingerprint fingerprint_of(const Scene& scene, const Look& look);
void feed(Fingerprinter& to, const Look& look);

} // namespace leafwright::figure
