#pragma once

#include "guide/block.h"
#include "guide/figure/scene.h"
#include "page/flow.h"
#include "page/layout.h"

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <vector>

// What every part of the engine needs while one document is laid out; and, for rooms that set
// figures on pages of their own (posters, web pages), what the engine knows about scales and
// arrangement.
//
//   FigureCache figures(look, fonts);
//   const Drawn& front = figures.composed(scene, room, figures.fitting(scene, room));

namespace leafwright::page {

// Figures drawn so far, so that trying layouts and further passes draw nothing twice. Placing
// labels is the dearest thing in a document: sizes are therefore estimated from one drawing of each
// scene, whose labels do not grow with its scale. Keyed by the scene's address in the document:
// looked up, never walked.
class FigureCache {
 public:
  // `kept` outlives it: drawings made before are taken from there, new ones go there.
  FigureCache(const figure::Look& look, const text::Fonts& fonts, LayoutCache* kept = nullptr)
      : look_(look), fonts_(fonts), kept_(kept) {}

  // Drawn at that scale, within the room.
  const Drawn& composed(const figure::Scene& scene, Size room, double scale);
  // Things without a place of their own, set out as large as the room bears.
  const Drawn& set_out(const figure::Scene& scene, Size room) { return draw(scene, room, 0.0); }
  // The size it is expected to have at that scale.
  Size expected_size(const figure::Scene& scene, double scale);
  // The largest scale, in whole percents, at which it is expected to fit the room. Labels never
  // take more than half of the room from the thing itself: then some find no place, and a finding
  // says so.
  double fitting(const figure::Scene& scene, Size room);

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
  const Drawn& draw(const figure::Scene& scene, Size room, double scale);
  Size margins(const figure::Scene& scene); // what labels and ground add to the thing's own size

  figure::Look look_;
  const text::Fonts& fonts_;
  LayoutCache* kept_;
  std::unordered_map<Key, Drawn, Hash> drawn_;
  std::unordered_map<const figure::Scene*, Fingerprint> fingerprints_;
  std::unordered_map<const figure::Scene*, Size> margins_;
};

// One way to set a section: its steps beside their figures in rows, or below them in two or three
// columns; its other figures drawn smaller than their rooms allow. Trying one costs no drawing.
struct Trial {
  int columns = 1;       // of steps; one: rows
  Length figure_height;  // the tallest figure of a step
  double shrink = 1.0;   // of figures beside words and in rows
  bool estimate = false; // sizes only: nothing is drawn
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
  std::map<std::string, double, std::less<>> group_scales; // see note_group_scales()
  Trial trial;                                             // how the section is set now
  bool ruled = false; // each page of the section ends with a printed ruler
  // From the pass before: page labels of anchors, and the contents.
  std::map<std::string, std::string, std::less<>> labels;
  struct ContentsLine {
    std::string anchor, number, title, aside;
  };
  std::vector<ContentsLine> contents;
  bool uses_labels = false; // something printed a page number

  // Made in this pass: words of steps and whole blocks, which every trial uses again. Looked up,
  // never walked.
  std::map<std::pair<const void*, std::int64_t>, FramePtr> made_words;
  std::map<std::pair<const void*, std::int64_t>, Flow> made_blocks;
  std::map<std::string, Flow, std::less<>> made_ticks; // by what they say: slips alike share them
  // What each way of setting a run of steps takes: its first step, how many, and the width.
  struct MeasuredWay {
    Trial way;
    Length used;
    double loss = 0.0; // of the figures' size, see StepSetter
  };
  std::map<std::tuple<const void*, std::size_t, std::int64_t>, std::vector<MeasuredWay>>
      measured_steps;

  LayoutCache* kept = nullptr; // of an earlier layout; set by lay_out
  Fingerprint bench;           // of all that paragraphs depend on beside their own words and style

  Place place{}; // of the block being laid out
  Findings findings;
  std::set<std::string> told; // what findings already say
  std::size_t tells = 0;      // how often something was told, said already or not

  Colour colour(const Tint& tint) const { return mixed(tint, input.accent); }
  Colour colour(std::string_view name) const { return colour(look.colour(name)); }
  void tell(Severity severity, std::string code, std::string found, std::string expected,
            std::string fix);
  // Label of an anchor's page; "0" before pages are known, "?" when it is nowhere.
  std::string label(const std::string& anchor);
};

// Puts `with` in the place of every `what`: fields of the template's words.
void replace_all(std::string& text, std::string_view what, std::string_view with);

// Helpers of the figure blocks.

// A scene composed; a crowded one is told.
const Drawn& drawn(const figure::Scene& scene, Size room, double scale, Context& context);
// The printed size of a scene at `scale`, or what it is expected to be.
Size drawn_size(const figure::Scene& scene, Size room, double scale, bool estimate,
                Context& context);
// `scale` times `shrink`, in whole percents as figures are drawn.
double shrunk(double scale, double shrink);
// A figure of a sheet: its scale is worth saying.
bool is_sheet(const figure::Scene& scene);
std::string scale_note(const figure::Scene& scene, double scale, const Context& context);
// The figure at that scale with its caption below; in an estimate its place is left empty.
FramePtr captioned(const guide::Figure& figure, Size room, double scale, bool estimate,
                   Context& context);
// Things of one group and one size (letter sheets, 12 in sheets) share a scale.
std::string scale_group_of(const figure::Scene& scene);
// The scale of its group, or else the largest that fits the room.
double chosen_scale(const figure::Scene& scene, Size room, Context& context);
// The room that a figure gets in the text.
Size figure_room(const guide::Figure& figure, Length width, const Context& context);
// Words stand beside a figure where the column is wide enough for both, else below it.
bool stands_beside(Length width, const Context& context);
Size beside_room(const guide::Beside& beside, Length width, const Context& context);
Length beside_words_width(const guide::Beside& beside, Length width, const Context& context);
// Notes, in context.group_scales, the scale of each group of figures in these blocks: the largest
// at which all fit their rooms.
void note_group_scales(std::span<const guide::Block> blocks, Length width, Context& context);

// Where each card lies on the cover: overlapping a little, slightly turned, in the order they are
// laid down (later ones lie on top).
struct LaidCard {
  std::size_t card = 0;
  Point centre;
  Angle turned;
};
struct CoverArrangement {
  double scale = 1.0; // printed : real
  std::vector<LaidCard> cards;
};
// Arranges cards of these real sizes within `region`, as large as they go up to `largest`. No card
// hides another's middle.
CoverArrangement arrange_cover(std::span<const Size> cards, Rect region, double largest);

} // namespace leafwright::page
