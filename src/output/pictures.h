#pragma once

#include "basics/parsed.h"
#include "guide/figure/drawing.h"
#include "measure/length.h"
#include "model/outline.h"
#include "model/project.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

// The display list as SVG 1.1 in true size, one file with nothing outside it: lengths in mm to the
// nanometre, text as outlines from our fonts, so that it looks the same everywhere and a cutting
// machine can follow it. Written by hand rather than by cairo, whose SVG numbers its parts by a
// counter of the whole program: the same drawing would not give the same bytes twice.

namespace leafwright::svg {

struct SvgOptions {
  std::string title, description; // for those who do not see it
};

// A picture that cannot be read is a misread.
Parsed<std::string> render_svg(const Drawing& drawing, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const SvgOptions& options = {});
Parsed<std::string> render_svg(const page::LaidPage& page, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const SvgOptions& options = {});

// One that a page in a browser shows beside others and asks about: without a size of its own, as
// exact as SvgParts, its things in groups.
struct PageOptions {
  std::string title;
  std::string ids;  // before every id, so that pictures on one page do not meet: "gate-front-"
  Point origin;     // of the drawing: what lies there is at 0, 0 of the picture
  double scale = 1; // printed : real, for who measures in it: data-scale
  // The attribute data-thing of the group around a thing, by the id of its mark ("piece/3").
  std::function<std::string(std::string_view)> things;
};
Parsed<std::string> picture_on_page(const Drawing& drawing, const text::Fonts& fonts,
                                    std::span<const Picture> pictures, const PageOptions& options);

// Many drawings on one page: what stands between the tags of each <svg>, in millimetres, and what
// all of them share (letters, words, photographs), once. Ids: g, w, p or c and a number.
class SvgParts {
 public:
  SvgParts(const text::Fonts& fonts, std::span<const Picture> pictures);
  ~SvgParts();
  SvgParts(const SvgParts&) = delete;
  SvgParts& operator=(const SvgParts&) = delete;

  std::string draw(const Drawing& drawing);
  const std::string& definitions() const; // for <defs> of an <svg> on the same page
  const std::optional<ParseError>& failed() const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

// SVG 1.1 in true size. Groups "sheet", "cut" and "score" are the layers that a cutting machine can
// be told to follow; scores are of class "mountain" or "valley".
std::string cut_lines_svg(const figure::CutLines& lines);

// How SVG spells things. For this folder.

// Millimetres to the nanometre, without needless noughts.
void append_mm(std::string& out, Length a);
// To the nearest 10^-decimals.
void append_real(std::string& out, double value, int decimals = 6);
// Path data; lengths are divided by nm_per_unit, which is a power of ten of at most 10^6.
std::string path_data(const Path& path, std::int64_t nm_per_unit = nm_per_mm);
// A length, or all of a path in mm, to the nearest `step_nm`.
Length rounded(Length a, std::int64_t step_nm);
std::string rounded_path_data(Path path, std::int64_t step_nm);
std::string colour(Colour colour);          // "#3d5e49"
std::string base64(std::string_view bytes); // RFC 4648

} // namespace leafwright::svg

// The display list by cairo, for previews. The same list looks the same in the PDF.

namespace leafwright::preview {

struct PngOptions {
  int width_px = 800;       // the height follows
  bool transparent = false; // else on `paper`
  Colour paper{255, 255, 255};
};

// The file's bytes, the same for the same input, with the drawing's real size noted in it so that
// it prints at 100 %. Pictures that cannot be read and sizes no picture can have are misreads.
Parsed<std::string> render_png(const Drawing& drawing, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const PngOptions& options = {});
Parsed<std::string> render_png(const page::LaidPage& page, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const PngOptions& options = {});

// The width for so many dots to the inch, to the nearest pixel, at least 1.
int width_at(Length width, int dots_per_inch);

} // namespace leafwright::preview
