#include "output/html/html.h"

#include "measure/amounts/amounts.h"
#include "output/html/internal/faces.h"
#include "output/html/internal/html_writer.h"
#include "output/pictures.h"
#include "page/flow.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace leafwright::html {
namespace {

using text::xml_text;

void note_anchors(std::span<const guide::Block> blocks, Anchors& anchors) {
  for (const guide::Block& block : blocks) {
    if (const auto* heading = std::get_if<guide::Heading>(&block.what)) {
      if (!heading->anchor.empty()) anchors.try_emplace(heading->anchor, heading->text);
    } else if (const auto* steps = std::get_if<guide::Steps>(&block.what)) {
      for (const guide::Step& step : steps->steps)
        if (!step.anchor.empty()) anchors.try_emplace(step.anchor, step.title);
    } else if (const auto* drawing = std::get_if<guide::FullSize>(&block.what)) {
      if (!drawing->anchor.empty()) anchors.try_emplace(drawing->anchor, drawing->title);
    } else if (const auto* beside = std::get_if<guide::Beside>(&block.what)) {
      note_anchors(beside->blocks, anchors);
    }
  }
}

template <class What>
const What* first_of(const guide::Document& document) {
  for (const guide::Section& section : document.sections)
    for (const guide::Block& block : section.blocks)
      if (const auto* what = std::get_if<What>(&block.what)) return what;
  return nullptr;
}

template <class What>
bool holds(const guide::Section& section) {
  for (const guide::Block& block : section.blocks)
    if (std::holds_alternative<What>(block.what)) return true;
  return false;
}

// The colours of the template for the style sheet. What is only looked at keeps its colour; what is
// read is dark enough on the darkest ground that it stands on.
std::string colour_rules(const page::Template& look, Colour accent, bool grey) {
  const auto said = [grey](Colour colour) {
    return svg::colour(grey ? page::grey_of(colour) : colour);
  };
  const Colour ground = mixed(look.colour("ground"), accent);
  std::string rules = ":root{";
  for (const char* name : {"ground", "rule", "strong-rule"})
    rules += fmt::format("--{}:{};", name, said(mixed(look.colour(name), accent)));
  for (const char* name : {"ink", "quiet", "caution", "link"})
    rules +=
        fmt::format("--{}:{};", name, said(darkened_on(mixed(look.colour(name), accent), ground)));
  rules += fmt::format("--accent:{};--accent-text:{}}}\n", said(accent),
                       said(darkened_on(accent, ground)));
  if (grey) rules += "svg image{filter:grayscale(1)}\n";
  return rules;
}

std::string metadata(const guide::Document& document, const HtmlOptions& options) {
  std::string out;
  const auto add = [&out](const char* name, const std::string& content) {
    if (!content.empty())
      out += fmt::format("<meta name=\"{}\" content=\"{}\"/>\n", name, xml_text(content));
  };
  std::string keywords;
  for (const std::string& word : document.keywords)
    keywords += (keywords.empty() ? "" : ", ") + word;
  add("description", document.subject);
  add("author", document.author);
  add("keywords", keywords);
  if (document.created) {
    const std::chrono::sys_seconds moment{std::chrono::seconds(*document.created)};
    add("dcterms.created", iso_text(Date{std::chrono::floor<std::chrono::days>(moment)}));
  }
  add("generator", options.generator);
  return out;
}

// A sheet without a cover begins with its own name: the heading that it begins with, if there is no
// other as large.
const guide::Heading* title_of(const guide::Document& document) {
  if (first_of<guide::Cover>(document) != nullptr) return nullptr;
  const guide::Heading* title = nullptr;
  bool first = true;
  for (const guide::Section& section : document.sections)
    for (const guide::Block& block : section.blocks) {
      const auto* heading = std::get_if<guide::Heading>(&block.what);
      if (heading != nullptr && heading->level == 1) {
        if (!first) return nullptr;
        title = heading;
      }
      first = false;
    }
  return title;
}

std::string head_of_page(const guide::Document& document, const guide::Heading* title,
                         const page::Template& look, Writer& writer) {
  const auto* cover = first_of<guide::Cover>(document);
  std::string out = "<header class=\"cover\">\n";
  if (document.draft)
    out += fmt::format("<p class=\"draft-mark\">{}</p>\n", text_markup(look.words.draft));
  const auto add = [&out](const char* name, const std::string& words) {
    if (!words.empty()) out += fmt::format("<p class=\"{}\">{}</p>\n", name, text_markup(words));
  };
  if (cover) add("maker", cover->maker);
  out += fmt::format("<h1{}>{}</h1>\n", writer.id(title ? title->anchor : ""),
                     text_markup(cover   ? cover->title
                                 : title ? title->text
                                         : document.title));
  if (title) add("aside", title->aside);
  if (cover) {
    add("subtitle", cover->subtitle);
    out += writer.cards(*cover);
    std::string facts = cover->left;
    if (!facts.empty() && !cover->right.empty()) facts += " · ";
    add("facts", facts + cover->right);
  }
  return out + "</header>\n";
}

std::string contents(const guide::Document& document, const guide::Heading* title) {
  std::string items;
  for (const guide::Section& section : document.sections) {
    if (holds<guide::Contents>(section)) continue;
    for (const guide::Block& block : section.blocks) {
      const auto* heading = std::get_if<guide::Heading>(&block.what);
      if (heading == nullptr || heading == title || heading->level != 1 || heading->anchor.empty())
        continue;
      const std::string number =
          heading->number.empty()
              ? std::string()
              : fmt::format("<span class=\"number\">{}</span> ", text_markup(heading->number));
      items += fmt::format("<li><a href=\"#{}\">{}{}</a></li>\n", xml_text(heading->anchor), number,
                           text_markup(heading->text));
    }
  }
  if (items.empty()) return {};
  return fmt::format("<nav aria-labelledby=\"contents\">\n<h2 id=\"contents\">Contents</h2>\n"
                     "<ol role=\"list\">\n{}</ol>\n</nav>\n",
                     items);
}

} // namespace

