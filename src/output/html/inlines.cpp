#include "output/html/inlines.h"

#include "measure/index.h"
#include "output/svg/svg.h"
#include "page/grey.h"
#include "page/marks.h"
#include "text/fractions.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <type_traits>

namespace leafwright::html {
namespace {

constexpr std::string_view no_break_space = "\u00A0";

// Only what opens a page or a letter: "javascript:" in a project must never become a link.
bool is_safe_address(std::string_view target) {
  return target.starts_with("https://") || target.starts_with("http://") ||
         target.starts_with("mailto:");
}
bool is_address(std::string_view target) {
  return target.find("://") != std::string_view::npos || target.starts_with("mailto:");
}

// There are no page numbers here: of "on page 12" the words before the number are cut off.
void cut_page_words(std::string& markup) {
  const std::string_view words = "on page\u00A0";
  if (!markup.ends_with(words)) return;
  markup.resize(markup.size() - words.size());
  markup += "under ";
}

} // namespace

std::string text_markup(std::string_view text) {
  std::string out;
  std::size_t done = 0;
  for (const text::ByteRange range : text::fractions_in(text)) {
    // The no-break space of a mixed number ("4 1/4") shall hardly be seen.
    std::size_t from = range.begin;
    const bool mixed = text.substr(0, range.begin).ends_with(no_break_space) &&
                       range.begin > done + no_break_space.size() &&
                       text[range.begin - no_break_space.size() - 1] >= '0' &&
                       text[range.begin - no_break_space.size() - 1] <= '9';
    if (mixed) from -= no_break_space.size();
    out += text::xml_text(text.substr(done, from - done));
    if (mixed) out += fmt::format("<span class=\"and\">{}</span>", no_break_space);
    out += fmt::format("<span class=\"part\">{}</span>",
                       text::xml_text(text.substr(range.begin, range.end - range.begin)));
    done = range.end;
  }
  return out + text::xml_text(text.substr(done));
}

std::string InlineWriter::link(std::string_view target, std::string words) const {
  if (is_address(target)) {
    if (!is_safe_address(target)) return words;
    return fmt::format("<a href=\"{}\">{}</a>", text::xml_text(target), words);
  }
  if (!anchors_.contains(target)) return words;
  return fmt::format("<a href=\"#{}\">{}</a>", text::xml_text(target), words);
}

std::string InlineWriter::chip(int ink) const {
  const auto index = as_index(std::max(ink, 0));
  if (ink < 0 || index >= input_.inks.size()) return {};
  const page::LayoutInput::InkLook& known = input_.inks[index];
  const Rect box{{micrometres(100), micrometres(100)}, {millimetres(4), millimetres(4)}};
  page::Frame frame;
  page::draw_chip(box, known.colour, known.mark, mixed(look_.colour("ink"), input_.accent), frame);
  Drawing drawing{{micrometres(4200), micrometres(4200)}, {}};
  for (const page::Op& op : frame.ops)
    if (const auto* item = std::get_if<DrawItem>(&op)) drawing.items.push_back(*item);
  if (grey_) page::make_grey(drawing.items);
  const text::Fonts no_fonts;
  // The ink's name always stands beside it.
  return fmt::format("<svg class=\"chip\" aria-hidden=\"true\" viewBox=\"0 0 4.2 4.2\">{}</svg>",
                     svg::SvgParts(no_fonts, {}).draw(drawing));
}

std::string InlineWriter::markup(const guide::Inlines& inlines) const {
  std::string out;
  bool kept = false; // a chip waits for the word that belongs to it
  for (const guide::Inline& one : inlines) {
    const auto* after_chip = kept ? std::get_if<guide::Words>(&one) : nullptr;
    if (after_chip != nullptr && after_chip->style == guide::Words::Style::Plain) {
      const std::string_view text = after_chip->text;
      const std::size_t end = std::min(text.find(' '), text.size());
      out += text_markup(text.substr(0, end)) + "</span>" + text_markup(text.substr(end));
      kept = false;
      continue;
    }
    if (kept) out += "</span>";
    kept = std::holds_alternative<guide::InkChip>(one);
    if (kept) out += "<span class=\"keep\">";
    std::visit(
        [&](const auto& what) {
          using What = std::decay_t<decltype(what)>;
          if constexpr (std::is_same_v<What, guide::Words>) {
            using enum guide::Words::Style;
            const std::string words = text_markup(what.text);
            switch (what.style) {
            case Plain: out += words; break;
            case Strong: out += "<strong>" + words + "</strong>"; break;
            case Emphasis: out += "<em>" + words + "</em>"; break;
            case Quiet: out += "<span class=\"quiet\">" + words + "</span>"; break;
            }
          } else if constexpr (std::is_same_v<What, guide::PieceLetter>) {
            out += fmt::format("<span class=\"letter\">{}</span>", text::xml_text(what.letter));
          } else if constexpr (std::is_same_v<What, guide::InkChip>) {
            out += chip(what.ink);
          } else if constexpr (std::is_same_v<What, guide::PageOf>) {
            const auto known = anchors_.find(what.anchor);
            cut_page_words(out);
            out += link(what.anchor, text_markup(known == anchors_.end() ? "?" : known->second));
          } else if constexpr (std::is_same_v<What, guide::Go>) {
            out += link(what.target, text_markup(what.text));
          } else {
            static_assert(std::is_same_v<What, guide::TickBox>);
            out += "<span class=\"tick\" role=\"img\" aria-label=\"to tick\"></span>";
          }
        },
        one);
  }
  return kept ? out + "</span>" : out;
}

} // namespace leafwright::html
