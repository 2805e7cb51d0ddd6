#include "text/fonts.h"

#include <hb-subset.h>
#include <hb.h>

#include <array>
#include <fstream>
#include <memory>
#include <sstream>
#include <utility>

namespace leafwright::text {

Parsed<Fonts> standard_fonts(const std::string& folder) {
  constexpr std::array<std::pair<Role, const char*>, 6> files{{
      {Role::Text, "Lato-Regular.ttf"},
      {Role::TextBold, "Lato-Bold.ttf"},
      {Role::TextItalic, "Lato-Italic.ttf"},
      {Role::TextBoldItalic, "Lato-BoldItalic.ttf"},
      {Role::Display, "Vollkorn-SemiBold.ttf"},
      {Role::DisplayItalic, "Vollkorn-SemiBoldItalic.ttf"},
  }};
  Fonts fonts;
  for (const auto& [role, name] : files) {
    const std::string path = folder + "/" + name;
    std::ifstream file(path, std::ios::binary);
    std::ostringstream content;
    content << file.rdbuf();
    if (!file.good() || !content.good())
      return ParseError{0, 0, path + " cannot be read", "the fonts that ship with the program",
                        "install the fonts folder again, or name where it is"};
    const Parsed<int> face = fonts.add(name, std::move(content).str());
    if (!face) return face.parse_error();
    fonts.set_role(role, *face);
  }
  return fonts;
}

namespace {

// What a PDF reader does not need to show glyphs by their ids, and variations: a variable font is
// embedded as it looks by default.
constexpr std::array unneeded{
    HB_TAG('G', 'S', 'U', 'B'), HB_TAG('G', 'P', 'O', 'S'), HB_TAG('G', 'D', 'E', 'F'),
    HB_TAG('k', 'e', 'r', 'n'), HB_TAG('c', 'm', 'a', 'p'), HB_TAG('n', 'a', 'm', 'e'),
    HB_TAG('O', 'S', '/', '2'), HB_TAG('p', 'o', 's', 't'), HB_TAG('g', 'a', 's', 'p'),
    HB_TAG('f', 'v', 'a', 'r'), HB_TAG('g', 'v', 'a', 'r'), HB_TAG('a', 'v', 'a', 'r'),
    HB_TAG('H', 'V', 'A', 'R'), HB_TAG('M', 'V', 'A', 'R'), HB_TAG('S', 'T', 'A', 'T'),
    HB_TAG('c', 'v', 'a', 'r'), HB_TAG('F', 'F', 'T', 'M'), HB_TAG('D', 'S', 'I', 'G')};

struct InputDeleter {
  void operator()(hb_subset_input_t* input) const { hb_subset_input_destroy(input); }
};

constexpr std::array not_for_screens{HB_TAG('D', 'S', 'I', 'G'), HB_TAG('F', 'F', 'T', 'M')};

// Runs the subsetter as `prepare` sets it up.
template <class Prepare>
std::string part_of(const Fonts& fonts, int face, const Prepare& prepare) {
  const std::string_view bytes = fonts.bytes(face);
  hb_blob_t* whole = hb_blob_create(bytes.data(), static_cast<unsigned>(bytes.size()),
                                    HB_MEMORY_MODE_READONLY, nullptr, nullptr);
  hb_face_t* source = hb_face_create(whole, 0);
  hb_blob_destroy(whole);

  const std::unique_ptr<hb_subset_input_t, InputDeleter> input(hb_subset_input_create_or_fail());
  std::string part;
  if (input != nullptr) {
    prepare(input.get());
    if (hb_face_t* result = hb_subset_or_fail(source, input.get()); result != nullptr) {
      hb_blob_t* blob = hb_face_reference_blob(result);
      unsigned length = 0;
      const char* data = hb_blob_get_data(blob, &length);
      part.assign(data, length);
      hb_blob_destroy(blob);
      hb_face_destroy(result);
    }
  }
  hb_face_destroy(source);
  return part;
}

void drop(hb_subset_input_t* input, std::span<const hb_tag_t> tables) {
  hb_set_t* dropped = hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG);
  for (const hb_tag_t tag : tables) hb_set_add(dropped, tag);
}

} // namespace

std::string subset(const Fonts& fonts, int face, std::span<const std::uint32_t> glyphs) {
  return part_of(fonts, face, [glyphs](hb_subset_input_t* input) {
    // The pages already hold the glyph ids. Hinting is for screens of old, and larger than the
    // outlines.
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_RETAIN_GIDS | HB_SUBSET_FLAGS_NO_HINTING);
    hb_set_t* wanted = hb_subset_input_glyph_set(input);
    for (const std::uint32_t glyph : glyphs) hb_set_add(wanted, glyph);
    drop(input, unneeded);
  });
}

std::string subset_for_screen(const Fonts& fonts, int face, std::u32string_view characters) {
  return part_of(fonts, face, [characters](hb_subset_input_t* input) {
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_NO_HINTING);
    hb_set_t* wanted = hb_subset_input_unicode_set(input);
    for (const char32_t character : characters) hb_set_add(wanted, character);
    // Beside what every text needs: figures of one width, and fractions.
    hb_set_t* features = hb_subset_input_set(input, HB_SUBSET_SETS_LAYOUT_FEATURE_TAG);
    for (const hb_tag_t tag : {HB_TAG('t', 'n', 'u', 'm'), HB_TAG('f', 'r', 'a', 'c')})
      hb_set_add(features, tag);
    drop(input, not_for_screens);
  });
}

} // namespace leafwright::text
