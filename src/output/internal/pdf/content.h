#pragma once

#include "model/project.h"
#include "output/internal/pdf/embedded_font.h"
#include "output/internal/pdf/haru.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <cstdint>
#include <set>
#include <span>
#include <string>
#include <vector>

// A page's display list as PDF operators (ISO 32000-1, 8 and 9), with marked content written on the
// way.

namespace leafwright::pdf {

// What lies between one BDC and its EMC: marked-content ids count from 0 on each page, so its id is
// its place in PageContent::marked.
struct MarkedPiece {
  int node = -1;
};
struct LinkOnPage {
  Link link;
  int marked_before = 0; // pieces of the page written before it: its place in reading order
};

struct PageContent {
  std::string operators;
  std::vector<MarkedPiece> marked;
  std::vector<LinkOnPage> links;
  // Resources by what they are called: /F2, /X5, /O650.
  std::set<int> faces;
  std::set<int> pictures;
  std::set<int> opacities; // thousandths
};

struct ContentInput {
  const text::Fonts& fonts;
  const std::vector<page::Node>& nodes; // none: an untagged document
  std::span<const Picture> pictures;
};

// Notes the glyphs in `uses` (one per face of `fonts`). Runs of a face or pictures that do not
// exist are left out.
PageContent page_content(const page::LaidPage& page, const ContentInput& input,
                         std::vector<FaceUse>& uses);

} // namespace leafwright::pdf
