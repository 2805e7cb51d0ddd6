#pragma once

#include "measure/path.h"
#include "measure/shape.h"

#include <string>
#include <vector>

// What is cut and scored on a sheet at true size, for a cutting machine: lines without looks.

namespace leafwright::figure {

struct CutLines {
  struct Line {
    Point from, to;
    friend bool operator==(const Line&, const Line&) = default;
  };
  struct Score {
    Line line;
    bool mountain = false; // else a valley
  };
  std::string title;
  Size size;
  bool edge = false;          // the sheet's own edge is drawn
  std::vector<Line> cuts;     // straight
  std::vector<Path> outlines; // to be cut as well
  std::vector<Score> scores;
};

} // namespace leafwright::figure
