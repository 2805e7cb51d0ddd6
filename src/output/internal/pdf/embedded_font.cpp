#include "output/internal/pdf/embedded_font.h"

#include "output/internal/pdf/parts.h"
#include "output/internal/pdf/syntax.h"
#include "output/pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace leafwright::pdf {
namespace {

// Numbers of an OpenType file, big-endian; 0 beyond its end.
struct Sfnt {
  std::string_view bytes;

  unsigned at(std::size_t offset, std::size_t count) const {
    unsigned value = 0;
    for (std::size_t i = 0; i < count; ++i)
      value =
          value << 8U | (offset + i < bytes.size()
                             ? static_cast<unsigned>(static_cast<unsigned char>(bytes[offset + i]))
                             : 0U);
    return value;
  }
  int signed16(std::size_t offset) const {
    return static_cast<std::int16_t>(static_cast<std::uint16_t>(at(offset, 2)));
  }
  std::optional<std::size_t> table(std::string_view tag) const {
    const unsigned count = at(4, 2);
    for (std::size_t i = 0; i < count && 12 + 16 * i + 16 <= bytes.size(); ++i)
      if (bytes.substr(12 + 16 * i, 4) == tag) return at(12 + 16 * i + 8, 4);
    return std::nullopt;
  }
};

std::uint64_t fnv1a(std::string_view bytes, std::uint64_t hash = 14695981039346656037ULL) {
  for (const char c : bytes) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211ULL;
  }
  return hash;
}

// Six capitals that name the subset (ISO 32000-1, 9.6.4): other glyphs, another tag.
std::string subset_tag(const std::vector<std::uint32_t>& glyphs) {
  std::uint64_t hash = fnv1a("");
  for (const std::uint32_t glyph : glyphs) {
    const std::array<char, 2> bytes{static_cast<char>(glyph >> 8U),
                                    static_cast<char>(glyph & 0xffU)};
    hash = fnv1a({bytes.data(), bytes.size()}, hash);
  }
  std::string tag;
  for (int i = 0; i < 6; ++i) {
    tag.push_back(static_cast<char>('A' + hash % 26));
    hash /= 26;
  }
  return tag;
}

std::string font_name(const text::Fonts& fonts, int face,
                      const std::vector<std::uint32_t>& glyphs) {
  std::string_view stem = fonts.file_name(face);
  if (const auto slash = stem.find_last_of("/\\"); slash != std::string_view::npos)
    stem.remove_prefix(slash + 1);
  stem = stem.substr(0, stem.find_last_of('.'));
  return name(fmt::format("{}+{}", subset_tag(glyphs), stem.empty() ? "Font" : stem));
}

std::string descriptor(const text::Fonts& fonts, int face, const std::string& base_name, Ref file) {
  const Sfnt font{fonts.bytes(face)};
  const int upem = fonts.units_per_em(face);
  const text::Metrics metrics = fonts.metrics(face);
  std::string out = "/Type/FontDescriptor/FontName" + base_name;
  // Flags: symbolic (4), for its codes follow no standard encoding; italic (64).
  int italic_tenths = 0;
  if (const auto post = font.table("post"); post)
    italic_tenths =
        font.signed16(*post + 4) * 10 + static_cast<int>(font.at(*post + 6, 2)) * 10 / 65536;
  out += fmt::format("/Flags {}/ItalicAngle ", italic_tenths != 0 ? 68 : 4);
  append_decimal(out, italic_tenths, 1);
  out += "/FontBBox[";
  if (const auto head = font.table("head"); head)
    for (const std::size_t offset : {36U, 38U, 40U, 42U}) {
      append_number(out, font.signed16(*head + offset) * 1000 / std::max(upem, 1));
      out.push_back(' ');
    }
  else
    out += fmt::format("0 {} 1000 {}", metrics.descent, metrics.ascent);
  // No font says how thick its stems are in a table; readers use StemV only for a substitute, which
  // an embedded font never needs.
  out += fmt::format("]/Ascent {}/Descent {}/CapHeight {}/StemV 80/FontFile2 ", metrics.ascent,
                     metrics.descent, metrics.cap_height);
  append_ref(out, file);
  return out;
}

} // namespace

void FaceUse::reach(std::uint32_t glyph) {
  if (glyph < used_.size()) return;
  used_.resize(glyph + 1, false);
  text_.resize(glyph + 1);
}

void FaceUse::use(std::uint32_t glyph) {
  reach(glyph);
  used_[glyph] = true;
}

