#include "text/fonts.h"

#include "measure/index.h"
#include "text/fractions.h"
#include "text/internal/glyph_outline.h"

#include <fmt/format.h>
#include <hb-ot.h>
#include <hb.h>

#include <algorithm>
#include <array>
#include <optional>
#include <unordered_map>

namespace leafwright::text {
namespace {

__extension__ using Wide = __int128;

struct FaceDeleter {
  void operator()(hb_face_t* face) const { hb_face_destroy(face); }
};
using FaceHandle = std::unique_ptr<hb_face_t, FaceDeleter>;

Length at_size(std::int64_t units, Length size, int units_per_em) {
  const Wide doubled = 2 * static_cast<Wide>(units) * size.nm;
  const Wide half = doubled < 0 ? -units_per_em : units_per_em;
  return {static_cast<std::int64_t>((doubled + half) / (2 * static_cast<Wide>(units_per_em)))};
}

bool has_table(hb_face_t* face, hb_tag_t tag) {
  hb_blob_t* table = hb_face_reference_table(face, tag);
  const bool there = hb_blob_get_length(table) > 0;
  hb_blob_destroy(table);
  return there;
}

// OS/2 fsType (OpenType specification): 0x0002 restricted licence, 0x0100 no subsetting, 0x0200
// bitmaps only. Offset 8 of the table.
bool may_be_embedded(hb_face_t* face) {
  hb_blob_t* table = hb_face_reference_table(face, HB_TAG('O', 'S', '/', '2'));
  unsigned length = 0;
  const char* data = hb_blob_get_data(table, &length);
  unsigned type = 0;
  if (length >= 10)
    type = static_cast<unsigned>(static_cast<unsigned char>(data[8])) << 8U |
           static_cast<unsigned char>(data[9]);
  hb_blob_destroy(table);
  return (type & 0x0302U) == 0;
}

int metric(hb_font_t* font, hb_ot_metrics_tag_t tag, int units_per_em) {
  hb_position_t position = 0;
  hb_ot_metrics_get_position_with_fallback(font, tag, &position);
  const int doubled = 2000 * position;
  return (doubled + (doubled < 0 ? -units_per_em : units_per_em)) / (2 * units_per_em);
}

Metrics metrics_of(hb_font_t* font, int units_per_em) {
  return {metric(font, HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER, units_per_em),
          metric(font, HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER, units_per_em),
          metric(font, HB_OT_METRICS_TAG_X_HEIGHT, units_per_em),
          metric(font, HB_OT_METRICS_TAG_CAP_HEIGHT, units_per_em)};
}

std::vector<hb_feature_t> features_for(std::string_view text, const Features& wanted) {
  constexpr unsigned whole = HB_FEATURE_GLOBAL_END;
  std::vector<hb_feature_t> list;
  // Lining figures always: measurements must stand as high as capitals, and Vollkorn's default is
  // old-style.
  list.push_back({HB_TAG('l', 'n', 'u', 'm'), 1, 0, whole});
  list.push_back({HB_TAG('k', 'e', 'r', 'n'), wanted.kerning ? 1U : 0U, 0, whole});
  list.push_back({HB_TAG('l', 'i', 'g', 'a'), wanted.ligatures ? 1U : 0U, 0, whole});
  list.push_back({HB_TAG('c', 'l', 'i', 'g'), wanted.ligatures ? 1U : 0U, 0, whole});
  const hb_tag_t figures = wanted.tabular ? HB_TAG('t', 'n', 'u', 'm') : HB_TAG('p', 'n', 'u', 'm');
  list.push_back({figures, 1, 0, whole});
  if (wanted.small_caps) list.push_back({HB_TAG('s', 'm', 'c', 'p'), 1, 0, whole});
  if (wanted.fractions)
    for (const ByteRange range : fractions_in(text)) {
      const auto begin = static_cast<unsigned>(range.begin);
      const auto end = static_cast<unsigned>(range.end);
      // `frac` starts from the face's default figures, which pnum or tnum would have replaced.
      list.push_back({figures, 0, begin, end});
      list.push_back({HB_TAG('f', 'r', 'a', 'c'), 1, begin, end});
    }
  return list;
}

// Face, features and text in one string: a look-up needs no second structure.
std::string cache_key(int face, const Features& features, std::string_view utf8) {
  const unsigned flags = (features.fractions ? 1U : 0U) | (features.tabular ? 2U : 0U) |
                         (features.small_caps ? 4U : 0U) | (features.kerning ? 8U : 0U) |
                         (features.ligatures ? 16U : 0U);
  std::string key;
  key.reserve(utf8.size() + 3);
  key.push_back(static_cast<char>(face & 0xff));
  key.push_back(static_cast<char>((face >> 8) & 0xff));
  key.push_back(static_cast<char>(flags));
  key.append(utf8);
  return key;
}

} // namespace

struct Fonts::Inside {
  struct FontDeleter {
    void operator()(hb_font_t* font) const { hb_font_destroy(font); }
  };
  struct BufferDeleter {
    void operator()(hb_buffer_t* buffer) const { hb_buffer_destroy(buffer); }
  };
  using FontHandle = std::unique_ptr<hb_font_t, FontDeleter>;
  using BufferHandle = std::unique_ptr<hb_buffer_t, BufferDeleter>;

