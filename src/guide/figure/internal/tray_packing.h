#pragma once

#include "guide/figure/internal/label_layout.h"

// Things laid out flat in rows, each with its words. Printed millimetres.

namespace leafwright::figure {

// One way for a thing to stand: how it lies, and its words beside or below it.
struct Way {
  std::size_t lie = 0;
  double scale = 1;
  double width = 0, height = 0;    // of both together
  double words_x = 0, words_y = 0; // top left corner of the words, from that of both
  double words_width = 0, words_height = 0;
  struct Line {
    std::string words;
    bool bold = false;
  };
  std::vector<Line> lines;
};

struct Spot {
  std::size_t way = 0;
  double x = 0, y = 0; // top left corner
};
struct Rows {
  std::vector<Spot> spots; // one for each thing; empty when a thing is wider than the room
  double height = 0;
};

inline constexpr double thing_gap = 4.5; // between things, and between rows

// Rows from left to right, and within a row columns from top to bottom: the order is kept, so it
// reads. The whole is as low as any choice of breaks and ways makes it with columns filled in turn
// (dynamic programming over the rows, one height limit at a time), and each row is spread over the
// width as far as that looks like a row.
Rows pack_rows(const std::vector<std::vector<Way>>& things, double width);

// The largest whole percent at which all things of `scene` find room.
double packing_scale(const Scene& scene, Size room, const Look& look, const text::Fonts& fonts);
Composed compose_packed(const Scene& scene, Size room, double scale, const Look& look,
                        const text::Fonts& fonts);

} // namespace leafwright::figure
