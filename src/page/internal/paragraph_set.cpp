#include "page/internal/paragraph.h"

#include "basics/utf8.h"
#include "measure/print_length.h"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

namespace leafwright::page {

namespace {

// A run of text being gathered from words of one look.
struct GatheredRun {
  text::Shaped shaped;
  Colour colour;
  int spaces = 0;
};

void append_word(GatheredRun& run, const text::Shaped& word) {
  const auto offset = static_cast<std::uint32_t>(run.shaped.text.size());
  run.shaped.text += word.text;
  for (text::Glyph glyph : word.glyphs) {
    glyph.cluster += offset;
    run.shaped.glyphs.push_back(glyph);
  }
  run.shaped.width += word.width;
}

// Spreads `extra` over the letters of a run, in whole font units.
void loosen(text::Shaped& shaped, Length extra, int units_per_em) {
  if (shaped.glyphs.empty()) return;
  const std::int64_t units = extra.nm * units_per_em / shaped.size.nm;
  const auto each =
      static_cast<std::int32_t>(units / static_cast<std::int64_t>(shaped.glyphs.size()));
  for (text::Glyph& glyph : shaped.glyphs) glyph.advance += each;
  shaped.width +=
      Length{static_cast<std::int64_t>(each) * static_cast<std::int64_t>(shaped.glyphs.size()) *
             shaped.size.nm / units_per_em};
}

// A piece too wide for the measure is cut between characters, as a last resort.
void cut_wide_pieces(std::vector<Atom>& atoms, std::vector<LinePiece>& pieces, Length width,
                     bool tabular, Context& context) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (pieces[i].width <= width || atoms[i].kind != Atom::Kind::Word) continue;
    const Atom whole = atoms[i];
    const LinePiece piece = pieces[i];
    std::vector<Atom> new_atoms;
    std::vector<LinePiece> new_pieces;
    std::size_t from = whole.begin;
    Length run{};
    std::size_t at = whole.begin;
    while (at < whole.end) {
      std::size_t next = at + 1;
      while (next < whole.end && !detail::begins_character(whole.text[next])) ++next;
      const Length grown = shape_word(std::string_view(whole.text).substr(from, next - from),
                                      whole.face, whole.size, tabular, context)
                               .width;
      if (grown > width && at > from) {
        Atom atom = whole;
        atom.begin = from;
        atom.end = at;
        new_atoms.push_back(std::move(atom));
        new_pieces.push_back({run, {}, LinePiece::After::Break, {}, {}});
        from = at;
        continue;
      }
      run = grown;
      at = next;
    }
    Atom rest = whole;
    rest.begin = from;
    new_atoms.push_back(std::move(rest));
    new_pieces.push_back({run, piece.space, piece.after, piece.hyphen, piece.next_correction});
    const std::size_t count = new_pieces.size();
    const auto here = static_cast<std::ptrdiff_t>(i);
    atoms.erase(atoms.begin() + here);
    pieces.erase(pieces.begin() + here);
    atoms.insert(atoms.begin() + here, new_atoms.begin(), new_atoms.end());
    pieces.insert(pieces.begin() + here, new_pieces.begin(), new_pieces.end());
    i += count - 1;
    context.tell(Severity::Warning, "page-overfull",
                 fmt::format("“{}” is wider than the room it has", whole.text),
                 "words that fit on a line", "shorten it or allow a break in it");
  }
}

bool same_look(const Atom& a, const Atom& b) {
  return a.kind == Atom::Kind::Word && b.kind == Atom::Kind::Word && a.face == b.face &&
         a.size == b.size && a.colour == b.colour && a.link == b.link;
}

} // namespace

Paragraph::Slack Paragraph::shared_slack(const Line& line, const Measure& measure,
                                         Length slack) const {
  std::int64_t spaces = 0;
  for (std::size_t i = line.first; i + 1 < line.end; ++i)
    if (pieces_[i].space.nm > 0) ++spaces;
  if (!measure.justified || (line.last && slack.nm >= 0) || spaces == 0) return {};
  const Length comfortable = times(line.spaces, measure.stretch);
  Slack shared;
  if (slack > comfortable) // a very little letter space takes the worst off
    shared.letters = std::min(slack - comfortable, line.natural * 12 / 1000);
  shared.word_space = (slack - shared.letters) / spaces;
  return shared;
}

