#include "output/internal/svg/pen.h"

#include "measure/index.h"
#include "output/internal/list/display_list.h"
#include "output/internal/picture/picture.h"
#include "output/pictures.h"
#include "text/xml_text.h"

#include <fmt/format.h>

namespace leafwright::svg {
namespace {

constexpr std::int64_t nm_per_font_unit = 1000; // in GlyphOutlines
constexpr std::int64_t nm_of_part = 10'000;     // what a part is exact to

void append_opacity(std::string& out, const char* attribute, double opacity) {
  const int thousandths = opacity_thousandths(opacity);
  if (thousandths == 1000) return;
  out += fmt::format(" {}=\"", attribute);
  append_real(out, thousandths / 1000.0, 3);
  out.push_back('"');
}

// matrix(...) that turns clockwise and then moves to `to`, with a size for each axis first.
std::string matrix(Turn turn, double x_size, double y_size, double to_x, double to_y,
                   int decimals = 9) {
  std::string out = "matrix(";
  for (const double value : {turn.cosine * x_size, turn.sine * x_size, -turn.sine * y_size,
                             turn.cosine * y_size, to_x, to_y}) {
    if (out.back() != '(') out.push_back(' ');
    append_real(out, value, decimals);
  }
  out.push_back(')');
  return out;
}

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

} // namespace

void SvgPen::draw(const Fill& fill) {
  const std::string data = data_of(fill.path);
  if (data.empty()) return;
  body_ += fmt::format("<path fill=\"{}\" fill-rule=\"evenodd\"", colour(fill.colour));
  append_opacity(body_, "fill-opacity", fill.opacity);
  body_ += fmt::format(" d=\"{}\"/>\n", data);
}

void SvgPen::draw(const Stroke& stroke) {
  const std::string data = data_of(stroke.path);
  if (data.empty() || stroke.width.nm <= 0) return;
  body_ += fmt::format("<path fill=\"none\" stroke=\"{}\" stroke-width=\"", colour(stroke.colour));
  append_length(body_, stroke.width);
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
      append_length(body_, dash[i]);
    }
    body_.push_back('"');
  }
  body_ += fmt::format(" d=\"{}\"/>\n", data);
}

void SvgPen::define_glyph(int face, std::uint32_t glyph) {
  if (!glyphs_.insert({face, glyph}).second) return;
  definitions_ += fmt::format("<path id=\"{}g{}-{}\" d=\"{}\"/>\n", ids_, face, glyph,
                              path_data(outlines_.of(face, glyph), nm_per_font_unit));
}

std::string SvgPen::glyph_marks(const TextRun& run, const std::vector<PlacedGlyph>& placed,
                                double unit) {
  const int decimals = way_ == Way::File ? 2 : 0;
  std::string marks;
  for (const PlacedGlyph& glyph : placed) {
    if (outlines_.of(run.shaped.face, glyph.id).empty()) continue; // a space
    define_glyph(run.shaped.face, glyph.id);
    marks += fmt::format("<use {}=\"#{}g{}-{}\" x=\"", href(), ids_, run.shaped.face, glyph.id);
    append_real(marks, glyph.x / unit, decimals);
    marks.push_back('"');
    if (glyph.y != 0) {
      marks += " y=\"";
      append_real(marks, glyph.y / unit, decimals);
      marks.push_back('"');
    }
    marks += "/>";
  }
  return marks;
}

void SvgPen::draw(const TextRun& run) {
  const std::vector<PlacedGlyph> placed = placed_glyphs(fonts_, run);
  const double unit = outlines_.scale(run.shaped) / 1000.0; // of a font unit, in mm
  if (placed.empty() || unit <= 0) return;
  std::string marks = glyph_marks(run, placed, unit);
  if (way_ == Way::File) {
    body_ += fmt::format(
        "<g fill=\"{}\" transform=\"{}\"><title>{}</title>", colour(run.colour),
        matrix(turn_of(run.turned), unit, unit, in_mm(run.baseline.x), in_mm(run.baseline.y)),
        text::xml_text(run.shaped.text));
    body_ += marks + "</g>\n";
    return;
  }
  if (marks.empty()) return;
  const auto [place, is_new] =
      words_.try_emplace(std::move(marks), static_cast<int>(words_.size()));
  if (is_new)
    definitions_ += fmt::format("<g id=\"{}w{}\">{}</g>\n", ids_, place->second, place->first);
  constexpr int decimals = 6; // a hundredth of a millimetre over 2000 font units
  body_ += fmt::format("<use href=\"#{}w{}\" fill=\"{}\" transform=\"{}\"/>\n", ids_, place->second,
                       colour(run.colour),
                       matrix(turn_of(run.turned), unit, unit, in_mm(run.baseline.x),
                              in_mm(run.baseline.y), decimals));
}

