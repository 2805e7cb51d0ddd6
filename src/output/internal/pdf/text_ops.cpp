#include "output/internal/pdf/text_ops.h"

#include "output/internal/pdf/syntax.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace leafwright::pdf {
namespace {

// Writes glyphs one after the other and keeps count where a reader stands. All in thousandths of
// the font size.
class Line {
 public:
  Line(std::string& out, double start, double size_in_points)
      : out_(out), size_in_points_(size_in_points), at_(start) {}

  // `wanted` is where the glyph's origin belongs.
  void glyph(std::uint32_t id, double wanted, double rise, double advance) {
    if (rise != rise_) set_rise(rise);
    // Steps of a tenth: 0.0001 of the font size, a tenth of a micrometre of 10 pt text.
    const long long tenths = std::llround((at_ - wanted) * 10.0);
    if (!in_array_) {
      out_.push_back('[');
      in_array_ = true;
    }
    if (tenths != 0) {
      close_string();
      append_decimal(out_, tenths, 1);
      at_ -= static_cast<double>(tenths) / 10.0;
    }
    if (!in_string_) {
      out_.push_back('(');
      in_string_ = true;
    }
    byte(static_cast<char>(id >> 8U & 0xffU));
    byte(static_cast<char>(id & 0xffU));
    at_ += advance;
  }
  // Ends the operator, so that others can stand between.
  void close() {
    close_string();
    if (in_array_) out_ += "]TJ\n";
    in_array_ = false;
  }
  void finish() {
    close();
    if (rise_ != 0) set_rise(0);
  }

 private:
  void set_rise(double rise) {
    close();
    append_real(out_, rise * size_in_points_ / 1000.0, 4);
    out_ += " Ts\n";
    rise_ = rise;
  }
  void close_string() {
    if (in_string_) out_.push_back(')');
    in_string_ = false;
  }
  void byte(char c) {
    if (c == '(' || c == ')' || c == '\\') out_.push_back('\\');
    if (c == '\r')
      out_ += "\\r";
    else
      out_.push_back(c);
  }

