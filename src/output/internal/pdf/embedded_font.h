#pragma once

#include "output/internal/deflate/deflate.h"
#include "output/internal/pdf/haru.h"
#include "text/fonts.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::pdf {

// What a document uses of one face: which glyphs, and the text each one stands for.
class FaceUse {
 public:
  // Notes a glyph. True when copying it out gives `text` by the font's own table; false when the
  // glyph already stands for another text, so that this place must say its text itself.
  bool use(std::uint32_t glyph, std::string_view text);
  // The same for a glyph whose place says its text itself in any case.
  void use(std::uint32_t glyph);

  bool empty() const { return used_.empty(); }
  std::vector<std::uint32_t> glyphs() const; // ascending
  const std::string& text(std::uint32_t glyph) const { return text_.at(glyph); }

  Ref font; // the Type0 font, reserved when the face is first used

 private:
  void reach(std::uint32_t glyph);

  std::vector<bool> used_;
  std::vector<std::string> text_; // UTF-8, by glyph; empty when it has none yet
};

// The five objects of an embedded subset.
struct FontRefs {
  Ref font, descendant, descriptor, program, map;
};
struct FontObjects {
  std::string font, descendant, descriptor, program_entries; // entries of dictionaries
  std::string program, map;                                  // data of streams, not yet deflated
};
// Type0 over CIDFontType2 with Identity-H, the code of a glyph being its id in the original face
// (ISO 32000-1, 9.7). `program` is empty when the face is too damaged to be cut down.
FontObjects font_objects(const text::Fonts& fonts, int face, const FaceUse& use,
                         const FontRefs& refs, StreamCache* kept = nullptr);

// Fills `use.font`. False when the face is too damaged to be cut down.
bool embed(Haru& haru, const text::Fonts& fonts, int face, const FaceUse& use,
           const Packing& packing);

// The ToUnicode map (ISO 32000-1, 9.10.3) and the W array, on their own for the tests.
std::string to_unicode(const FaceUse& use);
std::string widths(const text::Fonts& fonts, int face, const std::vector<std::uint32_t>& glyphs);

} // namespace leafwright::pdf
