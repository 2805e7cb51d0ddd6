#include "output/pictures.h"

#include "output/internal/svg/pen.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

namespace leafwright::svg {
namespace {

ParseError sizeless() {
  return {0, 0, "a drawing without width or height", "a drawing with both", "give it a size"};
}

Parsed<std::string> file(Size size, const std::vector<DrawItem>& items, const text::Fonts& fonts,
                         std::span<const Picture> pictures, const SvgOptions& options) {
  if (size.width.nm <= 0 || size.height.nm <= 0) return sizeless();
  SvgPen pen(fonts, pictures, Way::File);
  const std::string body = pen.play(items);
  if (pen.failed()) return *pen.failed();
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
  if (!pen.definitions().empty()) out += "<defs>\n" + pen.definitions() + "</defs>\n";
  return out + body + "</svg>\n";
}

} // namespace

Parsed<std::string> render_svg(const Drawing& drawing, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const SvgOptions& options) {
  return file(drawing.size, drawing.items, fonts, pictures, options);
}
Parsed<std::string> render_svg(const page::LaidPage& page, const text::Fonts& fonts,
                               std::span<const Picture> pictures, const SvgOptions& options) {
  return file(page.size, page.items, fonts, pictures, options);
}

Parsed<std::string> picture_on_page(const Drawing& drawing, const text::Fonts& fonts,
                                    std::span<const Picture> pictures, const PageOptions& options) {
  if (drawing.size.width.nm <= 0 || drawing.size.height.nm <= 0) return sizeless();
  SvgPen pen(fonts, pictures, Way::Part, options.ids, options.things);
  const std::string body = pen.play(drawing.items);
  if (pen.failed()) return *pen.failed();
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"";
  for (const Length side :
       {-options.origin.x, -options.origin.y, drawing.size.width, drawing.size.height}) {
    append_mm(out, rounded(side, 1000));
    out += ' ';
  }
  out.back() = '"';
  out += " stroke-miterlimit=\"10\" data-scale=\"";
  append_real(out, options.scale, 4);
  out += fmt::format("\" role=\"img\">\n<title>{}</title>\n", text::xml_text(options.title));
  if (!pen.definitions().empty()) out += "<defs>\n" + pen.definitions() + "</defs>\n";
  out += "<g transform=\"translate(";
  append_mm(out, rounded(-options.origin.x, 1000));
  out += ' ';
  append_mm(out, rounded(-options.origin.y, 1000));
  return out + ")\">\n" + body + "</g>\n</svg>\n";
}

struct SvgParts::Inside {
  Inside(const text::Fonts& fonts, std::span<const Picture> pictures)
      : pen(fonts, pictures, Way::Part) {}
  SvgPen pen;
};

SvgParts::SvgParts(const text::Fonts& fonts, std::span<const Picture> pictures)
    : inside_(std::make_unique<Inside>(fonts, pictures)) {}
SvgParts::~SvgParts() = default;

std::string SvgParts::draw(const Drawing& drawing) { return inside_->pen.play(drawing.items); }
const std::string& SvgParts::definitions() const { return inside_->pen.definitions(); }
const std::optional<ParseError>& SvgParts::failed() const { return inside_->pen.failed(); }

namespace {

std::string mm(Length a) {
  std::string out;
  append_mm(out, a);
  return out;
}

std::string straight(const figure::CutLines::Line& line, std::string_view more = {}) {
  return fmt::format("    <line{} x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", more,
                     mm(line.from.x), mm(line.from.y), mm(line.to.x), mm(line.to.y));
}

std::string group(std::string_view id, std::string_view stroke, const std::string& inside) {
  if (inside.empty()) return {};
  return fmt::format(
      "  <g id=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"0.1\"{}>\n{}  </g>\n", id, stroke,
      id == "score" ? " stroke-dasharray=\"3 1\"" : "", inside);
}

} // namespace

std::string cut_lines_svg(const figure::CutLines& lines) {
  const std::string w = mm(lines.size.width), h = mm(lines.size.height);
  std::string edge, cuts, scores;
  if (lines.edge)
    edge = fmt::format("    <rect x=\"0\" y=\"0\" width=\"{}\" height=\"{}\"/>\n", w, h);
  for (const figure::CutLines::Line& line : lines.cuts) cuts += straight(line);
  for (const Path& outline : lines.outlines)
    cuts += fmt::format("    <path d=\"{}\"/>\n", path_data(outline));
  for (const figure::CutLines::ScoreLine& score : lines.scores)
    scores += straight(score.line, score.mountain ? " class=\"mountain\"" : " class=\"valley\"");
  return fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                     "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" "
                     "height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n  <title>{2}</title>\n",
                     w, h, text::xml_text(lines.title)) +
         group("sheet", "#999999", edge) + group("cut", "#000000", cuts) +
         group("score", "#0000ff", scores) + "</svg>\n";
}

