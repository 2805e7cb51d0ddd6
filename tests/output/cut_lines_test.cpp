#include "output/pictures.h"

#include <doctest/doctest.h>

using namespace leafwright;

TEST_CASE("cuts and scores are layers of an SVG in true size, exact to the nanometre") {
  figure::CutLines lines;
  lines.title = "Gate & latch";
  lines.size = {inches(8, 1, 2), inches(0, 1, 64)}; // 0.396875 mm
  lines.edge = true;
  lines.cuts.push_back({{{}, {}}, {inches(1), {}}});
  lines.outlines.push_back(
      {{Segment::Kind::Move, {}, {}, {}}, {Segment::Kind::Line, {}, {}, {inches(2), {}}}});
  lines.scores.push_back({{{}, {{}, inches(1)}}, true});
  lines.scores.push_back({{{}, {{}, inches(1)}}, false});
  CHECK(svg::cut_lines_svg(lines) ==
        R"(<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="215.9mm" height="0.396875mm" viewBox="0 0 215.9 0.396875">
  <title>Gate &amp; latch</title>
  <g id="sheet" fill="none" stroke="#999999" stroke-width="0.1">
    <rect x="0" y="0" width="215.9" height="0.396875"/>
  </g>
  <g id="cut" fill="none" stroke="#000000" stroke-width="0.1">
    <line x1="0" y1="0" x2="25.4" y2="0"/>
    <path d="M0 0L50.8 0"/>
  </g>
  <g id="score" fill="none" stroke="#0000ff" stroke-width="0.1" stroke-dasharray="3 1">
    <line class="mountain" x1="0" y1="0" x2="0" y2="25.4"/>
    <line class="valley" x1="0" y1="0" x2="0" y2="25.4"/>
  </g>
</svg>
)");
}

TEST_CASE("a layer with nothing on it is left out") {
  figure::CutLines lines;
  lines.size = {millimetres(10), millimetres(10)};
  CHECK(svg::cut_lines_svg(lines).find("<g") == std::string::npos);
}
