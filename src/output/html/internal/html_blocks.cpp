#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "output/html/internal/html_writer.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::html {
namespace {

// What a browser has of a sheet of letter or A4 with the margins of the style sheet (13 mm), less
// the words above a drawing.
constexpr Size printed_room{millimetres(184), millimetres(238)};
constexpr Size step_room{millimetres(64), millimetres(72)};
constexpr Size cover_room{millimetres(48), millimetres(60)};

std::string_view kind_name(guide::Notice::Kind kind) {
  using enum guide::Notice::Kind;
  switch (kind) {
  case Caution: return "caution";
  case Tip: return "tip";
  case Alternative: return "alternative";
  case Draft: return "draft";
  case Warning: return "warning";
  }
  return "tip";
}

// A drawing must never be without words: where its scene has none, its caption serves.
figure::Scene told(const figure::Scene& scene, std::string words) {
  figure::Scene copy = scene;
  copy.alternative = words.empty() ? std::string("Drawing") : std::move(words);
  return copy;
}

} // namespace

std::string Writer::id(const std::string& anchor) {
  if (anchor.empty() || !ids_.insert(anchor).second) return {};
  return fmt::format(" id=\"{}\"", text::xml_text(anchor));
}

std::string Writer::blocks(std::span<const guide::Block> blocks) {
  std::string before = std::move(out_);
  out_.clear();
  for (const guide::Block& block : blocks) {
    if (block.place.line > 0) figures_.place = block.place;
    if (block.changed) out_ += fmt::format("<div class=\"changed\">{}\n", changed_words);
    std::visit([this](const auto& what) { write(what); }, block.what);
    if (block.changed) out_ += "</div>\n";
  }
  std::swap(before, out_);
  return before;
}

void Writer::write(const guide::Heading& heading) {
  // Never more than one level deeper than the heading before, as readers of headings expect.
  if (&heading == title_) return;
  const int deeper = title_ == nullptr ? 1 : 0;
  const int level = std::clamp(heading.level + deeper, 2, std::min(level_ + 1, 6));
  level_ = level;
  std::string words = text_markup(heading.text);
  if (!heading.number.empty())
    words = fmt::format("<span class=\"number\">{}</span> {}", text_markup(heading.number), words);
  const std::string title = fmt::format("<h{0}{1}>{2}</h{0}>\n", level, id(heading.anchor), words);
  out_ += heading.aside.empty()
              ? title
              : fmt::format("<div class=\"titled\">{}<p class=\"aside\">{}</p></div>\n", title,
                            text_markup(heading.aside));
}

void Writer::write(const guide::Paragraph& paragraph) {
  using enum guide::Paragraph::Kind;
  const char* kind = paragraph.kind == Lead    ? " class=\"lead\""
                     : paragraph.kind == Small ? " class=\"small\""
                                               : "";
  out_ += fmt::format("<p{}>{}</p>\n", kind, inlines_.markup(paragraph.text));
}

void Writer::write(const guide::List& list) {
  const char* tag = list.numbered ? "ol" : "ul";
  if (list.items.empty()) return;
  out_ += fmt::format("<{}>\n", tag);
  for (const guide::Inlines& item : list.items)
    out_ += fmt::format("<li>{}</li>\n", inlines_.markup(item));
  out_ += fmt::format("</{}>\n", tag);
}

void Writer::add(const guide::Figure& figure, Size room, double scale, std::string_view kind) {
  out_ += fmt::format("<figure{}>", kind.empty() ? "" : fmt::format(" class=\"{}\"", kind));
  out_ += figure.scene.alternative.empty()
              ? figures_.svg(told(figure.scene, guide::spoken(figure.caption)), room, scale)
              : figures_.svg(figure.scene, room, scale);
  if (!figure.caption.empty())
    out_ += fmt::format("<figcaption>{}</figcaption>", inlines_.markup(figure.caption));
  out_ += "</figure>\n";
}

void Writer::write(const guide::Figure& figure) { add(figure, Figures::room_of(figure), 0, ""); }

void Writer::write(const guide::FigureRow& row) {
  if (row.figures.empty()) return;
  out_ += fmt::format("<div class=\"{}\">\n", row.leads ? "row leads" : "row");
  if (row.leads) {
    // The first is what a chapter is about; the others stand smaller beside it.
    add(row.figures.front(), {millimetres(66), millimetres(84)}, 0, "ground");
    double scale = 1.0;
    const Size small{millimetres(44), millimetres(50)};
    for (const guide::Figure& figure : std::span(row.figures).subspan(1))
      scale = std::min(scale, figures_.fitting(figure.scene, small));
    if (row.figures.size() > 1) {
      out_ += "<div class=\"others\">\n";
      for (const guide::Figure& figure : std::span(row.figures).subspan(1))
        add(figure, small, scale, "");
      out_ += "</div>\n";
    }
  } else {
    double scale = 1.0;
    for (const guide::Figure& figure : row.figures)
      scale = std::min(scale, figures_.fitting(figure.scene, Figures::room_of(figure)));
    for (const guide::Figure& figure : row.figures)
      add(figure, Figures::room_of(figure), scale, "");
  }
  out_ += "</div>\n";
}

void Writer::write(const guide::Beside& beside) {
  out_ += "<div class=\"beside\">\n";
  add(beside.figure, Figures::room_of(beside.figure), 0, "");
  const std::string words = blocks(beside.blocks);
  out_ += fmt::format("<div>\n{}</div>\n</div>\n", words);
}

void Writer::write(const guide::Notice& notice) {
  std::string words = inlines_.markup(notice.text);
  if (!notice.title.empty())
    words = fmt::format("<strong>{}</strong> {}", text_markup(notice.title), words);
  out_ += fmt::format("<div class=\"notice {}\" role=\"note\"><p>{}</p></div>\n",
                      kind_name(notice.kind), words);
}

