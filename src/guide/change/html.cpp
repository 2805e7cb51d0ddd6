#include "guide/change/report.h"

#include "guide/prose/prose.h"
#include "text/xml_text.h"

#include <algorithm>
#include <type_traits>

namespace leafwright::guide {
namespace {

// Print and screen alike; nothing is fetched from anywhere.
constexpr const char* style = R"(
body { font: 16px/1.5 Georgia, serif; color: #262421; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
h1 { font-weight: normal; border-bottom: 1px solid #c9c3b4; }
h1 small, h2 small { color: #6c665f; font-size: 60%; }
h2 { font-weight: normal; margin-top: 2rem; }
table { border-collapse: collapse; margin: 1rem 0; }
caption { text-align: left; color: #6c665f; }
th, td { text-align: left; vertical-align: top; padding: .25rem .9rem .25rem 0; border-bottom: 1px solid #c9c3b4; }
thead th { border-bottom: 2px solid #262421; }
td.right, th.right { text-align: right; font-variant-numeric: tabular-nums; }
tr.group th { font-size: 115%; padding-top: 1rem; }
tr.total td, tr.total th { border-top: 2px solid #262421; font-weight: bold; }
.lead { font-size: 118%; }
.small { font-size: 85%; color: #6c665f; }
.notice { border-left: 4px solid #b0502f; padding-left: .8rem; }
.letter { display: inline-block; min-width: 1.5em; text-align: center; border: 1px solid; border-radius: 1em; }
.beside { display: flex; gap: 2rem; flex-wrap: wrap; align-items: flex-start; }
figure { margin: 0; } figure svg { max-width: 26rem; height: auto; }
)";

class HtmlWriter {
 public:
  explicit HtmlWriter(const std::function<std::string(const figure::Scene&)>& svg) : svg_(svg) {}

  std::string take() { return std::move(out_); }
  void block(const Block& one) {
    std::visit([this](const auto& what) { show(what); }, one.what);
  }

 private:
  static std::string safe(std::string_view words) { return text::xml_text(words); }

  void inlines(const Inlines& all) {
    for (const Inline& one : all) std::visit([this](const auto& what) { say(what); }, one);
  }
  void say(const Words& one) {
    const char* tag = one.style == Words::Style::Strong     ? "strong"
                      : one.style == Words::Style::Emphasis ? "em"
                      : one.style == Words::Style::Quiet    ? "small"
                                                            : nullptr;
    if (tag) out_ += std::string("<") + tag + ">";
    out_ += safe(one.text);
    if (tag) out_ += std::string("</") + tag + ">";
  }
  void say(const PieceLetter& one) {
    out_ += "<span class=\"letter\">" + safe(one.letter) + "</span>";
  }
  void say(const InkChip&) {}
  void say(const PageOf&) {}
  void say(const Go& one) { out_ += safe(one.text); }
  void say(const TickBox&) { out_ += "☐"; }

  void show(const Heading& one) {
    const std::string tag = "h" + std::to_string(std::clamp(one.level, 1, 6));
    out_ += "<" + tag + (one.anchor.empty() ? "" : " id=\"" + safe(one.anchor) + "\"") + ">" +
            safe(one.text);
    if (!one.aside.empty()) out_ += " <small>" + safe(one.aside) + "</small>";
    out_ += "</" + tag + ">\n";
  }
  void show(const Paragraph& one) {
    const char* name = one.kind == Paragraph::Kind::Lead    ? " class=\"lead\""
                       : one.kind == Paragraph::Kind::Small ? " class=\"small\""
                                                            : "";
    out_ += std::string("<p") + name + ">";
    inlines(one.text);
    out_ += "</p>\n";
  }
  void show(const List& one) {
    const std::string tag = one.numbered ? "ol" : "ul";
    out_ += "<" + tag + ">\n";
    for (const Inlines& item : one.items) {
      out_ += "<li>";
      inlines(item);
      out_ += "</li>\n";
    }
    out_ += "</" + tag + ">\n";
  }
  void cell(const Column& column, const Inlines& text, const char* tag, const char* scope) {
    out_ += std::string("<") + tag;
    if (column.align == Column::Align::Right) out_ += " class=\"right\"";
    if (*scope != '\0') out_ += std::string(" scope=\"") + scope + "\"";
    out_ += ">";
    inlines(text);
    out_ += std::string("</") + tag + ">";
  }
  void show(const Table& one) {
    out_ += "<table>\n<caption>" + safe(one.caption) + "</caption>\n<thead><tr>";
    for (const Column& column : one.columns) cell(column, column.head, "th", "col");
    out_ += "</tr></thead>\n<tbody>\n";
    static const Inlines nothing;
    for (const Row& row : one.rows) {
      if (row.kind == Row::Kind::Group) {
        out_ += "<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"" +
                std::to_string(one.columns.size()) + "\">";
        inlines(row.cells.empty() ? nothing : row.cells.front());
        out_ += "</th></tr>\n";
        continue;
      }
      out_ += row.kind == Row::Kind::Total ? "<tr class=\"total\">" : "<tr>";
      for (std::size_t c = 0; c < one.columns.size(); ++c) {
        const bool head = one.columns[c].is_row_head;
        cell(one.columns[c], c < row.cells.size() ? row.cells[c] : nothing, head ? "th" : "td",
             head ? "row" : "");
      }
      out_ += "</tr>\n";
    }
    out_ += "</tbody>\n</table>\n";
  }
  void show(const Figure& one) {
    out_ += "<figure>";
    out_ += svg_ ? svg_(one.scene) : "<p>" + safe(one.scene.alternative) + "</p>";
    out_ += "</figure>\n";
  }
  void show(const FigureRow& one) {
    for (const Figure& figure : one.figures) show(figure);
  }
  void show(const Beside& one) {
    out_ += "<div class=\"beside\">\n";
    show(one.figure);
    out_ += "<div>\n";
    for (const Block& each : one.blocks) block(each);
    out_ += "</div></div>\n";
  }
  void show(const Notice& one) {
    out_ += "<p class=\"notice\"><strong>" + safe(one.title) + "</strong> ";
    inlines(one.text);
    out_ += "</p>\n";
  }
  void show(const Steps& one) {
    for (const Step& step : one.steps) {
      out_ += "<h3>" + safe(step.number + ". " + step.title) + "</h3>\n";
      for (const Inlines& text : step.text) show(Paragraph{Paragraph::Kind::Body, text});
      if (step.figure) show(*step.figure);
    }
  }
  void show(const Contents&) {}
  void show(const Cover& one) { out_ += "<h1>" + safe(one.title) + "</h1>\n"; }
  void show(const ScaleBar&) {}
  void show(const FullSize& one) { out_ += "<p>" + safe(one.title) + "</p>\n"; }
  void show(const NoteLines& one) { out_ += "<p>" + safe(one.title) + "</p>\n"; }
  void show(const PageBreak&) {}
  void show(const Ticks& one) { show(List{false, one.items}); }
  void show(const Slips& one) {
    for (const Slip& slip : one.slips)
      for (const Block& each : slip.blocks) block(each);
  }
  void show(const Labels& one) {
    for (const Labels::Label& label : one.labels) {
      out_ += "<p>";
      for (const std::string& line : label.lines) out_ += safe(line) + "<br>";
      out_ += "</p>\n";
    }
  }

  const std::function<std::string(const figure::Scene&)>& svg_;
  std::string out_;
};

} // namespace

std::string html(const Document& document,
                 const std::function<std::string(const figure::Scene&)>& svg) {
  HtmlWriter writer(svg);
  for (const Section& section : document.sections)
    for (const Block& block : section.blocks) writer.block(block);
  return "<!DOCTYPE html>\n<html lang=\"" + text::xml_text(document.language) +
         "\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" "
         "content=\"width=device-width\">\n<title>" +
         text::xml_text(document.title) + "</title>\n<style>" + style +
         "</style>\n</head>\n<body>\n" + writer.take() + "</body>\n</html>\n";
}

} // namespace leafwright::guide
