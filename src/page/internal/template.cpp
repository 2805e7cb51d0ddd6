#include "page/template.h"

#include "measure/index.h"
#include "measure/length.h"
#include "measure/parse_length.h"
#include "page/internal/template_xml.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

namespace leafwright::page {

Colour mixed(const Tint& tint, Colour accent) {
  const Colour base = tint.accent ? accent : tint.fixed;
  const auto mix = [&](std::uint8_t channel) {
    const double value = 255.0 - tint.share * (255.0 - static_cast<double>(channel));
    return static_cast<std::uint8_t>(std::lround(value));
  };
  return {mix(base.red), mix(base.green), mix(base.blue)};
}

const TextStyle& Template::style(std::string_view wanted) const {
  static const TextStyle fallback;
  auto found = styles.find(wanted);
  if (found == styles.end()) found = styles.find("body");
  return found == styles.end() ? fallback : found->second;
}

Tint Template::colour(std::string_view wanted) const {
  const auto found = colours.find(wanted);
  if (found != colours.end()) return found->second;
  if (wanted == "accent") return {true, {}, 1.0};
  if (wanted == "paper") return {false, {255, 255, 255}, 1.0};
  return {};
}

namespace {

constexpr std::string_view name_space = "urn:leafwright:template";

void read_colours(TemplateSource& source, pugi::xml_node element, Template& into) {
  for (const pugi::xml_node child : element.children("colour")) {
    Attributes attributes(source, child);
    std::string name;
    Tint tint;
    attributes.text("name", name);
    attributes.tint("value", tint, into);
    attributes.share("share", tint.share);
    into.colours[name] = tint;
  }
}

void read_styles(TemplateSource& source, pugi::xml_node element, Template& into) {
  using enum text::Role;
  constexpr std::array roles = {Text, TextBold, TextItalic, TextBoldItalic, Display, DisplayItalic};
  for (const pugi::xml_node child : element.children("style")) {
    Attributes attributes(source, child);
    std::string name;
    std::string like;
    attributes.text("name", name);
    attributes.text("like", like);
    TextStyle style;
    style.colour = into.colour("ink");
    if (!like.empty()) {
      if (const auto found = into.styles.find(like); found != into.styles.end()) {
        style = found->second;
      } else {
        attributes.fault(child.attribute("like"), "the name of a style defined above",
                         "define that style first");
      }
      style.before = style.after = {};
    }
    int role = static_cast<int>(style.role);
    attributes.choice(
        "face", role,
        {"text", "text-bold", "text-italic", "text-bold-italic", "display", "display-italic"});
    style.role = roles.at(as_index(role));
    attributes.length("size", style.size);
    attributes.length("leading", style.leading);
    attributes.tint("colour", style.colour, into);
    int align = static_cast<int>(style.align);
    attributes.choice("align", align, {"left", "justified", "centre", "right"});
    style.align = static_cast<TextStyle::Align>(align);
    attributes.length("before", style.before);
    attributes.length("after", style.after);
    attributes.length("measure", style.measure);
    attributes.flag("hyphenate", style.hyphenate);
    attributes.flag("tabular", style.tabular);
    if (style.size < points(3) || style.size > points(144) || style.leading < style.size / 2) {
      source.fault(source.place_of(child.name(), 5),
                   fmt::format("style “{}” with a size or leading out of reason", name),
                   "a size from 3pt to 144pt and a leading of at least half of it",
                   "correct size and leading");
      style.size = points(9.75);
      style.leading = points(14);
    }
    into.styles[name] = style;
  }
}

void read_sections(TemplateSource& source, pugi::xml_node element, Template& into) {
  for (const pugi::xml_node child : element.children("section")) {
    Attributes attributes(source, child);
    SectionRule rule;
    attributes.text("name", rule.name);
    int start = 0;
    attributes.choice("start", start, {"page", "follow", "fit"});
    rule.start = static_cast<SectionRule::Start>(start);
    attributes.number("columns", rule.columns, 1, 4);
    attributes.flag("foot", rule.foot);
    attributes.flag("numbered", rule.numbered);
    if (attributes.has("ground")) {
      Tint ground;
      attributes.tint("ground", ground, into);
      rule.ground = ground;
    } else {
      attributes.take("ground");
    }
    into.sections.push_back(std::move(rule));
  }
}

void read_paper(TemplateSource& source, pugi::xml_node element, Template& into) {
  Attributes attributes(source, element);
  const pugi::xml_attribute size = attributes.take("size");
  if (size) {
    into.paper = size.value();
    if (into.paper != "project" && !find_size(sheet_sizes(), into.paper) &&
        !parse_size(into.paper, Unit::Millimetre).ok()) {
      attributes.fault(size, "project, a sheet's name (letter, a4), or a size such as 148 x 210 mm",
                       "write one of these");
      into.paper = "project";
    }
  }
  int turned = 0;
  attributes.choice("orientation", turned, {"portrait", "landscape"});
  into.landscape = turned == 1;
  attributes.length("bleed", into.bleed);
  attributes.flag("crop-marks", into.crop_marks);
}

void read_element(TemplateSource& source, pugi::xml_node element, Template& into) {
  const std::string_view name = element.name();
  if (name == "paper") return read_paper(source, element, into);
  if (name == "colours") return read_colours(source, element, into);
  if (name == "styles") return read_styles(source, element, into);
  if (name == "sections") return read_sections(source, element, into);
  Attributes attributes(source, element);
  if (name == "margins") {
    attributes.length("top", into.top);
    attributes.length("bottom", into.bottom);
    attributes.length("inner", into.inner);
    attributes.length("outer", into.outer);
    attributes.flag("mirrored", into.mirrored);
  } else if (name == "grid") {
    attributes.length("step", into.grid);
    attributes.length("gutter", into.gutter);
    attributes.number("columns", into.columns, 1, 4);
    attributes.length("hairline", into.hairline);
  } else if (name == "tables") {
    attributes.length("cell-gap", into.cell_gap);
    attributes.length("row-padding", into.row_padding);
  } else if (name == "steps") {
    attributes.flag("rows", into.steps.rows);
    attributes.flag("columns", into.steps.columns);
    attributes.length("smallest-figure", into.steps.smallest_figure);
    attributes.length("largest-figure", into.steps.largest_figure);
    attributes.share("figure-share", into.steps.figure_share);
  } else if (name == "openings") {
    attributes.share("picture-height", into.openings.picture_height);
    attributes.flag("others-below", into.openings.others_below);
  } else if (name == "foot") {
    attributes.text("left", into.foot.left);
    attributes.text("centre", into.foot.centre);
    attributes.text("right", into.foot.right);
    attributes.flag("rule", into.foot.rule);
    attributes.length("distance", into.foot.distance);
  } else if (name == "words") {
    attributes.text("draft", into.words.draft);
    attributes.text("scale-bar", into.words.scale_bar);
    attributes.text("drawn-at", into.words.drawn_at);
    attributes.text("true-size", into.words.true_size);
    attributes.text("tile", into.words.tile);
  } else {
    for (const pugi::xml_attribute attribute : element.attributes())
      attributes.take(attribute.name());
    source.fault(source.place_of(element.name(), name.size()),
                 fmt::format("unknown element <{}>", name),
                 "paper, margins, grid, colours, styles, tables, steps, foot, words or sections",
                 "correct its name or take it away");
  }
}

} // namespace

TemplateReading read_template(std::string_view xml, std::string file_name, int file) {
  TemplateReading reading;
  Template& into = reading.page_template;
  into.file = file_name;
  TemplateSource source(xml, std::move(file_name), file);
  pugi::xml_document document;
  if (source.parse(document)) {
    const pugi::xml_node root = document.document_element();
    if (std::string_view(root.name()) != "template" ||
        std::string_view(root.attribute("xmlns").value()) != name_space ||
        std::string_view(root.attribute("version").value()) != "1") {
      source.fault(source.place_of(root.name(), std::string_view(root.name()).size()),
                   fmt::format("<{}> as the outermost element", root.name()),
                   fmt::format("<template xmlns=\"{}\" version=\"1\">", name_space),
                   "begin a copy of one of the templates that come with the program");
    }
    {
      Attributes attributes(source, root);
      attributes.take("version");
      attributes.text("name", into.name);
      attributes.text("language", into.language);
    }
    for (const pugi::xml_node child : root.children())
      if (child.type() == pugi::node_element) read_element(source, child, into);
    if (into.grid < points(1)) {
      source.fault({file, 0, 0, 0}, "a grid step below 1pt", "1pt or more", "write step=\"7pt\"");
      into.grid = points(7);
    }
    if (into.styles.find("body") == into.styles.end())
      source.fault({file, 0, 0, 0}, "no style named “body”",
                   "the style that all others fall back to",
                   "add <style name=\"body\" …/> under <styles>");
    if (into.sections.empty())
      source.fault({file, 0, 0, 0}, "no sections", "the sections that the document takes, in order",
                   "add <section name=\"…\"/> under <sections>");
  }
  reading.findings = std::move(source.findings);
  return reading;
}

} // namespace leafwright::page