void Writer::add(const guide::Step& step, double scale) {
  out_ += fmt::format("<li{} class=\"step{}\">\n", id(step.anchor), step.changed ? " changed" : "");
  const int level = std::min(level_ + 1, 6);
  if (!step.title.empty() || !step.number.empty()) {
    std::string words = step.changed ? changed_words : "";
    if (!step.number.empty())
      words += fmt::format("<span class=\"number\">{}</span> ", text_markup(step.number));
    out_ += fmt::format("<h{0}>{1}{2}</h{0}>\n", level, words, text_markup(step.title));
  }
  if (step.figure) add(*step.figure, step_room, scale, "ground");
  out_ += "<div class=\"words\">\n";
  if (!step.parts.empty())
    out_ += fmt::format("<p class=\"parts\">{}</p>\n", inlines_.markup(step.parts));
  for (const guide::Inlines& text : step.text)
    out_ += fmt::format("<p>{}</p>\n", inlines_.markup(text));
  for (const guide::Notice& notice : step.notices) write(notice);
  if (step.picture) {
    const std::string& words = step.picture_words.empty() ? step.title : step.picture_words;
    const std::string photograph = figures_.photograph(*step.picture, words);
    if (!photograph.empty()) out_ += fmt::format("<figure>{}</figure>\n", photograph);
  }
  out_ += "</div>\n</li>\n";
}

void Writer::write(const guide::Steps& steps) {
  if (steps.steps.empty()) return;
  // One scale for the card from outside, one for the open card, one for the flat base.
  std::map<std::string_view, double> groups;
  for (const guide::Step& step : steps.steps) {
    if (!step.figure) continue;
    const double fits = figures_.fitting(step.figure->scene, step_room);
    const auto [group, fresh] = groups.emplace(step.figure->scene.scale_group, fits);
    if (!fresh) group->second = std::min(group->second, fits);
  }
  out_ += "<ol class=\"steps\" role=\"list\">\n";
  for (const guide::Step& step : steps.steps)
    add(step, step.figure ? groups[step.figure->scene.scale_group] : 0.0);
  out_ += "</ol>\n";
}

void Writer::write(const guide::ScaleBar&) {
  out_ += fmt::format("<figure class=\"true\">{}<figcaption>{}</figcaption></figure>\n",
                      figures_.true_size(figure::scale_bar(project_), printed_room),
                      "On a screen this bar is about right; on paper it is exact when the page is "
                      "printed at 100\u00A0%.");
}

void Writer::write(const guide::FullSize& what) {
  std::string words = fmt::format("<strong>{}</strong>", text_markup(what.title));
  if (!what.note.empty()) words += " " + inlines_.markup(what.note);
  const std::string drawing = figures_.true_size(what.scene, printed_room);
  out_ += drawing.empty()
              ? fmt::format("<p{}>{} This one is larger than a sheet of paper: the PDF has it on "
                            "several, to be joined.</p>\n",
                            id(what.anchor), words)
              : fmt::format("<figure{} class=\"true\"><figcaption>{}</figcaption>{}</figure>\n",
                            id(what.anchor), words, drawing);
}

void Writer::write(const guide::NoteLines& lines) {
  out_ +=
      fmt::format("<div class=\"note-lines\"><p><strong>{}</strong></p>", text_markup(lines.title));
  for (int i = 0; i < lines.lines; ++i) out_ += "<div></div>";
  out_ += "</div>\n";
}

void Writer::write(const guide::SideBySide& abreast) {
  std::string texts;
  for (const guide::SideBySide::Text& text : abreast.texts)
    texts += "<div>\n" + blocks(text.blocks) + "</div>\n";
  out_ += fmt::format("<div class=\"{}\">\n{}</div>\n",
                      abreast.framed ? "abreast framed" : "abreast", texts);
}

void Writer::write(const guide::Ticks& ticks) {
  if (!ticks.name.empty()) out_ += "<p class=\"ticks-name\">" + text_markup(ticks.name) + "</p>\n";
  out_ += "<ul class=\"ticks\" role=\"list\">\n";
  for (const guide::Inlines& item : ticks.items)
    out_ += fmt::format("<li><span class=\"tick\" role=\"img\" aria-label=\"to tick\"></span> "
                        "{}</li>\n",
                        inlines_.markup(item));
  out_ += "</ul>\n";
}

void Writer::write(const guide::Slips& slips) {
  for (const guide::Slip& slip : slips.slips) {
    const std::string inner = blocks(slip.blocks);
    out_ += fmt::format("<div class=\"slip\">\n{}</div>\n", inner);
  }
}

void Writer::write(const guide::Labels& labels) {
  out_ += "<ul class=\"labels\" role=\"list\">\n";
  for (const guide::Labels::Label& label : labels.labels) {
    out_ += "<li>";
    for (std::size_t i = 0; i < label.lines.size(); ++i)
      out_ += i == 0 ? "<strong>" + text_markup(label.lines[i]) + "</strong>"
                     : "<br/>" + text_markup(label.lines[i]);
    out_ += "</li>\n";
  }
  out_ += "</ul>\n";
}

std::string Writer::cards(const guide::Cover& cover) {
  if (cover.cards.empty()) return {};
  double scale = 1.0;
  for (const figure::Scene& scene : cover.cards)
    scale = std::min(scale, figures_.fitting(scene, cover_room));
  std::string out = "<div class=\"cards\">\n";
  for (const figure::Scene& scene : cover.cards)
    out += figures_.svg(scene, cover_room, scale) + "\n";
  return out + "</div>\n";
}

} // namespace leafwright::html