// The picture once, as a square of one by one.
bool SvgPen::define_picture(int index) {
  if (defined_pictures_.contains(index)) return true;
  const Picture& picture = pictures_[as_index(index)];
  if (const Parsed<picture::Pixels> sound = picture::decode(picture); !sound) {
    if (!failed_) failed_ = sound.parse_error();
    return false;
  }
  const bool png = picture.kind == Picture::Kind::Png;
  definitions_ += fmt::format("<image id=\"{}p{}\" width=\"1\" height=\"1\"{} "
                              "preserveAspectRatio=\"none\" {}=\"data:image/{};base64,{}\"/>\n",
                              ids_, index, png ? "" : stored_to_upright(picture.orientation),
                              href(), png ? "png" : "jpeg",
                              base64(png ? picture.bytes : picture::without_exif(picture.bytes)));
  defined_pictures_.insert(index);
  return true;
}

void SvgPen::draw(const Image& image) {
  if (image.picture < 0 || as_index(image.picture) >= pictures_.size() ||
      !define_picture(image.picture))
    return;
  const Turn turn = turn_of(image.turned);
  const double width = in_mm(image.box.size.width), height = in_mm(image.box.size.height);
  const double middle_x = in_mm(image.box.left()) + width / 2;
  const double middle_y = in_mm(image.box.top()) + height / 2;
  const double x = middle_x - (turn.cosine * width - turn.sine * height) / 2;
  const double y = middle_y - (turn.sine * width + turn.cosine * height) / 2;
  body_ += fmt::format("<use {}=\"#{}p{}\" transform=\"{}\"/>\n", href(), ids_, image.picture,
                       matrix(turn, width, height, x, y));
}

int SvgPen::define_clip(std::string data) {
  if (way_ == Way::Part) {
    const auto [place, is_new] = clips_.try_emplace(data, clips_made_);
    if (!is_new) return place->second;
  }
  definitions_ +=
      fmt::format("<clipPath id=\"{}c{}\"><path clip-rule=\"evenodd\" d=\"{}\"/></clipPath>\n",
                  ids_, clips_made_, data);
  return clips_made_++;
}

void SvgPen::draw(const PushClip& clip) {
  body_ += fmt::format("<g clip-path=\"url(#{}c{})\">\n", ids_, define_clip(data_of(clip.path)));
  ++clips_open_;
}
void SvgPen::draw(const PopClip&) {
  if (clips_open_ == 0) return;
  body_ += "</g>\n";
  --clips_open_;
}

void SvgPen::draw(const Link& link) {
  if (!is_address(link)) return; // an anchor is on another page
  body_ += fmt::format("<a {}=\"{}\"><path fill=\"none\" pointer-events=\"all\" d=\"M", href(),
                       text::xml_text(link.target));
  append_length(body_, link.box.left());
  body_.push_back(' ');
  append_length(body_, link.box.top());
  body_.push_back('H');
  append_length(body_, link.box.right());
  body_.push_back('V');
  append_length(body_, link.box.bottom());
  body_.push_back('H');
  append_length(body_, link.box.left());
  body_ += "Z\"/></a>\n";
}

// A group for each thing where the page asks for them.
void SvgPen::draw(const Mark& mark) {
  if (!things_) return;
  if (mark.kind == "thing")
    body_ += fmt::format("<g data-thing=\"{}\">\n", text::xml_text(things_(mark.id)));
  else if (mark.kind == "thing-end")
    body_ += "</g>\n";
}

std::string SvgPen::data_of(const Path& path) const {
  return way_ == Way::File ? path_data(path) : rounded_path_data(path, nm_of_part);
}

void SvgPen::append_length(std::string& out, Length a) const {
  append_mm(out, way_ == Way::File ? a : rounded(a, nm_of_part));
}

std::string SvgPen::play(const std::vector<DrawItem>& items) {
  body_.clear();
  for (const DrawItem& item : items) std::visit([this](const auto& one) { draw(one); }, item);
  while (clips_open_ > 0) draw(PopClip{});
  return std::move(body_);
}

} // namespace leafwright::svg