// The words from atom `i` on that look alike, which `i` and `x` are left behind.
TextRun Paragraph::set_run(const Line& line, Slack slack, std::size_t& i, Point& at,
                           Context& context) const {
  const Atom& atom = atoms_[i];
  const Point begin = at;
  GatheredRun run;
  run.colour = atom.colour;
  run.shaped.face = atom.face;
  run.shaped.size = atom.size;
  bool trailing = false;
  while (i < line.end && same_look(atom, atoms_[i])) {
    // Fragments of one word that stand on one line are one word again.
    std::size_t end = i + 1;
    while (end < line.end && atoms_[end].word == atoms_[i].word) ++end;
    const std::string_view word =
        std::string_view(atoms_[i].text)
            .substr(atoms_[i].begin, atoms_[end - 1].end - atoms_[i].begin);
    append_word(run, shape_word(word, atom.face, atom.size, style_.tabular, context));
    const bool line_ends = end == line.end;
    if (line_ends && line.hyphenated)
      append_word(run, shape_word("-", atom.face, atom.size, style_.tabular, context));
    // The space at a line's end stays in the text: readers join words by it.
    if (pieces_[end - 1].space.nm > 0) {
      append_word(run, context.fonts.shape(atom.face, atom.size, " "));
      if (line_ends)
        trailing = true;
      else
        ++run.spaces;
    }
    i = end;
  }
  if (slack.letters.nm > 0 && line.natural.nm > 0)
    loosen(run.shaped,
           Length{static_cast<std::int64_t>(static_cast<double>(slack.letters.nm) *
                                            static_cast<double>(run.shaped.width.nm) /
                                            static_cast<double>(line.natural.nm))},
           context.fonts.units_per_em(atom.face));
  at.x += run.shaped.width + slack.word_space * run.spaces;
  if (trailing) at.x -= context.fonts.width(atom.face, atom.size, " ");
  return {std::move(run.shaped), begin, run.colour, {}, slack.word_space};
}

SetLine Paragraph::set_line(const Line& line, const Measure& measure, Length width,
                            Context& context) const {
  const Length indent = line.first == 0 ? measure.first_indent : Length{};
  const Length left_over = measure.width - indent - line.natural;
  const Slack slack = shared_slack(line, measure, left_over);
  auto frame = std::make_shared<Frame>();
  frame->size = {width, style_.leading};
  Point at{indent, baseline_in(style_.leading, context.look)};
  if (style_.align == TextStyle::Align::Right) at.x += left_over;
  if (style_.align == TextStyle::Align::Centre) at.x += left_over / 2;
  std::string link;
  Length link_from{};
  const auto end_link = [&] {
    if (link.empty()) return;
    frame->ops.emplace_back(LinkHere{
        {{link_from, at.y - style_.size}, {at.x - link_from, style_.size * 13 / 10}}, link});
    frame->ops.emplace_back(CloseNode{});
    link.clear();
  };
  for (std::size_t i = line.first; i < line.end;) {
    const Atom& atom = atoms_[i];
    if (atom.link != link) {
      end_link();
      if (!atom.link.empty()) {
        link = atom.link;
        link_from = at.x;
        frame->ops.emplace_back(OpenNode{node_of("Link"), false});
      }
    }
    if (atom.kind == Atom::Kind::Word) {
      frame->ops.emplace_back(DrawItem{set_run(line, slack, i, at, context)});
      continue;
    }
    draw_thing(atom, at, style_, *frame, context);
    at.x += pieces_[i].width;
    if (pieces_[i].space.nm > 0 && i + 1 < line.end) at.x += pieces_[i].space + slack.word_space;
    ++i;
  }
  end_link();
  return {std::move(frame), at.x};
}