bool FaceUse::use(std::uint32_t glyph, std::string_view text) {
  use(glyph);
  if (text_[glyph].empty()) text_[glyph] = text;
  return text_[glyph] == text;
}

std::vector<std::uint32_t> FaceUse::glyphs() const {
  std::vector<std::uint32_t> list;
  for (std::uint32_t glyph = 0; glyph < used_.size(); ++glyph)
    if (used_[glyph]) list.push_back(glyph);
  return list;
}

std::string to_unicode(const FaceUse& use) {
  std::vector<std::uint32_t> mapped;
  for (const std::uint32_t glyph : use.glyphs())
    if (!use.text(glyph).empty()) mapped.push_back(glyph);
  std::string out = "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                    "/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def\n"
                    "/CMapName/Adobe-Identity-UCS def\n/CMapType 2 def\n"
                    "1 begincodespacerange\n<0000><FFFF>\nendcodespacerange\n";
  constexpr std::size_t most_per_block = 100; // Adobe Technical Note 5014
  for (std::size_t begin = 0; begin < mapped.size(); begin += most_per_block) {
    const std::size_t end = std::min(mapped.size(), begin + most_per_block);
    append_number(out, static_cast<std::int64_t>(end - begin));
    out += " beginbfchar\n";
    for (std::size_t i = begin; i < end; ++i) {
      out += fmt::format("<{:04X}><", mapped[i]);
      append_utf16_hex(out, use.text(mapped[i]));
      out += ">\n";
    }
    out += "endbfchar\n";
  }
  out += "endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n";
  return out;
}

std::string widths(const text::Fonts& fonts, int face, const std::vector<std::uint32_t>& glyphs) {
  const int upem = std::max(fonts.units_per_em(face), 1);
  std::string out = "[";
  for (std::size_t i = 0; i < glyphs.size(); ++i) {
    const bool follows = i > 0 && glyphs[i] == glyphs[i - 1] + 1;
    if (!follows) {
      if (i > 0) out.push_back(']');
      append_number(out, glyphs[i]);
      out.push_back('[');
    } else {
      out.push_back(' ');
    }
    append_real(out, fonts.plain_advance(face, glyphs[i]) * 1000.0 / upem, 3);
  }
  if (!glyphs.empty()) out.push_back(']');
  out.push_back(']');
  return out;
}

FontObjects font_objects(const text::Fonts& fonts, int face, const FaceUse& use,
                         const FontRefs& refs, StreamCache* kept) {
  FontObjects objects;
  const std::vector<std::uint32_t> glyphs = use.glyphs();
  objects.program =
      kept != nullptr ? kept->subset(fonts, face, glyphs) : text::subset(fonts, face, glyphs);
  if (objects.program.empty()) return objects;
  const std::string base_name = font_name(fonts, face, glyphs);
  objects.program_entries = fmt::format("/Length1 {}", objects.program.size());
  objects.descriptor = descriptor(fonts, face, base_name, refs.program);
  objects.descendant =
      fmt::format("/Type/Font/Subtype/CIDFontType2/BaseFont{}"
                  "/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>"
                  "/CIDToGIDMap/Identity/DW 0/FontDescriptor {}/W{}",
                  base_name, ref_text(refs.descriptor), widths(fonts, face, glyphs));
  objects.map = to_unicode(use);
  objects.font = fmt::format("/Type/Font/Subtype/Type0/BaseFont{}/Encoding/Identity-H"
                             "/DescendantFonts[{}]/ToUnicode {}",
                             base_name, ref_text(refs.descendant), ref_text(refs.map));
  return objects;
}

bool embed(Haru& haru, const text::Fonts& fonts, int face, const FaceUse& use,
           const Packing& packing) {
  FontRefs refs;
  refs.font = use.font;
  refs.descendant = haru.reserve();
  refs.descriptor = haru.reserve();
  refs.program = haru.reserve_stream();
  refs.map = haru.reserve_stream();
  FontObjects objects = font_objects(fonts, face, use, refs, packing.kept);
  if (objects.program.empty()) return false;
  fill_packed(haru, refs.program, std::move(objects.program_entries), objects.program, packing);
  fill_packed(haru, refs.map, "", objects.map, packing);
  haru.fill(refs.descriptor, std::move(objects.descriptor));
  haru.fill(refs.descendant, std::move(objects.descendant));
  haru.fill(use.font, std::move(objects.font));
  return true;
}

} // namespace leafwright::pdf
