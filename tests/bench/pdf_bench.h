#pragma once

#include "page/laid.h"
#include "text/fonts.h"

#include <string>

namespace leafwright::bench {

// What a document asks of a PDF writer, counted.
struct Load {
  std::size_t pages = 0, runs = 0, glyphs = 0, paths = 0;
};

// The floor: the same pages, runs and paths by libharu's public interface alone: fonts embedded,
// compressed, outline; no kerning, no fractions, no structure, no links.
std::string write_floor(const page::Laid& laid, const std::string& font_folder);

} // namespace leafwright::bench