std::vector<SetLine> Paragraph::set(Length width, Context& context, Length indent) const {
  if (pieces_.empty()) return {};
  Measure measure;
  measure.width = style_.measure.nm > 0 ? std::min(style_.measure, width) : width;
  measure.first_indent = indent;
  measure.justified = style_.align == TextStyle::Align::Justified;
  measure.shortest_last = std::min(measure.width / 5, style_.size * 16 / 5);
  const bool too_wide =
      std::ranges::any_of(pieces_, [&](const LinePiece& p) { return p.width > measure.width; });
  if (too_wide && measure.width.nm > 0) {
    Paragraph cut = *this;
    cut_wide_pieces(cut.atoms_, cut.pieces_, measure.width, style_.tabular, context);
    if (cut.pieces_.size() > pieces_.size()) return cut.set(width, context, indent);
  }
  std::vector<SetLine> lines;
  for (const Line& line : break_lines(pieces_, measure)) {
    if (line.overfull)
      context.tell(Severity::Warning, "page-overfull",
                   fmt::format("“{}” runs {} beyond its column", atoms_[line.first].text,
                               length_text(line.natural - measure.width, context.input.printing)),
                   "words that fit on a line", "shorten them or allow a break in them");
    // Centred and right-aligned lines stand in the measure, which may be narrower than the room.
    lines.push_back(set_line(line, measure, width, context));
  }
  return lines;
}

namespace {

Fingerprint fingerprint_of(const guide::Inlines& inlines, const TextStyle& style, Length width,
                           Context& context, const std::string& node) {
  Fingerprinter print;
  print.put(context.bench, style.role, style.size, style.leading, style.colour.accent,
            style.colour.fixed.red, style.colour.fixed.green, style.colour.fixed.blue,
            style.colour.share, style.align, style.before, style.after, style.measure,
            style.hyphenate, style.tabular, width, node, inlines.size());
  for (const guide::Inline& item : inlines) {
    print.put(item.index());
    std::visit(
        [&](const auto& thing) {
          using Thing = std::decay_t<decltype(thing)>;
          if constexpr (std::is_same_v<Thing, guide::Words>)
            print.put(thing.text, thing.style);
          else if constexpr (std::is_same_v<Thing, guide::PieceLetter>)
            print.put(thing.letter);
          else if constexpr (std::is_same_v<Thing, guide::InkChip>)
            print.put(thing.ink);
          else if constexpr (std::is_same_v<Thing, guide::PageOf>)
            print.put(thing.anchor, context.label(thing.anchor));
          else if constexpr (std::is_same_v<Thing, guide::Go>)
            print.put(thing.target, thing.text);
        },
        item);
  }
  return print.result();
}

Flow set_paragraph(const guide::Inlines& inlines, const TextStyle& style, Length width,
                   Context& context, const std::string& node) {
  const Paragraph paragraph(inlines, style, context);
  const std::vector<SetLine> lines = paragraph.set(width, context);
  Flow flow;
  const std::size_t count = lines.size();
  const Length end = on_grid(style.leading * static_cast<std::int64_t>(count), context.look.grid);
  for (std::size_t i = 0; i < count; ++i) {
    FlowItem item;
    item.frame = lines[i].frame;
    if (i == 0) item.space_before = style.before;
    // Two lines at least on each side of a page's end.
    item.keep_with_next = i + 1 < count && (i == 0 || i + 2 == count);
    item.break_cost = i + 1 < count ? 30.0 : 0.0;
    if (i + 1 == count) { // back to the grid
      auto frame = std::make_shared<Frame>(*item.frame);
      frame->size.height = end - style.leading * static_cast<std::int64_t>(count - 1);
      item.frame = std::move(frame);
    }
    flow.push_back(std::move(item));
  }
  if (!node.empty() && !flow.empty()) {
    enclose(flow, {OpenNode{node_of(node), false}}, {CloseNode{}});
  }
  return flow;
}

} // namespace

// Set once for each width, in this pass or an earlier one, unless there was something to tell.
Flow paragraph_flow(const guide::Inlines& inlines, const TextStyle& style, Length width,
                    Context& context, const std::string& node) {
  if (context.kept == nullptr) return set_paragraph(inlines, style, width, context, node);
  const Fingerprint print = fingerprint_of(inlines, style, width, context, node);
  if (const Flow* known = context.kept->find(print)) return *known;
  const std::size_t tells = context.tells;
  Flow flow = set_paragraph(inlines, style, width, context, node);
  if (context.tells == tells) context.kept->keep(print, flow);
  return flow;
}

FramePtr paragraph_frame(const guide::Inlines& inlines, const TextStyle& style, Length width,
                         Context& context, const std::string& node) {
  Flow flow = paragraph_flow(inlines, style, width, context, node);
  return stacked(flow, width);
}

} // namespace leafwright::page
