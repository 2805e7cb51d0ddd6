#include "page/internal/paragraph.h"

#include "basics/utf8.h"
#include "text/fractions.h"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

namespace leafwright::page {

namespace {

constexpr std::string_view no_break_space = "\u00A0";

text::Role with_style(text::Role base, guide::Words::Style style) {
  using enum guide::Words::Style;
  using enum text::Role;
  if (style == Strong && base == Text) return TextBold;
  if (style == Strong && base == TextItalic) return TextBoldItalic;
  if (style == Emphasis && base == Text) return TextItalic;
  if (style == Emphasis && base == TextBold) return TextBoldItalic;
  if (style == Emphasis && base == Display) return DisplayItalic;
  return base;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// Names the character for a message: the character itself and its code point.
std::string character_name(std::string_view text, std::size_t at) {
  std::size_t end = at + 1;
  while (end < text.size() && !detail::begins_character(text[end])) ++end;
  const std::string_view bytes = text.substr(at, end - at);
  unsigned code = static_cast<unsigned char>(bytes[0]);
  if (bytes.size() > 1) {
    code &= 0xFFU >> (bytes.size() + 1);
    for (std::size_t i = 1; i < bytes.size(); ++i)
      code = code << 6U | (static_cast<unsigned char>(bytes[i]) & 0x3FU);
  }
  return fmt::format("the character “{}” (U+{:04X})", bytes, code);
}

// A mixed number is written with a space that keeps "4 1/4" from reading 41/4; true fractions need
// hardly any.
void tighten_mixed_numbers(text::Shaped& shaped, int units_per_em) {
  for (const text::ByteRange range : text::fractions_in(shaped.text)) {
    if (range.begin < no_break_space.size() + 1) continue;
    const std::size_t space = range.begin - no_break_space.size();
    if (shaped.text.compare(space, no_break_space.size(), no_break_space) != 0) continue;
    const char before = shaped.text[space - 1];
    if (before < '0' || before > '9') continue;
    for (text::Glyph& glyph : shaped.glyphs)
      if (glyph.cluster == space) glyph.advance = units_per_em * 4 / 100;
  }
  std::int64_t units = 0;
  for (const text::Glyph& glyph : shaped.glyphs) units += glyph.advance;
  shaped.width = {units * shaped.size.nm / units_per_em};
}

} // namespace

guide::Inlines plain(std::string words) { return {guide::Words{std::move(words)}}; }

Length baseline_in(Length leading, const Template& look) {
  // The same distance below all baselines of at least two grid steps keeps different sizes in step.
  const bool gridded = look.grid.nm > 0 && leading >= look.grid * 2;
  return leading - (gridded ? look.grid * 4 / 7 : leading * 2 / 7);
}

text::Shaped shape_word(std::string_view word, int face, Length size, bool tabular,
                        Context& context) {
  text::Features features;
  features.tabular = tabular;
  text::Shaped shaped = context.fonts.shape(face, size, word, features);
  for (const text::Glyph& glyph : shaped.glyphs)
    if (glyph.id == 0 && glyph.cluster < shaped.text.size())
      context.tell(Severity::Warning, "page-missing-glyph",
                   fmt::format("{} is not in the font {}",
                               character_name(shaped.text, glyph.cluster),
                               context.fonts.file_name(face)),
                   "characters that the document's fonts hold",
                   "write it another way, or put it into a picture");
  if (word.find('/') != std::string_view::npos &&
      word.find(no_break_space) != std::string_view::npos)
    tighten_mixed_numbers(shaped, context.fonts.units_per_em(face));
  return shaped;
}

Paragraph::Paragraph(const guide::Inlines& inlines, const TextStyle& style, Context& context)
    : style_(style) {
  add_words(inlines, context);
}

void Paragraph::add_word(std::string word, Atom like, Length space, LinePiece::After after,
                         Context& context) {
  like.kind = Atom::Kind::Word;
  like.word = atoms_.empty() ? 0 : atoms_.back().word + 1;
  like.text = std::move(word);
  const auto width_of = [&](std::size_t begin, std::size_t end) {
    return shape_word(std::string_view(like.text).substr(begin, end - begin), like.face, like.size,
                      style_.tabular, context)
        .width;
  };
  std::vector<std::size_t> cuts;
  if (style_.hyphenate && context.hyphenation.loaded()) {
    std::size_t begin = 0;
    std::size_t end = like.text.size();
    while (begin < end && !is_letter(like.text[begin])) ++begin;
    while (end > begin && !is_letter(like.text[end - 1])) --end;
    const std::string_view core = std::string_view(like.text).substr(begin, end - begin);
    // Names and abbreviations stay whole; so does anything with a sign or figure inside.
    const bool fit = std::ranges::all_of(core, [](char c) { return c >= 'a' && c <= 'z'; });
    if (fit)
      for (const std::size_t point : context.hyphenation.points(core))
        cuts.push_back(begin + point);
  }
  const Length whole = width_of(0, like.text.size());
  const Length hyphen = cuts.empty()
                            ? Length{}
                            : shape_word("-", like.face, like.size, style_.tabular, context).width;
  std::size_t from = 0;
  Length before{};
  for (const std::size_t cut : cuts) {
    const Length up_to = width_of(0, cut);
    Atom atom = like;
    atom.begin = from;
    atom.end = cut;
    LinePiece piece;
    piece.width = up_to - before;
    piece.after = LinePiece::After::Hyphen;
    piece.hyphen = hyphen;
    piece.next_correction = width_of(cut, like.text.size()) - (whole - up_to);
    atoms_.push_back(std::move(atom));
    pieces_.push_back(piece);
    from = cut;
    before = up_to;
  }
  like.begin = from;
  like.end = like.text.size();
  atoms_.push_back(std::move(like));
  pieces_.push_back({whole - before, space, after, {}, {}});
}

namespace {

// One string of all that is said decides where lines may break; things stand in it as a letter.
struct Said {
  struct Part {
    std::size_t begin = 0, end = 0;
    Atom like;
  };
  std::string all;
  std::vector<Part> parts;
};

Said said_by(const guide::Inlines& inlines, const TextStyle& style, Context& context) {
  Said said;
  std::string& all = said.all;
  for (const guide::Inline& item : inlines) {
    Said::Part part;
    part.begin = all.size();
    Atom& like = part.like;
    like.size = style.size;
    like.colour = context.colour(style.colour);
    text::Role role = style.role;
    std::visit(
        [&](const auto& thing) {
          using Thing = std::decay_t<decltype(thing)>;
          if constexpr (std::is_same_v<Thing, guide::Words>) {
            role = with_style(role, thing.style);
            if (thing.style == guide::Words::Style::Quiet) like.colour = context.colour("quiet");
            all += thing.text;
          } else if constexpr (std::is_same_v<Thing, guide::PieceLetter>) {
            like.kind = Atom::Kind::Letter;
            like.text = thing.letter;
            all += 'A';
          } else if constexpr (std::is_same_v<Thing, guide::InkChip>) {
            like.kind = Atom::Kind::Chip;
            like.ink = thing.ink;
            all += 'A';
          } else if constexpr (std::is_same_v<Thing, guide::TickBox>) {
            like.kind = Atom::Kind::Tick;
            all += 'A';
          } else if constexpr (std::is_same_v<Thing, guide::PageOf>) {
            like.link = thing.anchor;
            all += context.label(thing.anchor);
          } else {
            static_assert(std::is_same_v<Thing, guide::Go>);
            like.link = thing.target;
            like.colour = context.colour("link");
            all += thing.text;
          }
        },
        item);
    like.face = context.fonts.face(role);
    part.end = all.size();
    if (part.end > part.begin) said.parts.push_back(std::move(part));
  }
  return said;
}

} // namespace

void Paragraph::add_piece(const Atom& like, std::string text, Length space, LinePiece::After after,
                          Context& context) {
  if (like.kind != Atom::Kind::Word) {
    Atom atom = like;
    atom.word = atoms_.empty() ? 0 : atoms_.back().word + 1;
    const bool letter = atom.kind == Atom::Kind::Letter;
    atoms_.push_back(std::move(atom));
    pieces_.push_back(
        {letter ? context.figure_look.badge_size : style_.size * 8 / 10, space, after, {}, {}});
  } else if (text.empty() && !atoms_.empty()) {
    // Only a space, behind a thing or words of another style.
    LinePiece& previous = pieces_.back();
    previous.space = std::max(previous.space, space);
    previous.after = after == LinePiece::After::Must ? after : LinePiece::After::Break;
  } else if (!text.empty()) {
    add_word(std::move(text), like, space, after, context);
  }
}

void Paragraph::add_words(const guide::Inlines& inlines, Context& context) {
  const auto [all, parts] = said_by(inlines, style_, context);
  const std::vector<bool> breaks = break_opportunities(all);
  for (const Said::Part& part : parts) {
    std::size_t at = part.begin;
    while (at < part.end) {
      std::size_t end = at;
      while (end < part.end && !breaks[end]) ++end;
      const bool broke = end < part.end;
      end = std::min(end + 1, part.end);
      std::size_t text_end = end;
      const bool forced = all[end - 1] == '\n';
      while (text_end > at && (all[text_end - 1] == ' ' || all[text_end - 1] == '\n')) --text_end;
      Length space{};
      if (text_end < end && !forced)
        space = context.fonts.width(part.like.face, part.like.size, " ");
      add_piece(part.like, all.substr(at, text_end - at), space,
                forced  ? LinePiece::After::Must
                : broke ? LinePiece::After::Break
                        : LinePiece::After::Stay,
                context);
      at = end;
    }
  }
  if (!pieces_.empty()) {
    pieces_.back().space = {};
    pieces_.back().after = LinePiece::After::Stay;
  }
}

Length Paragraph::widest() const {
  Length best{};
  Length line{};
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    line += pieces_[i].width;
    best = std::max(best, line);
    line = pieces_[i].after == LinePiece::After::Must ? Length{} : line + pieces_[i].space;
  }
  return best;
}

Length Paragraph::narrowest() const {
  Length best{};
  Length run{};
  for (const LinePiece& piece : pieces_) {
    run += piece.width;
    best =
        std::max(best, run + (piece.after == LinePiece::After::Hyphen ? piece.hyphen : Length{}));
    // A narrow column shall not be paid for with divided words.
    if (piece.after == LinePiece::After::Break || piece.after == LinePiece::After::Must)
      run = {};
    else
      run += piece.space;
  }
  return best;
}

} // namespace leafwright::page
