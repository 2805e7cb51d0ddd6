#pragma once

#include "guide/figure/cut_lines.h"

#include <string>

namespace leafwright::svg {

// SVG 1.1 in true size. Groups "sheet", "cut" and "score" are the layers that a cutting machine can
// be told to follow; scores are of class "mountain" or "valley".
std::string cut_lines_svg(const figure::CutLines& lines);

} // namespace leafwright::svg