namespace {

// value / unit with as many decimals as it takes; unit is a power of ten.
void append_quotient(std::string& out, std::int64_t value, std::int64_t unit) {
  if (value < 0) {
    out.push_back('-');
    value = -value;
  }
  fmt::format_to(std::back_inserter(out), "{}", value / unit);
  std::int64_t rest = value % unit;
  if (rest != 0) out.push_back('.');
  while (rest != 0) {
    unit /= 10;
    out.push_back(static_cast<char>('0' + rest / unit));
    rest %= unit;
  }
}

} // namespace

void append_mm(std::string& out, Length a) { append_quotient(out, a.nm, nm_per_mm); }

void append_real(std::string& out, double value, int decimals) {
  constexpr double largest = 1e9;
  if (!std::isfinite(value) || std::abs(value) > largest) value = 0;
  std::int64_t unit = 1;
  for (int i = 0; i < decimals; ++i) unit *= 10;
  append_quotient(out, std::llround(value * static_cast<double>(unit)), unit);
}

std::string path_data(const Path& path, std::int64_t nm_per_unit) {
  std::string out;
  bool begun = false;
  const auto point = [&](Point at) {
    append_quotient(out, at.x.nm, nm_per_unit);
    out.push_back(' ');
    append_quotient(out, at.y.nm, nm_per_unit);
  };
  for (const Segment& segment : path) {
    switch (segment.kind) {
    case Segment::Kind::Move:
      out.push_back('M');
      point(segment.end);
      begun = true;
      break;
    case Segment::Kind::Line:
      out.push_back(begun ? 'L' : 'M');
      point(segment.end);
      begun = true;
      break;
    case Segment::Kind::Curve:
      if (!begun) {
        out.push_back('M');
        point(segment.control1);
      }
      out.push_back('C');
      point(segment.control1);
      out.push_back(' ');
      point(segment.control2);
      out.push_back(' ');
      point(segment.end);
      begun = true;
      break;
    case Segment::Kind::Close:
      if (begun) out.push_back('Z');
      break;
    }
  }
  return out;
}

Length rounded(Length a, std::int64_t step_nm) {
  const std::int64_t half = step_nm / 2;
  return {(a.nm >= 0 ? a.nm + half : a.nm - half) / step_nm * step_nm};
}

std::string rounded_path_data(Path path, std::int64_t step_nm) {
  for (Segment& segment : path)
    for (Point* point : {&segment.control1, &segment.control2, &segment.end})
      *point = {rounded(point->x, step_nm), rounded(point->y, step_nm)};
  return path_data(path);
}

std::string colour(Colour colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view digits =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t k) {
      return i + k < bytes.size() ? static_cast<unsigned>(static_cast<unsigned char>(bytes[i + k]))
                                  : 0U;
    };
    const unsigned group = byte(0) << 16U | byte(1) << 8U | byte(2);
    out.push_back(digits[group >> 18U & 63U]);
    out.push_back(digits[group >> 12U & 63U]);
    out.push_back(i + 1 < bytes.size() ? digits[group >> 6U & 63U] : '=');
    out.push_back(i + 2 < bytes.size() ? digits[group & 63U] : '=');
  }
  return out;
}

} // namespace leafwright::svg