  std::string& out_;
  double size_in_points_ = 1;
  double at_ = 0, rise_ = 0;
  bool in_array_ = false, in_string_ = false;
};

using Glyphs = std::span<const text::Glyph>;

// Glyphs [begin, end) of one run that are written in one go.
struct GlyphSpan {
  std::size_t begin = 0, end = 0;
  std::string_view text;
  bool tight = false; // holds a space too narrow to be seen as one
};

constexpr std::string_view no_break_space = "\u00a0";
bool is_space(std::string_view text) { return text == " " || text == no_break_space; }

// A run in pieces: a cluster each, but a word that holds a narrow space ("4 1/4" set as 4¼) is one
// piece. Readers find the spaces of a text by the gaps, and take those below 0.15 of the font size
// for none.
std::vector<GlyphSpan> pieces_of(Glyphs glyphs, std::string_view text, double per_unit) {
  std::vector<GlyphSpan> clusters;
  for (std::size_t begin = 0; begin < glyphs.size();) {
    std::size_t end = begin + 1;
    while (end < glyphs.size() && glyphs[end].cluster == glyphs[begin].cluster) ++end;
    const std::size_t from = std::min<std::size_t>(glyphs[begin].cluster, text.size());
    const std::size_t to =
        end < glyphs.size() ? std::min<std::size_t>(glyphs[end].cluster, text.size()) : text.size();
    clusters.push_back({begin, end, text.substr(from, to > from ? to - from : 0)});
    begin = end;
  }
  const auto narrow = [&](const GlyphSpan& piece) {
    return is_space(piece.text) && glyphs[piece.begin].advance * per_unit < 150;
  };
  if (std::none_of(clusters.begin(), clusters.end(), narrow)) return clusters;

  std::vector<GlyphSpan> pieces;
  for (const GlyphSpan& cluster : clusters) {
    const bool apart = is_space(cluster.text) && !narrow(cluster);
    const bool joins = !pieces.empty() && !apart && !is_space(pieces.back().text);
    if (!joins) {
      pieces.push_back(cluster);
      continue;
    }
    GlyphSpan& word = pieces.back();
    word.end = cluster.end;
    word.text = {word.text.data(), word.text.size() + cluster.text.size()};
    word.tight = word.tight || narrow(cluster);
  }
  // Words without such a space go back into their clusters.
  std::vector<GlyphSpan> mixed;
  for (const GlyphSpan& piece : pieces) {
    if (piece.tight) {
      mixed.push_back(piece);
      continue;
    }
    for (const GlyphSpan& cluster : clusters)
      if (cluster.begin >= piece.begin && cluster.end <= piece.end) mixed.push_back(cluster);
  }
  return mixed;
}

// The text of one glyph, empty when it shares its cluster. A no-break space shares its glyph with
// the space; what is copied out should break like any text.
std::string_view text_of(Glyphs glyphs, std::size_t i, std::string_view text) {
  const std::size_t from = glyphs[i].cluster;
  const std::size_t to = i + 1 < glyphs.size() ? glyphs[i + 1].cluster : text.size();
  const bool shared = i > 0 && glyphs[i - 1].cluster == from;
  if (shared || from >= to || to > text.size()) return {};
  const std::string_view own = text.substr(from, to - from);
  return is_space(own) ? " " : own;
}

// Notes every glyph of a piece. True when the fonts' own tables give the piece's text.
bool note_use(FaceUse& use, Glyphs glyphs, const GlyphSpan& piece, std::string_view text) {
  bool by_table = !piece.tight;
  for (std::size_t i = piece.begin; i < piece.end; ++i) {
    const std::string_view own = text_of(glyphs, i, text);
    if (own.empty()) {
      use.use(glyphs[i].id);
      by_table = false;
    } else if (!use.use(glyphs[i].id, own)) {
      by_table = false;
    }
  }
  return by_table;
}

std::string spoken(std::string_view text) {
  std::string said(text);
  for (std::size_t at = 0; (at = said.find(no_break_space, at)) != std::string::npos;)
    said.replace(at, no_break_space.size(), " ");
  return said;
}

} // namespace

std::vector<TextPart> text_parts(const text::Fonts& fonts, const text::Shaped& shaped,
                                 Length word_space, FaceUse& use) {
  const double per_unit = 1000.0 / fonts.units_per_em(shaped.face);
  const double space = shaped.size.nm == 0 ? 0.0
                                           : static_cast<double>(word_space.nm) * 1000.0 /
                                                 static_cast<double>(shaped.size.nm);
  const double size = in_points(shaped.size);
  const std::string_view text = shaped.text;
  const Glyphs glyphs = shaped.glyphs;
  std::vector<TextPart> parts;
  double pen = 0;
  std::optional<Line> line;
  for (const GlyphSpan& piece : pieces_of(glyphs, text, per_unit)) {
    const bool by_table = note_use(use, glyphs, piece, text);
    if (parts.empty() || !by_table || parts.back().says) {
      if (line) line->finish();
      line.reset();
      parts.emplace_back().start = pen;
      if (!by_table) parts.back().says = spoken(piece.text);
    }
    // The part before is finished: its place may move, no line writes to it any more.
    if (!line) line.emplace(parts.back().operators, pen, size);
    for (std::size_t i = piece.begin; i < piece.end; ++i) {
      const text::Glyph& glyph = glyphs[i];
      line->glyph(glyph.id, pen + glyph.x_offset * per_unit, glyph.y_offset * per_unit,
                  fonts.plain_advance(shaped.face, glyph.id) * per_unit);
      pen += glyph.advance * per_unit;
      if (glyph.cluster < text.size() && text[glyph.cluster] == ' ') pen += space;
    }
  }
  if (line) line->finish();
  return parts;
}

} // namespace leafwright::pdf
