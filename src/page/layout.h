#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "page/laid.h"
#include "page/layout_cache.h"
#include "page/template.h"
#include "text/fonts.h"

#include <string>
#include <vector>

// The page engine: blocks and a template become pages.

namespace leafwright::page {

// What the pages need to know of the project beside the document itself.
struct LayoutInput {
  Colour accent{0x3d, 0x5e, 0x49};
  std::string paper = "letter"; // used when the template says "project"
  struct InkLook {
    Colour colour;
    Ink::Mark mark = Ink::Mark::Solid;
    std::string name;
  };
  std::vector<InkLook> inks; // by index into Project::inks
  struct PictureLook {
    int width_px = 0, height_px = 0;
  };
  std::vector<PictureLook> pictures; // by index into Project::pictures
  bool inch_first = true;            // scale bars
  std::string hyphenation_file; // a libhyphen dictionary; empty = the system's for the language
};
LayoutInput layout_input(const Project& project);

// Lays the document out. Page numbers are filled in by as many passes as it takes until nothing
// moves, at most six; a document that will not settle is a finding ("page-restless"). Other
// findings: "page-missing-glyph", "page-overfull", "page-crowded", "page-too-large",
// "page-unknown-anchor".
// `kept` is from laying out another edition or document with the same fonts, and serves the next.
Laid lay_out(const guide::Document& document, const Template& look, const text::Fonts& fonts,
             const LayoutInput& input, LayoutCache* kept = nullptr);

} // namespace leafwright::page
