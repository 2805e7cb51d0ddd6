#pragma once

#include "model/project.h"

#include <span>
#include <string_view>
#include <vector>

// Where the adhesive of a piece goes. Whoever counts, checks, draws or tells it asks here.
//
//   stuck_parts(project, card, piece)                   // boxes on the piece, seen from its front
//   sticking_row(Attach::Where::OpenTop).words          // "three edges"

namespace leafwright {

struct StickingRow {
  Attach::Where where;
  std::string_view word;  // in the project file: "open-top"
  std::string_view words; // in a sentence, behind "behind": "the left half"
  // Of a pocket: the side that stays open, "top"; empty of all else.
  std::string_view open;
};

// One row for each, in the order of the enumeration.
std::span<const StickingRow> sticking_rows();
const StickingRow& sticking_row(Attach::Where where);

inline bool is_stuck_in_part(const Attach& attach) {
  return attach.adhesive >= 0 && attach.where != Attach::Where::AllOver;
}
inline bool is_pocket(const Attach& attach) {
  return attach.adhesive >= 0 && !sticking_row(attach.where).open.empty();
}

// How wide a line of it is along an edge: the tape, a square, or a bead of glue.
Length line_width(const Adhesive& adhesive);

// The parts of the back that are stuck, as boxes on the piece with its front up; the whole of it
// where nothing is said, none of what is not stuck. A half of what lies across the edge where the
// front opens ends there.
std::vector<Rect> stuck_parts(const Project& project, const Card& card, const Piece& piece);

// The pocket that a loose piece is tucked under, as an index into the card's pieces; -1 when there
// is none.
int pocket_of(const Card& card, const Piece& piece);

// The room inside a pocket, as a box on its piece.
Rect room_of_pocket(const Project& project, const Card& card, const Piece& pocket);

} // namespace leafwright
