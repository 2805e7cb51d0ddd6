#pragma once

#include "basics/parsed.h"
#include "guide/figure/drawing.h"
#include "model/project.h"
#include "output/internal/list/display_list.h"
#include "text/fonts.h"

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// Writes display lists as SVG. For this folder.

namespace leafwright::svg {

// A file of its own is exact to the nanometre, and its words can be found in it. Parts of a page
// are many and seen on a screen: they are exact to a hundredth of a millimetre, spell a word once
// however often it is drawn, and leave it to the page to say what they show.
enum class Way { File, Part };

class SvgPen {
 public:
  // `things`: see PageOptions.
  SvgPen(const text::Fonts& fonts, std::span<const Picture> pictures, Way way, std::string ids = {},
         std::function<std::string(std::string_view)> things = {})
      : fonts_(fonts), pictures_(pictures), outlines_(fonts), way_(way), ids_(std::move(ids)),
        things_(std::move(things)) {}

  // The markup of these items. What it refers to is added to `definitions`.
  std::string play(const std::vector<DrawItem>& items);
  const std::string& definitions() const { return definitions_; }
  const std::optional<ParseError>& failed() const { return failed_; }

 private:
  void draw(const Fill& fill);
  void draw(const Stroke& stroke);
  void draw(const TextRun& run);
  void draw(const Image& image);
  void draw(const PushClip& clip);
  void draw(const PopClip& clip);
  void draw(const Link& link);
  void draw(const Begin&) {}
  void draw(const End&) {}
  void draw(const Mark& mark);

  std::string data_of(const Path& path) const;
  void append_length(std::string& out, Length a) const;
  std::string glyph_marks(const TextRun& run, const std::vector<PlacedGlyph>& placed, double unit);
  void define_glyph(int face, std::uint32_t glyph);
  bool define_picture(int picture);
  int define_clip(std::string data);
  const char* href() const { return way_ == Way::File ? "xlink:href" : "href"; }

  const text::Fonts& fonts_;
  std::span<const Picture> pictures_;
  GlyphOutlines outlines_;
  Way way_;
  std::string ids_; // before every id
  std::function<std::string(std::string_view)> things_;
  std::string definitions_, body_;
  std::set<std::pair<int, std::uint32_t>> glyphs_;
  std::set<int> defined_pictures_;
  std::map<std::string, int> words_; // Part: the marks of a run, and the number they go by
  std::map<std::string, int> clips_; // Part: likewise
  int clips_made_ = 0, clips_open_ = 0;
  std::optional<ParseError> failed_;
};

} // namespace leafwright::svg
