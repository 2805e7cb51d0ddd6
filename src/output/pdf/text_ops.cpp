#include "output/pdf/text_ops.h"

#include "output/pdf/syntax.h"

#include <algorithm>
#include <cmath>

namespace leafwright::pdf {
namespace {

// Writes glyphs one after the other and keeps count where a reader stands. All in thousandths of
// the font size.
class Line {
 public:
  explicit Line(std::string& out) : out_(out) {}

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
  double size_in_points = 1;

 private:
  void set_rise(double rise) {
    close();
    append_real(out_, rise * size_in_points / 1000.0, 4);
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
  double at_ = 0, rise_ = 0;
  bool in_array_ = false, in_string_ = false;
};

} // namespace

void append_glyphs(std::string& out, const text::Fonts& fonts, const text::Shaped& shaped,
                   Length word_space, FaceUse& use) {
  const double per_unit = 1000.0 / fonts.units_per_em(shaped.face);
  const double space = shaped.size.nm == 0 ? 0.0
                                           : static_cast<double>(word_space.nm) * 1000.0 /
                                                 static_cast<double>(shaped.size.nm);
  Line line(out);
  line.size_in_points = in_points(shaped.size);
  double pen = 0;
  const std::string_view text = shaped.text;
  const std::vector<text::Glyph>& glyphs = shaped.glyphs;
  for (std::size_t begin = 0; begin < glyphs.size();) {
    std::size_t end = begin + 1;
    while (end < glyphs.size() && glyphs[end].cluster == glyphs[begin].cluster) ++end;
    const std::size_t from = std::min<std::size_t>(glyphs[begin].cluster, text.size());
    const std::size_t to =
        end < glyphs.size() ? std::min<std::size_t>(glyphs[end].cluster, text.size()) : text.size();
    std::string_view says = text.substr(from, to > from ? to - from : 0);
    // Both share a glyph; what is copied out should break like any text.
    if (says == "\u00a0") says = " ";
    bool by_table = false;
    if (end - begin == 1)
      by_table = use.use(glyphs[begin].id, says);
    else
      for (std::size_t i = begin; i < end; ++i) use.use(glyphs[i].id);
    if (!by_table) {
      line.close();
      out += "/Span<</ActualText";
      out += utf16_string(says);
      out += ">>BDC\n";
    }
    for (std::size_t i = begin; i < end; ++i) {
      const text::Glyph& glyph = glyphs[i];
      line.glyph(glyph.id, pen + glyph.x_offset * per_unit, glyph.y_offset * per_unit,
                 fonts.plain_advance(shaped.face, glyph.id) * per_unit);
      pen += glyph.advance * per_unit;
    }
    if (text.substr(from, 1) == " ") pen += space;
    if (!by_table) {
      line.close();
      out += "EMC\n";
    }
    begin = end;
  }
  line.finish();
}

} // namespace leafwright::pdf
