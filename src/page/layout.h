#pragma once

#include "basics/reuse.h"
#include "guide/block.h"
#include "guide/figure/drawing.h"
#include "measure/print_length.h"
#include "model/project.h"
#include "page/flow.h"
#include "page/laid.h"
#include "page/template.h"
#include "text/fonts.h"

#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

// The page engine: blocks and a template become pages.
//
//   const Template look = read_template(xml, "a4.xml", 0).page_template;
//   LayoutCache kept;  // serves the next document too
//   const Laid pages = lay_out(document, look, fonts, layout_input(project), &kept);

namespace leafwright::page {

// Where a word may be divided, by the patterns of a libhyphen dictionary. Without a dictionary no
// word is ever divided. Move-only.
class Hyphenation {
 public:
  Hyphenation();
  explicit Hyphenation(const std::string& dictionary_file); // not loaded when it cannot be read
  Hyphenation(Hyphenation&&) noexcept;
  Hyphenation& operator=(Hyphenation&&) noexcept;
  ~Hyphenation();

  bool loaded() const;
  // Byte offsets within `word` (letters only, UTF-8) where a hyphen may stand, ascending.
  std::vector<std::size_t> points(std::string_view word) const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

// The dictionary of a language ("en-US") where Debian's hyphen packages put them; another variety
// of the same language serves when the exact one is missing.
Hyphenation system_hyphenation(std::string_view language);

// Where a line of UTF-8 text may be broken by UAX #14: one entry a byte, true = a line may end
// behind it.
std::vector<bool> break_opportunities(std::string_view utf8);

// A scene composed.
struct Drawn {
  std::shared_ptr<const Drawing> drawing;
  double scale = 1.0;
  bool crowded = false;
};

// What laying out a document leaves for the next time: drawings, whose labels are the dearest thing
// to place, and paragraphs set. Belongs to one set of fonts. Nothing in it changes what comes out:
// each is found only by all that it depends on.
class LayoutCache {
 public:
  // Beyond so many paragraphs no more are kept: a list of thousands of parcels hardly repeats
  // itself.
  explicit LayoutCache(std::size_t most_paragraphs = 50'000) : most_paragraphs_(most_paragraphs) {}

  struct DrawingKey {
    Fingerprint scene;
    Size room;
    double scale = 0;
    friend bool operator<(const DrawingKey& a, const DrawingKey& b) {
      const auto tied = [](const DrawingKey& k) {
        return std::tuple(k.scene, k.room.width.nm, k.room.height.nm, k.scale);
      };
      return tied(a) < tied(b);
    }
  };
  const Drawn* find(const DrawingKey& key) { return drawings_.find(key); }
  void keep(const DrawingKey& key, const Drawn& drawn) { drawings_.keep(key, drawn); }

  const Flow* find(const Fingerprint& paragraph) { return paragraphs_.find(paragraph); }
  void keep(const Fingerprint& paragraph, const Flow& flow) {
    if (paragraphs_.size() < most_paragraphs_) paragraphs_.keep(paragraph, flow);
  }

  // Read from its file once; as system_hyphenation().
  const Hyphenation& hyphenation(std::string_view language) {
    const auto known = dictionaries_.find(language);
    if (known != dictionaries_.end()) return known->second;
    return dictionaries_.emplace(std::string(language), system_hyphenation(language)).first->second;
  }

  // Before everything is made again: what the last two rounds had no use for is let go.
  void next_round() {
    drawings_.next_round();
    paragraphs_.next_round();
  }

 private:
  std::map<std::string, Hyphenation, std::less<>> dictionaries_;
  AgeingCache<DrawingKey, Drawn> drawings_;
  AgeingCache<Fingerprint, Flow> paragraphs_;
  std::size_t most_paragraphs_;
};

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
  Printing printing;                 // lengths in findings, and which scale bar lies on top
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
