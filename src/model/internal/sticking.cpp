#include "model/sticking.h"

#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"

#include <algorithm>
#include <array>

namespace leafwright {

namespace {

using Where = Attach::Where;

constexpr std::array sticking_table{
    StickingRow{Where::AllOver, "all-over", "all of it", ""},
    StickingRow{Where::LeftHalf, "left-half", "the left half", ""},
    StickingRow{Where::RightHalf, "right-half", "the right half", ""},
    StickingRow{Where::TopHalf, "top-half", "the top half", ""},
    StickingRow{Where::BottomHalf, "bottom-half", "the bottom half", ""},
    StickingRow{Where::LeftEdge, "left-edge", "the left edge", ""},
    StickingRow{Where::RightEdge, "right-edge", "the right edge", ""},
    StickingRow{Where::TopEdge, "top-edge", "the top edge", ""},
    StickingRow{Where::BottomEdge, "bottom-edge", "the bottom edge", ""},
    StickingRow{Where::OpenLeft, "open-left", "three edges", "left"},
    StickingRow{Where::OpenRight, "open-right", "three edges", "right"},
    StickingRow{Where::OpenTop, "open-top", "three edges", "top"},
    StickingRow{Where::OpenBottom, "open-bottom", "three edges", "bottom"},
    StickingRow{Where::Frame, "frame", "the frame", ""},
    StickingRow{Where::Middle, "middle", "the middle", ""},
};

constexpr bool sticking_in_order() {
  for (std::size_t i = 0; i < sticking_table.size(); ++i)
    if (sticking_table[i].where != static_cast<Where>(i)) return false;
  return true;
}
static_assert(sticking_in_order());

constexpr Length bead = millimetres(3); // of liquid glue, common practice

// Where a half ends, across: in the middle, or at the opening that the piece lies across.
Length half_across(const Card& card, const Piece& piece) {
  const Length half = piece.size.width / 2;
  const Face* face = face_of(card, piece.on);
  const std::optional<Length> seam = opening_edge(card.plan);
  if (!seam || !face || face->seen.empty()) return half;
  for (const Face::Seen& seen : face->seen) {
    if (seen.view != View::Front) continue;
    const Length at = *seam - seen.at.x - piece.at.x;
    return at > Length{} && at < piece.size.width ? at : half;
  }
  return half;
}

struct Lines {
  bool left, top, right, bottom;
};

Lines lines_of(Where where) {
  switch (where) {
  case Where::LeftEdge: return {true, false, false, false};
  case Where::RightEdge: return {false, false, true, false};
  case Where::TopEdge: return {false, true, false, false};
  case Where::BottomEdge: return {false, false, false, true};
  case Where::OpenLeft: return {false, true, true, true};
  case Where::OpenRight: return {true, true, false, true};
  case Where::OpenTop: return {true, false, true, true};
  case Where::OpenBottom: return {true, true, true, false};
  default: return {true, true, true, true};
  }
}

// Lines along edges, each no wider than leaves room beside it, and never over a window.
std::vector<Rect> along_edges(const Piece& piece, Lines lines, Length width) {
  const auto [w, h] = piece.size;
  Length left = std::min(width, w / 2), right = left, top = std::min(width, h / 2), bottom = top;
  for (const Window& window : piece.windows) {
    if (window.notch != Window::Notch::None) continue;
    const auto narrow = [](Length& line, Length rim) {
      if (rim > Length{}) line = std::min(line, rim);
    };
    narrow(left, window.at.x);
    narrow(top, window.at.y);
    narrow(right, w - window.at.x - window.size.width);
    narrow(bottom, h - window.at.y - window.size.height);
  }
  std::vector<Rect> parts;
  const Length from = lines.top ? top : Length{}, to = lines.bottom ? h - bottom : h;
  if (lines.top) parts.push_back({{}, {w, top}});
  if (lines.left) parts.push_back({{Length{}, from}, {left, to - from}});
  if (lines.right) parts.push_back({{w - right, from}, {right, to - from}});
  if (lines.bottom) parts.push_back({{Length{}, h - bottom}, {w, bottom}});
  return parts;
}

} // namespace

std::span<const StickingRow> sticking_rows() { return sticking_table; }
const StickingRow& sticking_row(Where where) {
  return sticking_table.at(static_cast<std::size_t>(where));
}

Length line_width(const Adhesive& adhesive) {
  if (adhesive.kind == Adhesive::Kind::Glue) return bead;
  const Length width = adhesive.measured == Adhesive::Measured::ByCount
                           ? std::min(adhesive.piece.width, adhesive.piece.height)
                           : adhesive.piece.width;
  return width > Length{} ? width : millimetres(6);
}

std::vector<Rect> stuck_parts(const Project& project, const Card& card, const Piece& piece) {
  const Adhesive* adhesive = find_at(project.adhesives, piece.attach.adhesive);
  if (!adhesive) return {};
  const auto [w, h] = piece.size;
  const Length across = half_across(card, piece), down = h / 2;
  switch (piece.attach.where) {
  case Where::AllOver: return {{{}, piece.size}};
  case Where::LeftHalf: return {{{}, {across, h}}};
  case Where::RightHalf: return {{{across, Length{}}, {w - across, h}}};
  case Where::TopHalf: return {{{}, {w, down}}};
  case Where::BottomHalf: return {{{Length{}, down}, {w, h - down}}};
  case Where::Middle: return {{{w / 3, h / 3}, {w / 3, h / 3}}};
  default: return along_edges(piece, lines_of(piece.attach.where), line_width(*adhesive));
  }
}

int pocket_of(const Card& card, const Piece& piece) {
  if (piece.attach.adhesive >= 0) return -1;
  for (const std::string& id : piece.layers_below) {
    const auto pocket = std::ranges::find(card.pieces, id, &Piece::id);
    if (pocket != card.pieces.end() && is_pocket(pocket->attach))
      return static_cast<int>(pocket - card.pieces.begin());
  }
  return -1;
}

Rect room_of_pocket(const Project& project, const Card& card, const Piece& pocket) {
  Length left{}, top{}, right = pocket.size.width, bottom = pocket.size.height;
  for (const Rect& line : stuck_parts(project, card, pocket)) {
    const bool upright = line.size.height > line.size.width;
    if (upright && line.left() == Length{})
      left = line.right();
    else if (upright)
      right = line.left();
    else if (line.top() == Length{})
      top = line.bottom();
    else
      bottom = line.top();
  }
  return {{left, top}, {right - left, bottom - top}};
}

} // namespace leafwright
