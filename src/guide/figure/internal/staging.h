#pragma once

#include "guide/figure/paint.h"
#include "measure/index.h"

#include <optional>
#include <vector>

// Where everything of a card stands in one picture of it.

namespace leafwright::figure {

// What a picture shows: a view of the card, or a side of its envelope.
enum class Stage { Front, Inside, Back, EnvelopeFront, EnvelopeInside };
Stage stage_of(View view);

// A thing that carries others, or a piece, as it stands in the picture.
struct Standing {
  Frame frame;
  Size size;
  int level = 0; // leaves behind others come first
};

// One leaf of the base, or the envelope, seen in the picture.
struct SeenLeaf {
  Path outline; // in the picture
  Rect box;
};

class Staging {
 public:
  Staging(const Project& project, const Card& card, Stage stage);

  Stage stage() const { return stage_; }
  Size size() const {
    return size_;
  } // of the card or envelope in this picture; 0 when there is none
  int levels() const { return static_cast<int>(leaves_.size()); }
  const std::vector<SeenLeaf>& leaves(int level) const { return leaves_.at(as_index(level)); }
  // Scores in the picture (the card opened flat).
  const std::vector<Score>& folds() const { return folds_; }

  // Nothing when it is not seen in this picture.
  std::optional<Standing> carrier(const Carrier& on) const;
  // All copies of a piece.
  std::vector<Standing> piece(int index) const;
  // The piece as it is seen: a band is cut off where it turns round the edge.
  Piece visible_piece(int index, Standing& standing) const;

 private:
  void stage_card();
  void stage_front(Rect whole);
  void place_faces(View view);
  void stage_envelope();
  void add_leaf(int level, Rect box, Path outline);
  std::optional<Standing> carrier_at(const Carrier& on, std::size_t depth) const;
  std::vector<Standing> piece_at(int index, std::size_t depth) const;

  const Project& project_;
  const Card& card_;
  Stage stage_;
  Size size_;
  std::vector<std::vector<SeenLeaf>> leaves_;
  std::vector<Score> folds_;
  struct SeenFace {
    int face = -1;
    Point at;
    int level = 0;
  };
  std::vector<SeenFace> faces_;
};

// The picture in which a build entry is best seen.
Stage best_stage(const Project& project, const Card& card, const Build& build);

// The pocket that the piece of a build entry is tucked into, as an index into the pieces; -1 when
// there is none.
int pocket_of_build(const Card& card, const Build& build);
// The first `count` build entries in the order in which they lie on each other.
std::vector<std::size_t> drawing_order(const Card& card, std::size_t count);

// Draws the leaves and everything of the first `count` build entries that is seen.
void draw_stage(Items& into, const Project& project, const Card& card, const Staging& staging,
                std::size_t count);
// The leaves of one level alone, with their folds.
void draw_leaves(Items& into, const Project& project, const Card& card, const Staging& staging,
                 int level);
// One build entry, wherever it is seen.
void draw_build(Items& into, const Project& project, const Card& card, const Staging& staging,
                const Build& build);

// The hole that a cord is knotted through; nothing when it is not.
std::optional<Rect> threaded_hole(const Project& project, const Card& card, const RibbonUse& use);

// The outlines of what a build entry puts in the picture, for emphasis and for the scene's box.
std::vector<Path> outlines_of(const Project& project, const Card& card, const Staging& staging,
                              const Build& build);

void draw_envelope_front(Items& into, Colour paper, Size size);
// Lying on its face with the flap open: what lies inside is seen. The pockets come after it.
void draw_envelope_inside(Items& into, Colour paper, Size size);
// The pockets of the back, over what lies inside.
void draw_envelope_pockets(Items& into, Colour paper, Size size);

} // namespace leafwright::figure
