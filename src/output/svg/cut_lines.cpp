#include "output/svg/cut_lines.h"

#include "output/svg/spelling.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <string_view>

namespace leafwright::svg {
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
  for (const figure::CutLines::Score& score : lines.scores)
    scores += straight(score.line, score.mountain ? " class=\"mountain\"" : " class=\"valley\"");
  return fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                     "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" "
                     "height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n  <title>{2}</title>\n",
                     w, h, text::xml_text(lines.title)) +
         group("sheet", "#999999", edge) + group("cut", "#000000", cuts) +
         group("score", "#0000ff", scores) + "</svg>\n";
}

} // namespace leafwright::svg
