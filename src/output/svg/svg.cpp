#include "output/svg/svg.h"

#include "output/svg/pen.h"
#include "output/svg/spelling.h"
#include "text/xml_text.h"

#include <fmt/format.h>

namespace leafwright::svg {
namespace {

Misread sizeless() {
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
const std::optional<Misread>& SvgParts::failed() const { return inside_->pen.failed(); }

} // namespace leafwright::svg