  // What is remembered of a text: everything but its size.
  struct GlyphRun {
    std::vector<Glyph> glyphs;
    std::int64_t advance = 0; // sum, font units
  };
  struct LoadedFace {
    std::string file_name;
    std::unique_ptr<std::string> bytes; // HarfBuzz points into it, so it must not move
    FontHandle font;
    int units_per_em = 1000;
    Metrics metrics;
  };

  std::vector<LoadedFace> faces;
  std::array<int, 6> roles{};
  BufferHandle buffer{hb_buffer_create()};
  std::unordered_map<std::string, GlyphRun> shapes;

  const LoadedFace* at(int face) const {
    if (faces.empty()) return nullptr;
    const auto index = as_index(face);
    return face >= 0 && index < faces.size() ? &faces[index] : &faces.front();
  }

  const GlyphRun& shape(int face, std::string_view utf8, const Features& features);
  void even_out_figures(int face, std::string_view utf8, GlyphRun& shape);
};

const Fonts::Inside::GlyphRun& Fonts::Inside::shape(int face, std::string_view utf8,
                                                    const Features& features) {
  const auto [place, is_new] = shapes.try_emplace(cache_key(face, features, utf8));
  GlyphRun& shape = place->second;
  if (!is_new) return shape;
  hb_buffer_t* const text = buffer.get();
  hb_buffer_clear_contents(text);
  hb_buffer_set_cluster_level(text, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
  hb_buffer_add_utf8(text, utf8.data(), static_cast<int>(utf8.size()), 0, -1);
  // The language is set before guessing: left alone it would come from the user's locale.
  hb_buffer_set_language(text, hb_language_from_string("en", -1));
  hb_buffer_set_direction(text, HB_DIRECTION_LTR);
  hb_buffer_guess_segment_properties(text);
  const std::vector<hb_feature_t> list = features_for(utf8, features);
  const LoadedFace* used = at(face);
  hb_shape(used->font.get(), text, list.data(), static_cast<unsigned>(list.size()));

  unsigned count = 0;
  const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(text, &count);
  const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(text, &count);
  shape.glyphs.reserve(count);
  for (unsigned i = 0; i < count; ++i) {
    shape.glyphs.push_back({infos[i].codepoint, positions[i].x_advance, positions[i].x_offset,
                            positions[i].y_offset, infos[i].cluster});
    shape.advance += positions[i].x_advance;
  }
  if (features.tabular && utf8 != "0") even_out_figures(face, utf8, shape);
  return shape;
}

// Lato Italic 2.007 has a tabular six that is narrower than the other figures: give every figure
// the width of the nought, centred.
void Fonts::Inside::even_out_figures(int face, std::string_view utf8, GlyphRun& evened) {
  Features tabular;
  tabular.tabular = true;
  const std::int64_t width = shape(face, "0", tabular).advance;
  const std::vector<ByteRange> fractions = fractions_in(utf8);
  for (Glyph& glyph : evened.glyphs) {
    const char first = utf8[glyph.cluster];
    if (first < '0' || first > '9') continue;
    const bool in_fraction =
        std::any_of(fractions.begin(), fractions.end(), [&glyph](ByteRange range) {
          return glyph.cluster >= range.begin && glyph.cluster < range.end;
        });
    if (in_fraction) continue;
    const auto wider = static_cast<std::int32_t>(
        width - hb_font_get_glyph_h_advance(at(face)->font.get(), glyph.id));
    glyph.advance += wider;
    glyph.x_offset += wider / 2;
    evened.advance += wider;
  }
}

Fonts::Fonts() : inside_(std::make_unique<Inside>()) {}
Fonts::Fonts(Fonts&&) noexcept = default;
Fonts& Fonts::operator=(Fonts&&) noexcept = default;
Fonts::~Fonts() = default;

Parsed<int> Fonts::add(std::string file_name, std::string bytes) {
  const auto refuse = [&file_name](std::string found, std::string fix) {
    return ParseError{0, 0, fmt::format("{}: {}", file_name, found),
                      "a TrueType font that may be embedded", std::move(fix)};
  };
  auto kept = std::make_unique<std::string>(std::move(bytes));
  hb_blob_t* blob = hb_blob_create(kept->data(), static_cast<unsigned>(kept->size()),
                                   HB_MEMORY_MODE_READONLY, nullptr, nullptr);
  const FaceHandle face(hb_face_create(blob, 0));
  hb_blob_destroy(blob);
  if (hb_face_get_glyph_count(face.get()) == 0 ||
      !has_table(face.get(), HB_TAG('c', 'm', 'a', 'p')))
    return refuse("no font", "name a .ttf file, or copy it again: it may be cut short");
  if (!has_table(face.get(), HB_TAG('g', 'l', 'y', 'f')))
    return refuse("outlines of another kind than TrueType",
                  "use the font's TrueType (.ttf) version");
  if (!may_be_embedded(face.get()))
    return refuse("its maker forbids embedding it or a part of it", "use another font");
  Inside::LoadedFace added;
  added.file_name = std::move(file_name);
  added.bytes = std::move(kept);
  added.font = Inside::FontHandle(hb_font_create(face.get()));
  added.units_per_em = static_cast<int>(hb_face_get_upem(face.get()));
  added.metrics = metrics_of(added.font.get(), added.units_per_em);
  inside_->faces.push_back(std::move(added));
  return count() - 1;
}

void Fonts::set_role(Role role, int face) { inside_->roles.at(as_index(role)) = face; }
int Fonts::face(Role role) const { return inside_->roles.at(as_index(role)); }
int Fonts::count() const { return static_cast<int>(inside_->faces.size()); }

std::string_view Fonts::file_name(int face) const {
  const Inside::LoadedFace* found = inside_->at(face);
  return found != nullptr ? std::string_view(found->file_name) : std::string_view();
}
std::string_view Fonts::bytes(int face) const {
  const Inside::LoadedFace* found = inside_->at(face);
  return found != nullptr ? std::string_view(*found->bytes) : std::string_view();
}
int Fonts::units_per_em(int face) const {
  const Inside::LoadedFace* found = inside_->at(face);
  return found != nullptr ? found->units_per_em : 1000;
}
Metrics Fonts::metrics(int face) const {
  const Inside::LoadedFace* found = inside_->at(face);
  return found != nullptr ? found->metrics : Metrics{};
}

Shaped Fonts::shape(int face, Length size, std::string_view utf8, const Features& features) const {
  Shaped shaped{face, size, std::string(utf8), {}, {}};
  if (inside_->faces.empty()) return shaped;
  const Inside::GlyphRun& shape = inside_->shape(face, utf8, features);
  shaped.glyphs = shape.glyphs;
  shaped.width = at_size(shape.advance, size, units_per_em(face));
  return shaped;
}

Length Fonts::width(int face, Length size, std::string_view utf8, const Features& features) const {
  if (inside_->faces.empty()) return {};
  return at_size(inside_->shape(face, utf8, features).advance, size, units_per_em(face));
}

int Fonts::plain_advance(int face, std::uint32_t glyph) const {
  const Inside::LoadedFace* found = inside_->at(face);
  return found != nullptr ? hb_font_get_glyph_h_advance(found->font.get(), glyph) : 0;
}

Path Fonts::outline(int face, std::uint32_t glyph, Length size) const {
  const Inside::LoadedFace* found = inside_->at(face);
  if (found == nullptr) return {};
  return traced(found->font.get(), glyph, size, found->units_per_em);
}

} // namespace leafwright::text
