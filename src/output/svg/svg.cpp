#include "output/svg/svg.h"

#include "output/list/address.h"
#include "output/list/dash.h"
#include "output/list/glyphs.h"
#include "output/list/turn.h"
#include "output/picture/picture.h"
#include "output/svg/spelling.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <optional>
#include <set>
#include <utility>

namespace leafwright::svg {
namespace {

constexpr std::int64_t nm_per_font_unit = 1000; // in GlyphOutlines

class SvgPen {
 public:
  SvgPen(const text::Fonts& fonts, std::span<const Picture> pictures)
      : fonts_(fonts), pictures_(pictures), outlines_(fonts) {}

  Parsed<std::string> play(Size size, const std::vector<DrawItem>& items,
                           const SvgOptions& options);

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
  void draw(const Mark&) {}

  void define_glyph(int face, std::uint32_t glyph);
  bool define_picture(int picture);

  const text::Fonts& fonts_;
  std::span<const Picture> pictures_;
  GlyphOutlines outlines_;
  std::string definitions_, body_;
  std::set<std::pair<int, std::uint32_t>> glyphs_;
  std::set<int> defined_pictures_;
  int clips_made_ = 0, clips_open_ = 0;
  std::optional<Misread> failed_;
};

void append_opacity(std::string& out, const char* attribute, double opacity) {
  const int thousandths = opacity_thousandths(opacity);
  if (thousandths == 1000) return;
  out += fmt::format(" {}=\"", attribute);
  append_real(out, thousandths / 1000.0, 3);
  out.push_back('"');
}

// matrix(...) that turns clockwise and then moves to `to`, with a size for each axis first.
std::string matrix(Turn turn, double x_size, double y_size, double to_x, double to_y) {
  std::string out = "matrix(";
  for (const double value : {turn.cosine * x_size, turn.sine * x_size, -turn.sine * y_size,
                             turn.cosine * y_size, to_x, to_y}) {
    if (out.back() != '(') out.push_back(' ');
    append_real(out, value, 9);
  }
  out.push_back(')');
  return out;
}

void SvgPen::draw(const Fill& fill) {
  const std::string data = path_data(fill.path);
  if (data.empty()) return;
  body_ += fmt::format("<path fill=\"{}\" fill-rule=\"evenodd\"", colour(fill.colour));
  append_opacity(body_, "fill-opacity", fill.opacity);
  body_ += fmt::format(" d=\"{}\"/>\n", data);
}

void SvgPen::draw(const Stroke& stroke) {
  const std::string data = path_data(stroke.path);
  if (data.empty() || stroke.width.nm <= 0) return;
  body_ += fmt::format("<path fill=\"none\" stroke=\"{}\" stroke-width=\"", colour(stroke.colour));
  append_mm(body_, stroke.width);
  body_.push_back('"');
  append_opacity(body_, "stroke-opacity", stroke.opacity);
  if (stroke.cap != Stroke::Cap::Butt)
    body_ += stroke.cap == Stroke::Cap::Round ? " stroke-linecap=\"round\""
                                              : " stroke-linecap=\"square\"";
  if (stroke.join != Stroke::Join::Miter)
    body_ += stroke.join == Stroke::Join::Round ? " stroke-linejoin=\"round\""
                                                : " stroke-linejoin=\"bevel\"";
  if (const std::vector<Length> dash = usable_dash(stroke.dash); !dash.empty()) {
    body_ += " stroke-dasharray=\"";
    for (std::size_t i = 0; i < dash.size(); ++i) {
      if (i > 0) body_.push_back(' ');
      append_mm(body_, dash[i]);
    }
    body_.push_back('"');
  }
  body_ += fmt::format(" d=\"{}\"/>\n", data);
}

void SvgPen::define_glyph(int face, std::uint32_t glyph) {
  if (!glyphs_.insert({face, glyph}).second) return;
  definitions_ += fmt::format("<path id=\"g{}-{}\" d=\"{}\"/>\n", face, glyph,
                              path_data(outlines_.of(face, glyph), nm_per_font_unit));
}

void SvgPen::draw(const TextRun& run) {
  const std::vector<PlacedGlyph> placed = placed_glyphs(fonts_, run);
  const double unit = outlines_.scale(run.shaped) / 1000.0; // of a font unit, in mm
  if (placed.empty() || unit <= 0) return;
  body_ += fmt::format(
      "<g fill=\"{}\" transform=\"{}\"><title>{}</title>", colour(run.colour),
      matrix(turn_of(run.turned), unit, unit, in_mm(run.baseline.x), in_mm(run.baseline.y)),
      text::xml_text(run.shaped.text));
  for (const PlacedGlyph& glyph : placed) {
    if (outlines_.of(run.shaped.face, glyph.id).empty()) continue; // a space
    define_glyph(run.shaped.face, glyph.id);
    body_ += fmt::format("<use xlink:href=\"#g{}-{}\" x=\"", run.shaped.face, glyph.id);
    append_real(body_, glyph.x / unit, 2);
    body_.push_back('"');
    if (glyph.y != 0) {
      body_ += " y=\"";
      append_real(body_, glyph.y / unit, 2);
      body_.push_back('"');
    }
    body_ += "/>";
  }
  body_ += "</g>\n";
}

// The picture once, as a square of one by one.
// The unit square of a picture as it is stored onto the same as it is seen (Exif orientations).
std::string_view stored_to_upright(int orientation) {
  switch (orientation) {
  case 2: return " transform=\"matrix(-1,0,0,1,1,0)\"";
  case 3: return " transform=\"matrix(-1,0,0,-1,1,1)\"";
  case 4: return " transform=\"matrix(1,0,0,-1,0,1)\"";
  case 5: return " transform=\"matrix(0,1,1,0,0,0)\"";
  case 6: return " transform=\"matrix(0,1,-1,0,1,0)\"";
  case 7: return " transform=\"matrix(0,-1,-1,0,1,1)\"";
  case 8: return " transform=\"matrix(0,-1,1,0,0,1)\"";
  default: return {};
  }
}

bool SvgPen::define_picture(int index) {
  if (defined_pictures_.contains(index)) return true;
  const Picture& picture = pictures_[static_cast<std::size_t>(index)];
  if (const Parsed<picture::Pixels> sound = picture::decode(picture); !sound) {
    if (!failed_) failed_ = sound.misread();
    return false;
  }
  const bool png = picture.kind == Picture::Kind::Png;
  definitions_ +=
      fmt::format("<image id=\"p{}\" width=\"1\" height=\"1\"{} "
                  "preserveAspectRatio=\"none\" xlink:href=\"data:image/{};base64,{}\"/>\n",
                  index, png ? "" : stored_to_upright(picture.orientation), png ? "png" : "jpeg",
                  base64(png ? picture.bytes : picture::without_exif(picture.bytes)));
  defined_pictures_.insert(index);
  return true;
}

void SvgPen::draw(const Image& image) {
  if (image.picture < 0 || static_cast<std::size_t>(image.picture) >= pictures_.size() ||
      !define_picture(image.picture))
    return;
  const Turn turn = turn_of(image.turned);
  const double width = in_mm(image.box.size.width), height = in_mm(image.box.size.height);
  const double middle_x = in_mm(image.box.left()) + width / 2;
  const double middle_y = in_mm(image.box.top()) + height / 2;
  const double x = middle_x - (turn.cosine * width - turn.sine * height) / 2;
  const double y = middle_y - (turn.sine * width + turn.cosine * height) / 2;
  body_ += fmt::format("<use xlink:href=\"#p{}\" transform=\"{}\"/>\n", image.picture,
                       matrix(turn, width, height, x, y));
}

void SvgPen::draw(const PushClip& clip) {
  definitions_ +=
      fmt::format("<clipPath id=\"c{}\"><path clip-rule=\"evenodd\" d=\"{}\"/></clipPath>\n",
                  clips_made_, path_data(clip.path));
  body_ += fmt::format("<g clip-path=\"url(#c{})\">\n", clips_made_);
  ++clips_made_;
  ++clips_open_;
}
void SvgPen::draw(const PopClip&) {
  if (clips_open_ == 0) return;
  body_ += "</g>\n";
  --clips_open_;
}

void SvgPen::draw(const Link& link) {
  if (!is_address(link)) return; // an anchor is on another page
  body_ += fmt::format("<a xlink:href=\"{}\"><path fill=\"none\" pointer-events=\"all\" d=\"M",
                       text::xml_text(link.target));
  append_mm(body_, link.box.left());
  body_.push_back(' ');
  append_mm(body_, link.box.top());
  body_.push_back('H');
  append_mm(body_, link.box.right());
  body_.push_back('V');
  append_mm(body_, link.box.bottom());
  body_.push_back('H');
  append_mm(body_, link.box.left());
  body_ += "Z\"/></a>\n";
}

Parsed<std::string> SvgPen::play(Size size, const std::vector<DrawItem>& items,
                                 const SvgOptions& options) {
  if (size.width.nm <= 0 || size.height.nm <= 0)
    return Misread{0, 0, "a drawing without width or height", "a drawing with both",
                   "give it a size"};
  for (const DrawItem& item : items) std::visit([this](const auto& one) { draw(one); }, item);
  while (clips_open_ > 0) draw(PopClip{});
  if (failed_) return std::move(*failed_);
  std::string width, height;
  append_mm(width, size.width);
  append_mm(height, size.height);
  std::string out = fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                                "<svg xmlns=\"http://www.w3.org/2000/svg\" "
                                "xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\" "
                                "width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" "
                                "stroke-miterlimit=\"10\">\n",
                                width, height);
  if (!options.title.empty()) out += "<title>" + text::xml_text(options.title) + "</title>\n";
  if (!options.description.empty())
    out += "<desc>" + text::xml_text(options.description) + "</desc>\n";
  if (!definitions_.empty()) out += "<defs>\n" + definitions_ + "</defs>\n";
  return out + body_ + "</svg>\n";
}

} // namespace

Parsed<std::string> render_svg(const Drawing& drawing, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const SvgOptions& options) {
  return SvgPen(fonts, pictures).play(drawing.size, drawing.items, options);
}
Parsed<std::string> render_svg(const page::LaidPage& page, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const SvgOptions& options) {
  return SvgPen(fonts, pictures).play(page.size, page.items, options);
}

} // namespace leafwright::svg
