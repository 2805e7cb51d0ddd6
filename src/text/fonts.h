#pragma once

#include "basics/parsed.h"
#include "measure/length.h"

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Fonts and shaping: the one place that knows HarfBuzz. Lower than guide, page and output, which
// all measure or draw the same shaped text.

namespace leafwright::text {

// The roles a template fills with font files. Indices into Fonts::faces are stable.
enum class Role { Text, TextBold, TextItalic, TextBoldItalic, Display, DisplayItalic };

struct Glyph {
  std::uint32_t id = 0;
  std::int32_t advance = 0;                // shaped advance in font units, kerning included
  std::int32_t x_offset = 0, y_offset = 0; // font units, y up
  std::uint32_t cluster = 0; // byte offset in Shaped::text of the first character it stands for
};

// One run of text in one face and size, left to right. `text` is what it says (for copying out).
struct Shaped {
  int face = 0; // index into Fonts
  Length size;  // font size
  std::string text;
  std::vector<Glyph> glyphs;
  Length width; // sum of the advances, rounded once
};

struct Features {
  bool fractions = true; // `frac` over digits/digits only
  bool tabular = false;  // `tnum`; `pnum` when not
  bool small_caps = false;
  bool kerning = true, ligatures = true;
};

struct Metrics { // of a face at 1000 units to the em, y up
  int ascent = 0, descent = 0, x_height = 0, cap_height = 0;
};

// The faces of one document. Move-only. Shaping results are remembered by (face, features, text),
// so shaping the same word twice costs a look-up; hence not for two threads at once. A face index
// that `add` did not return is read as face 0.
class Fonts {
 public:
  Fonts();
  Fonts(Fonts&&) noexcept;
  Fonts& operator=(Fonts&&) noexcept;
  ~Fonts();

  // Adds a TrueType/OpenType file already read into memory; returns its face index or why it cannot
  // be used.
  Parsed<int> add(std::string file_name, std::string bytes);
  void set_role(Role role, int face);
  int face(Role role) const; // face 0 when the role was never set
  int count() const;
  std::string_view file_name(int face) const;
  std::string_view bytes(int face) const;
  int units_per_em(int face) const;
  Metrics metrics(int face) const;

  // Shapes UTF-8 text. Characters the face lacks are shaped as its .notdef.
  Shaped shape(int face, Length size, std::string_view utf8, const Features& features = {}) const;
  Length width(int face, Length size, std::string_view utf8, const Features& features = {}) const;
  // Unshaped advance in font units (hmtx), for the TJ operator's adjustments and the W array.
  int plain_advance(int face, std::uint32_t glyph) const;
  // A glyph's outline at `size`, its origin at (0, 0) and y down, closed; empty for a space. Used
  // where text must become shapes: masks and templates.
  Path outline(int face, std::uint32_t glyph, Length size) const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

// Reads the fonts that ship with the program from `folder` (fonts/) and sets all roles.
Parsed<Fonts> standard_fonts(const std::string& folder);

// The part of a font that a document uses: same glyph ids, nothing else. For embedding.
// Empty when the font is too damaged for it.
std::string subset(const Fonts& fonts, int face, std::span<const std::uint32_t> glyphs);

// The part of a font that a page on a screen needs to set these characters itself: a whole font
// file with its character map, kerning, ligatures, fractions and tabular figures. Empty likewise.
std::string subset_for_screen(const Fonts& fonts, int face, std::u32string_view characters);

} // namespace leafwright::text
