#include "output/pictures.h"

#include "output/internal/preview/cairo_pen.h"

#include <fmt/format.h>
#include <libdeflate.h>

#include <algorithm>
#include <cmath>

namespace leafwright::preview {
namespace {

constexpr int most_side = 30'000;                 // cairo's pictures end at 32 767
constexpr std::int64_t most_pixels = 400'000'000; // 1.6 GB

void append_word(std::string& out, std::uint32_t value) {
  for (const unsigned shift : {24U, 16U, 8U, 0U})
    out.push_back(static_cast<char>(value >> shift & 0xffU));
}

// The chunk that tells how many pixels make a metre (ISO/IEC 15948, 11.3.5.3); it goes right after
// the header, which ends at byte 33.
void note_scale(std::string& png, double pixels_per_mm) {
  constexpr std::size_t after_header = 33;
  if (png.size() < after_header) return;
  const auto per_metre = static_cast<std::uint32_t>(std::lround(pixels_per_mm * 1000.0));
  std::string body = "pHYs";
  append_word(body, per_metre);
  append_word(body, per_metre);
  body.push_back(1); // the unit is the metre
  std::string chunk;
  append_word(chunk, 9);
  chunk += body;
  append_word(chunk, libdeflate_crc32(0, body.data(), body.size()));
  png.insert(after_header, chunk);
}

cairo_status_t append_bytes(void* to, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

ParseError impossible(std::string found) {
  return {0, 0, std::move(found), fmt::format("a side of 1 to {} pixels", most_side),
          "choose another width"};
}

Parsed<std::string> render(Size size, const std::vector<DrawItem>& items, const text::Fonts& fonts,
                           std::span<const Picture> pictures, const PngOptions& options) {
  if (size.width.nm <= 0 || size.height.nm <= 0)
    return impossible("a drawing without width or height");
  const int width = options.width_px;
  const double scale = width / in_mm(size.width);
  const double exact_height = std::round(scale * in_mm(size.height));
  if (width < 1 || width > most_side || exact_height < 1 || exact_height > most_side ||
      width * exact_height > static_cast<double>(most_pixels))
    return impossible(fmt::format("a picture of {} × {:.0f} pixels", width, exact_height));
  const int height = static_cast<int>(exact_height);

  const Surface surface(cairo_image_surface_create(
      options.transparent ? CAIRO_FORMAT_ARGB32 : CAIRO_FORMAT_RGB24, width, height));
  const Context context(cairo_create(surface.get()));
  if (!options.transparent) {
    cairo_set_source_rgb(context.get(), options.paper.red / 255.0, options.paper.green / 255.0,
                         options.paper.blue / 255.0);
    cairo_paint(context.get());
  }
  cairo_scale(context.get(), scale, scale);
  cairo_set_antialias(context.get(), CAIRO_ANTIALIAS_GOOD);
  constexpr double finest_px = 0.75; // thinner ones fade away in small previews
  CairoPen pen(context.get(), fonts, pictures, finest_px / scale);
  if (auto failed = pen.play(items); failed) return std::move(*failed);
  std::string png;
  const cairo_status_t written =
      cairo_surface_write_to_png_stream(surface.get(), append_bytes, &png);
  if (written != CAIRO_STATUS_SUCCESS) return impossible(cairo_status_to_string(written));
  note_scale(png, scale);
  return png;
}

} // namespace

int width_at(Length width, int dots_per_inch) {
  return std::max(1, static_cast<int>(std::lround(in_inches(width) * dots_per_inch)));
}

Parsed<std::string> render_png(const Drawing& drawing, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const PngOptions& options) {
  return render(drawing.size, drawing.items, fonts, pictures, options);
}
Parsed<std::string> render_png(const page::LaidPage& page, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const PngOptions& options) {
  return render(page.size, page.items, fonts, pictures, options);
}

} // namespace leafwright::preview