Parsed<Html> write_html(const guide::Document& document, const Project& project,
                        const page::Template& look, const text::Fonts& fonts,
                        const HtmlOptions& options) {
  for (const char* end : {"</", "<!", "]]>"})
    if (const auto at = options.style_sheet.find(end); at != std::string::npos)
      return ParseError{at, at + 2, fmt::format("a style sheet with “{}” in it", end),
                        "CSS that can stand inside a page", "take it out"};

  const page::LayoutInput input = page::layout_input(project);
  Anchors anchors;
  for (const guide::Section& section : document.sections) note_anchors(section.blocks, anchors);
  anchors.try_emplace("contents", "Contents");
  Figures figures(document, look, input, fonts, project.pictures, options.grey);
  const InlineWriter inlines(input, look, anchors, options.grey);
  const guide::Heading* title = title_of(document);
  Writer writer(project, figures, inlines, title);

  std::string body = "<a class=\"skip\" href=\"#content\">Skip to the content</a>\n";
  body += head_of_page(document, title, look, writer);
  const std::string nav = contents(document, title);
  body += fmt::format("<div class=\"{}\">\n{}<main id=\"content\">\n",
                      nav.empty() ? "column" : "columns", nav);
  for (const guide::Section& section : document.sections) {
    if (holds<guide::Contents>(section) || holds<guide::Cover>(section)) continue;
    body += fmt::format("<section class=\"{}\">\n{}</section>\n",
                        section.name.starts_with("card-") ? "card" : xml_text(section.name),
                        writer.blocks(section.blocks));
  }
  body += "</main>\n</div>\n";
  std::string foot = document.title;
  for (const std::string& part : {document.author, document.edition})
    if (!part.empty()) foot += " · " + part;
  body += fmt::format("<footer><p>{}</p></footer>\n", text_markup(foot));
  if (figures.failed()) return *figures.failed();

  const std::string rules =
      font_faces(fonts, characters_of(body)) + colour_rules(look, input.accent, options.grey);
  Html html;
  html.findings = figures.take_findings();
  html.bytes = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{0}\" xml:lang=\"{0}\" "
      "xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
      "<title>{1}</title>\n{2}<style>\n/*<![CDATA[*/\n{3}{4}\n/*]]>*/\n</style>\n</head>\n<body>\n"
      "<svg class=\"shared\" width=\"0\" height=\"0\" aria-hidden=\"true\"><defs>\n{5}</defs>"
      "</svg>\n{6}</body>\n</html>\n",
      xml_text(document.language.empty() ? "en" : document.language), xml_text(document.title),
      metadata(document, options), rules, options.style_sheet, figures.definitions(), body);
  return html;
}

namespace {

double linear(std::uint8_t channel) {
  const double share = channel / 255.0;
  return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}

double luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

} // namespace

double contrast_ratio(Colour a, Colour b) {
  const double in_a = luminance(a), in_b = luminance(b);
  return (std::max(in_a, in_b) + 0.05) / (std::min(in_a, in_b) + 0.05);
}

Colour darkened_on(Colour colour, Colour ground) {
  const auto at = [colour](int percent) {
    const auto part = [percent](std::uint8_t channel) {
      return static_cast<std::uint8_t>(channel * percent / 100);
    };
    return Colour{part(colour.red), part(colour.green), part(colour.blue)};
  };
  for (int percent = 100; percent > 0; --percent)
    if (contrast_ratio(at(percent), ground) >= readable) return at(percent);
  return {};
}

} // namespace leafwright::html
