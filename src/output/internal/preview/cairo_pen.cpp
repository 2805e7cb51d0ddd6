#include "output/internal/preview/cairo_pen.h"

#include "measure/index.h"
#include "output/internal/list/display_list.h"
#include "output/internal/picture/picture.h"

#include <algorithm>

namespace leafwright::preview {
namespace {

cairo_line_cap_t cap_of(Stroke::Cap cap) {
  switch (cap) {
  case Stroke::Cap::Round: return CAIRO_LINE_CAP_ROUND;
  case Stroke::Cap::Square: return CAIRO_LINE_CAP_SQUARE;
  case Stroke::Cap::Butt: break;
  }
  return CAIRO_LINE_CAP_BUTT;
}
cairo_line_join_t join_of(Stroke::Join join) {
  switch (join) {
  case Stroke::Join::Round: return CAIRO_LINE_JOIN_ROUND;
  case Stroke::Join::Bevel: return CAIRO_LINE_JOIN_BEVEL;
  case Stroke::Join::Miter: break;
  }
  return CAIRO_LINE_JOIN_MITER;
}

// cairo's ARGB32: a machine word a pixel, colours multiplied by alpha.
void store_pixel(unsigned char* at, unsigned red, unsigned green, unsigned blue, unsigned alpha) {
  const auto times_alpha = [alpha](unsigned value) { return (value * alpha + 127) / 255; };
  const std::uint32_t word =
      alpha << 24U | times_alpha(red) << 16U | times_alpha(green) << 8U | times_alpha(blue);
  *reinterpret_cast<std::uint32_t*>(at) = word;
}

} // namespace

std::optional<ParseError> CairoPen::play(const std::vector<DrawItem>& items) {
  for (const DrawItem& item : items) std::visit([this](const auto& one) { draw(one); }, item);
  while (clips_ > 0) draw(PopClip{});
  if (!failed_ && cairo_status(context_) != CAIRO_STATUS_SUCCESS)
    failed_ = ParseError{0, 0,
                         std::string("a drawing that cannot be drawn: ") +
                             cairo_status_to_string(cairo_status(context_)),
                         "lengths within reason", "look for a size far too large"};
  return failed_;
}

// False when there is nothing to draw.
bool CairoPen::trace(const Path& path) {
  cairo_new_path(context_);
  bool drawn = false;
  for (const Segment& segment : path) {
    const double x = in_mm(segment.end.x), y = in_mm(segment.end.y);
    switch (segment.kind) {
    case Segment::Kind::Move: cairo_move_to(context_, x, y); break;
    case Segment::Kind::Line:
      drawn = drawn || cairo_has_current_point(context_) != 0;
      cairo_line_to(context_, x, y);
      break;
    case Segment::Kind::Curve:
      cairo_curve_to(context_, in_mm(segment.control1.x), in_mm(segment.control1.y),
                     in_mm(segment.control2.x), in_mm(segment.control2.y), x, y);
      drawn = true;
      break;
    case Segment::Kind::Close: cairo_close_path(context_); break;
    }
  }
  return drawn;
}

void CairoPen::set_colour(Colour colour, double opacity) {
  cairo_set_source_rgba(context_, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0,
                        opacity_thousandths(opacity) / 1000.0);
}

void CairoPen::draw(const Fill& fill) {
  if (!trace(fill.path)) return;
  set_colour(fill.colour, fill.opacity);
  cairo_set_fill_rule(context_, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_fill(context_);
}

void CairoPen::draw(const Stroke& stroke) {
  if (stroke.width.nm <= 0 || !trace(stroke.path)) return;
  set_colour(stroke.colour, stroke.opacity);
  cairo_set_line_width(context_, std::max(in_mm(stroke.width), finest_mm_));
  cairo_set_line_cap(context_, cap_of(stroke.cap));
  cairo_set_line_join(context_, join_of(stroke.join));
  cairo_set_miter_limit(context_, 10); // as in PDF
  std::vector<double> dash;
  for (const Length length : usable_dash(stroke.dash)) dash.push_back(in_mm(length));
  cairo_set_dash(context_, dash.data(), static_cast<int>(dash.size()), 0);
  cairo_stroke(context_);
}

void CairoPen::draw(const TextRun& run) {
  const std::vector<PlacedGlyph> glyphs = placed_glyphs(fonts_, run);
  if (glyphs.empty()) return;
  const Turn turn = turn_of(run.turned);
  const double size = outlines_.scale(run.shaped);
  cairo_save(context_);
  cairo_matrix_t matrix;
  cairo_matrix_init(&matrix, turn.cosine, turn.sine, -turn.sine, turn.cosine, in_mm(run.baseline.x),
                    in_mm(run.baseline.y));
  cairo_transform(context_, &matrix);
  set_colour(run.colour, 1.0);
  cairo_set_fill_rule(context_, CAIRO_FILL_RULE_WINDING); // as TrueType has it
  for (const PlacedGlyph& glyph : glyphs) {
    cairo_save(context_);
    cairo_translate(context_, glyph.x, glyph.y);
    cairo_scale(context_, size, size);
    const bool drawn = trace(outlines_.of(run.shaped.face, glyph.id));
    cairo_restore(context_);
    if (drawn) cairo_fill(context_);
  }
  cairo_restore(context_);
}

const CairoPen::Loaded* CairoPen::load(int picture) {
  const auto [place, is_new] = loaded_.try_emplace(picture);
  Loaded& loaded = place->second;
  if (!is_new) return loaded.surface ? &loaded : nullptr;
  const Parsed<picture::Pixels> decoded = picture::decode(pictures_[as_index(picture)]);
  if (!decoded) {
    if (!failed_) failed_ = decoded.parse_error();
    return nullptr;
  }
  const picture::Pixels& pixels = *decoded;
  const auto channels = as_index(pixels.channels);
  const auto count = as_index(pixels.width) * as_index(pixels.height);
  loaded.pixels.resize(count * 4);
  for (std::size_t i = 0; i < count; ++i) {
    const std::uint8_t* from = pixels.bytes.data() + i * channels;
    const std::size_t green = channels == 1 ? 0 : 1, blue = channels == 1 ? 0 : 2;
    store_pixel(loaded.pixels.data() + i * 4, from[0], from[green], from[blue],
                channels == 4 ? from[3] : 255U);
  }
  loaded.width = pixels.width;
  loaded.height = pixels.height;
  // ARGB32 rows are whole words, so there is no padding: the stride is four bytes a pixel.
  loaded.surface = Surface(cairo_image_surface_create_for_data(
      loaded.pixels.data(), CAIRO_FORMAT_ARGB32, pixels.width, pixels.height, pixels.width * 4));
  return &loaded;
}

void CairoPen::draw(const Image& image) {
  if (image.picture < 0 || as_index(image.picture) >= pictures_.size()) return;
  const Loaded* loaded = load(image.picture);
  if (loaded == nullptr || image.box.size.width.nm <= 0 || image.box.size.height.nm <= 0) return;
  const Turn turn = turn_of(image.turned);
  const double width = in_mm(image.box.size.width), height = in_mm(image.box.size.height);
  cairo_save(context_);
  cairo_matrix_t matrix;
  cairo_matrix_init(&matrix, turn.cosine, turn.sine, -turn.sine, turn.cosine,
                    in_mm(image.box.left()) + width / 2, in_mm(image.box.top()) + height / 2);
  cairo_transform(context_, &matrix);
  cairo_translate(context_, -width / 2, -height / 2);
  cairo_scale(context_, width / loaded->width, height / loaded->height);
  cairo_set_source_surface(context_, loaded->surface.get(), 0, 0);
  // So that the picture's edge does not fade into nothing.
  cairo_pattern_set_extend(cairo_get_source(context_), CAIRO_EXTEND_PAD);
  cairo_new_path(context_);
  cairo_rectangle(context_, 0, 0, loaded->width, loaded->height);
  cairo_fill(context_);
  cairo_restore(context_);
}

void CairoPen::draw(const PushClip& clip) {
  cairo_save(context_);
  ++clips_;
  trace(clip.path);
  cairo_set_fill_rule(context_, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_clip(context_);
}

void CairoPen::draw(const PopClip&) {
  if (clips_ == 0) return;
  cairo_restore(context_);
  --clips_;
}

} // namespace leafwright::preview
