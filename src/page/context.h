#pragma once

#include "guide/figure/scene.h"
#include "page/frame.h"
#include "page/hyphenation.h"
#include "page/layout.h"

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>

// What every part of the engine needs while one document is laid out.

namespace leafwright::page {

// A scene composed.
struct Drawn {
  std::shared_ptr<const Drawing> drawing;
  double scale = 1.0;
  bool crowded = false;
};

// Figures drawn so far, so that trying layouts and further passes draw nothing twice. Keyed by the
// scene's address in the document: looked up, never walked.
class FigureCache {
 public:
  const Drawn& composed(const figure::Scene& scene, Size room, double scale,
                        const figure::Look& look, const text::Fonts& fonts);
  // The scale that fits a room.
  double fitting(const figure::Scene& scene, Size room, const figure::Look& look,
                 const text::Fonts& fonts);

 private:
  struct Key {
    const figure::Scene* scene;
    std::int64_t width, height;
    double scale;
    bool operator==(const Key&) const = default;
  };
  struct Hash {
    std::size_t operator()(const Key& key) const;
  };
  std::unordered_map<Key, Drawn, Hash> drawn_;
  std::unordered_map<Key, double, Hash> scales_;
};

// One way to set a section: its steps beside their figures in rows, or below them in two columns;
// its other figures drawn smaller than their rooms allow. Trying one costs no drawing.
struct Trial {
  bool columns = false;
  double step_scale = 0.0; // of all figures of steps
  double shrink = 1.0;     // of figures beside words and in rows
  bool estimate = false;   // sizes only: nothing is drawn
};

struct Context {
  Context(const Template& page_template, const text::Fonts& all_fonts, const LayoutInput& given,
          const Hyphenation& words, FigureCache& cache)
      : look(page_template), fonts(all_fonts), input(given), hyphenation(words), figures(cache) {}

  const Template& look;
  const text::Fonts& fonts;
  const LayoutInput& input;
  const Hyphenation& hyphenation;
  FigureCache& figures;
  figure::Look figure_look;
  Length text_height;                                      // of a page
  std::map<std::string, double, std::less<>> group_scales; // see figures.h
  Trial trial;                                             // how the section is set now
  // From the pass before: page labels of anchors, and the contents.
  std::map<std::string, std::string, std::less<>> labels;
  struct ContentsLine {
    std::string anchor, number, title, aside;
  };
  std::vector<ContentsLine> contents;
  bool uses_labels = false; // something printed a page number

  Place place{}; // of the block being laid out
  Findings findings;
  std::set<std::string> told; // what findings already say

  Colour colour(const Tint& tint) const { return mixed(tint, input.accent); }
  Colour colour(std::string_view name) const { return colour(look.colour(name)); }
  void tell(Severity severity, std::string code, std::string found, std::string expected,
            std::string mend);
  // Label of an anchor's page; "0" while unknown.
  std::string label(const std::string& anchor);
};

} // namespace leafwright::page
