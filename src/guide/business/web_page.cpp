#include "guide/business/business.h"

#include "guide/prose/prose.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <string_view>

namespace leafwright::guide {
namespace {

std::string hex(Colour colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

class Page {
 public:
  Page(const Project& project, const Draw& draw) : project_(project), draw_(draw) {}

  void add(const Block& block) {
    std::visit([this](const auto& what) { put(what); }, block.what);
  }
  std::string take() { return std::move(out_); }

 private:
  std::string inlines(const Inlines& list) const {
    std::string out;
    for (const Inline& one : list)
      out += std::visit([this](const auto& what) { return inline_of(what); }, one);
    return out;
  }
  std::string inline_of(const Words& words) const {
    const std::string text = text::xml_text(words.text);
    switch (words.style) {
    case Words::Style::Plain: return text;
    case Words::Style::Strong: return "<strong>" + text + "</strong>";
    case Words::Style::Emphasis: return "<em>" + text + "</em>";
    case Words::Style::Quiet: return "<span class=\"quiet\">" + text + "</span>";
    }
    return text;
  }
  std::string inline_of(const PieceLetter& letter) const {
    return "(" + text::xml_text(letter.letter) + ")";
  }
  std::string inline_of(const InkChip& chip) const {
    if (chip.ink < 0 || static_cast<std::size_t>(chip.ink) >= project_.inks.size()) return {};
    return fmt::format("<span class=\"ink\" style=\"background:{}\" aria-hidden=\"true\"></span> ",
                       hex(project_.inks[static_cast<std::size_t>(chip.ink)].colour));
  }
  std::string inline_of(const PageOf&) const { return {}; }
  std::string inline_of(const Go& go) const {
    const bool out = go.target.starts_with("https://") || go.target.starts_with("http://") ||
                     go.target.starts_with("mailto:");
    return fmt::format("<a href=\"{}{}\">{}</a>", out ? "" : "#", text::xml_text(go.target),
                       text::xml_text(go.text));
  }
  std::string inline_of(const TickBox&) const { return "☐"; }

  void put(const Heading& heading) {
    const int level = heading.level < 1 ? 1 : heading.level > 6 ? 6 : heading.level;
    out_ += fmt::format("<h{}", level);
    if (!heading.anchor.empty()) out_ += fmt::format(" id=\"{}\"", text::xml_text(heading.anchor));
    out_ += ">" + text::xml_text(heading.text);
    if (!heading.aside.empty())
      out_ += " <span class=\"aside\">" + text::xml_text(heading.aside) + "</span>";
    out_ += fmt::format("</h{}>\n", level);
  }
  void put(const Paragraph& paragraph) {
    const char* kind = paragraph.kind == Paragraph::Kind::Lead    ? " class=\"lead\""
                       : paragraph.kind == Paragraph::Kind::Small ? " class=\"small\""
                                                                  : "";
    out_ += fmt::format("<p{}>{}</p>\n", kind, inlines(paragraph.text));
  }
  void put(const List& list) {
    const char* tag = list.numbered ? "ol" : "ul";
    out_ += fmt::format("<{}>\n", tag);
    for (const Inlines& item : list.items) out_ += "<li>" + inlines(item) + "</li>\n";
    out_ += fmt::format("</{}>\n", tag);
  }

  static std::string_view align(Column::Align align) {
    switch (align) {
    case Column::Align::Right:
    case Column::Align::Decimal: return " class=\"figures\"";
    case Column::Align::Centre: return " class=\"middle\"";
    case Column::Align::Left: break;
    }
    return {};
  }

  void put(const Table& table) {
    out_ += "<div class=\"scroll\" role=\"region\" tabindex=\"0\" aria-label=\"" +
            text::xml_text(table.caption) + "\">\n<table>\n<caption>" +
            text::xml_text(table.caption) + "</caption>\n<thead><tr>";
    for (const Column& column : table.columns)
      out_ += fmt::format("<th scope=\"col\"{}>{}</th>", align(column.align), inlines(column.head));
    out_ += "</tr></thead>\n<tbody>\n";
    for (const Row& row : table.rows) put_row(table, row);
    out_ += "</tbody>\n</table>\n</div>\n";
  }

  void put_row(const Table& table, const Row& row) {
    if (row.kind == Row::Kind::Group) {
      out_ += fmt::format("</tbody>\n<tbody>\n<tr><th scope=\"rowgroup\" colspan=\"{}\" "
                          "class=\"group\">{}</th></tr>\n",
                          table.columns.size(),
                          row.cells.empty() ? std::string() : inlines(row.cells.front()));
      return;
    }
    out_ += row.kind == Row::Kind::Total ? "<tr class=\"total\">" : "<tr>";
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const std::string words = i < row.cells.size() ? inlines(row.cells[i]) : std::string();
      const bool head = table.columns[i].is_row_head;
      out_ += fmt::format("<{0}{1}{2}>{3}</{0}>", head ? "th" : "td", head ? " scope=\"row\"" : "",
                          align(table.columns[i].align), words);
    }
    out_ += "</tr>\n";
  }

  void put(const Figure& figure) {
    out_ += "<figure>";
    if (draw_)
      out_ += "<div role=\"img\" aria-label=\"" + text::xml_text(figure.scene.alternative) + "\">" +
              draw_(figure.scene) + "</div>";
    else
      out_ += "<p>" + text::xml_text(figure.scene.alternative) + "</p>";
    if (!figure.caption.empty()) out_ += "<figcaption>" + inlines(figure.caption) + "</figcaption>";
    out_ += "</figure>\n";
  }
  void put(const FigureRow& row) {
    out_ += "<div class=\"figures-row\">\n";
    for (const Figure& figure : row.figures) put(figure);
    out_ += "</div>\n";
  }
  void put(const Beside& beside) {
    put(beside.figure);
    for (const Block& block : beside.blocks) add(block);
  }
  void put(const Notice& notice) {
    out_ += "<aside class=\"notice\"><p><strong>" + text::xml_text(notice.title) + "</strong> " +
            inlines(notice.text) + "</p></aside>\n";
  }
  void put(const Steps& steps) {
    out_ += "<ol>\n";
    for (const Step& step : steps.steps) {
      out_ += "<li><strong>" + text::xml_text(step.title) + "</strong>";
      for (const Inlines& text : step.text) out_ += "<p>" + inlines(text) + "</p>";
      if (step.figure) put(*step.figure);
      out_ += "</li>\n";
    }
    out_ += "</ol>\n";
  }
  void put(const FullSize& full) { put(Figure{full.scene, plain(full.title), {}}); }
  void put(const Cover& cover) {
    out_ += "<h1>" + text::xml_text(cover.title) + "</h1>\n<p>" + text::xml_text(cover.subtitle) +
            "</p>\n";
  }
  void put(const Ticks& ticks) { put(List{false, ticks.items}); }
  void put(const Slips& slips) {
    for (const Slip& slip : slips.slips)
      for (const Block& block : slip.blocks) add(block);
  }
  // What belongs to paper alone.
  void put(const Contents&) {}
  void put(const ScaleBar&) {}
  void put(const NoteLines&) {}
  void put(const PageBreak&) {}
  void put(const Labels&) {}

  const Project& project_;
  const Draw& draw_;
  std::string out_;
};

// Narrow screens let the table slide; print leaves the paper white. Nothing is loaded from
// elsewhere.
constexpr std::string_view style =
    R"(body{{font:1rem/1.5 Georgia,"Times New Roman",serif;color:#262421;background:#fff;max-width:60rem;margin:2rem auto;padding:0 1.2rem}}
h1,h2{{font-weight:normal;line-height:1.2}}h1{{font-size:2.2rem;margin-bottom:.3rem}}h2{{color:{0};margin-top:2rem}}h3{{margin:1.2rem 0 .2rem}}
.aside{{font-size:1rem;font-weight:normal;color:#5d5751;margin-left:.6rem}}.lead{{font-size:1.15rem;max-width:42rem}}p,li{{max-width:42rem}}
.small,figcaption,.quiet{{color:#5d5751}}.small,figcaption{{font-size:.9rem}}
.figures-row{{display:flex;flex-wrap:wrap;gap:1.4rem}}figure{{margin:0;flex:1 1 9rem;max-width:15rem}}figure svg{{width:100%;height:auto}}
.scroll{{overflow-x:auto}}table{{border-collapse:collapse;font-size:.95rem;width:100%}}caption{{text-align:left;color:#5d5751;padding:.3rem 0}}
th,td{{text-align:left;vertical-align:top;padding:.35rem .8rem .35rem 0;border-bottom:1px solid #c9c3b4}}thead th{{color:{0};border-bottom-color:#262421}}
tbody th{{font-weight:normal}}th.group{{font-style:italic;color:{0};padding-top:1rem}}.figures{{text-align:right}}.middle{{text-align:center}}.total{{font-weight:bold}}
.ink{{display:inline-block;width:.7em;height:.7em;border:1px solid #262421}}.notice{{border-left:3px solid {0};padding-left:1rem}}
a{{color:{0}}}a:focus,.scroll:focus{{outline:2px solid {0};outline-offset:2px}})";

} // namespace

std::string web_page(const Document& document, const Project& project, const Draw& draw) {
  Page page(project, draw);
  for (const Section& section : document.sections)
    for (const Block& block : section.blocks) page.add(block);
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
      "name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{}</title>\n",
      text::xml_text(document.language), text::xml_text(document.title));
  if (!document.subject.empty())
    out += "<meta name=\"description\" content=\"" + text::xml_text(document.subject) + "\">\n";
  out += "<style>\n" + fmt::format(style, hex(project.accent)) + "\n</style>\n</head>\n<body>\n";
  if (document.draft) out += "<p><strong>DRAFT: not for sale</strong></p>\n";
  out += "<main>\n" + page.take() + "</main>\n<footer><p class=\"small\">" +
         text::xml_text(document.author.empty() ? document.edition
                                                : document.author + " · " + document.edition) +
         "</p></footer>\n</body>\n</html>\n";
  return out;
}

} // namespace leafwright::guide
