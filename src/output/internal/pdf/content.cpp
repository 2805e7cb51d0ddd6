#include "output/internal/pdf/content.h"

#include "measure/index.h"
#include "output/internal/list/display_list.h"
#include "output/internal/pdf/graphics_ops.h"
#include "output/internal/pdf/syntax.h"
#include "output/internal/pdf/text_ops.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <utility>

namespace leafwright::pdf {
namespace {

// Readers need honour no more than 28 levels of q and Q (ISO 32000-1, Annex C); pictures take one.
constexpr std::size_t deepest_save = 26;

// What the page's graphics state holds, so that nothing is set twice.
struct State {
  std::optional<Colour> fill, stroke;
  std::optional<Length> width;
  std::optional<std::vector<Length>> dash;
  int cap = 0, join = 0;
  int opacity = 1000;
  int face = -1;
  Length size{};
};

class PageWriter {
 public:
  PageWriter(const page::LaidPage& page, const ContentInput& input, std::vector<FaceUse>& uses)
      : input_(input), uses_(uses), height_(page.size.height) {
    for (const DrawItem& item : page.items)
      std::visit([this](const auto& one) { draw(one); }, item);
    end_marked();
    while (!clips_.empty()) draw(PopClip{});
  }
  PageContent take() { return std::move(content_); }

 private:
  struct Clip {
    std::string operators;
    bool saved = false; // with a q of its own
    State before;       // of that q
  };

  void draw(const Fill& fill);
  void draw(const Stroke& stroke);
  void draw(const TextRun& run);
  void draw(const Image& image);
  void draw(const PushClip& clip);
  void draw(const PopClip& clip);
  void draw(const Link& link);
  void draw(const Begin& begin);
  void draw(const End& end);
  void draw(const Mark&) {}

  // Whatever is painted outside Begin and End is an artefact: readers skip it.
  void need_marked();
  void end_marked();
  void begin_piece(const std::string& tag, const std::string& properties);
  void draw_part(const TextRun& run, const TextPart& part);

  void set_fill(Colour colour);
  void set_stroke(Colour colour);
  void set_opacity(double opacity);
  void set_line(const Stroke& stroke);
  void append_colour(Colour colour, const char* grey, const char* rgb);
  void append_matrix(double a, double b, double c, double d);
  void word(const char* text) { content_.operators += text; }

  const ContentInput& input_;
  std::vector<FaceUse>& uses_;
  Length height_;
  PageContent content_;
  State state_;
  std::vector<Clip> clips_;
  // Paused: the node's content was interrupted and goes on with its next painting.
  enum class Marked { No, Tagged, Artefact, Paused } marked_ = Marked::No;
  int node_ = -1; // while Tagged or Paused
};

void PageWriter::need_marked() {
  if (marked_ == Marked::Paused) begin_piece(name(input_.nodes[as_index(node_)].type), "");
  if (marked_ != Marked::No || input_.nodes.empty()) return;
  word("/Artifact BMC\n");
  marked_ = Marked::Artefact;
}
void PageWriter::end_marked() {
  if (marked_ == Marked::Tagged || marked_ == Marked::Artefact) word("EMC\n");
  marked_ = Marked::No;
}

// Opens the next piece of node_'s content.
void PageWriter::begin_piece(const std::string& tag, const std::string& properties) {
  content_.operators +=
      fmt::format("{}<</MCID {}{}>>BDC\n", tag, content_.marked.size(), properties);
  content_.marked.push_back({node_});
  marked_ = Marked::Tagged;
}

void PageWriter::draw(const Begin& begin) {
  end_marked();
  if (begin.node < 0 || as_index(begin.node) >= input_.nodes.size()) return;
  node_ = begin.node;
  marked_ = Marked::Paused; // opened by what is painted first; a part without ink has no content
}
void PageWriter::draw(const End&) { end_marked(); }

void PageWriter::append_colour(Colour colour, const char* grey, const char* rgb) {
  const auto channel = [this](std::uint8_t value) {
    append_decimal(content_.operators, (value * 10'000 + 127) / 255, 4);
    content_.operators.push_back(' ');
  };
  channel(colour.red);
  if (colour.red == colour.green && colour.green == colour.blue) {
    word(grey);
    return;
  }
  channel(colour.green);
  channel(colour.blue);
  word(rgb);
}
void PageWriter::set_fill(Colour colour) {
  if (state_.fill == colour) return;
  append_colour(colour, "g\n", "rg\n");
  state_.fill = colour;
}
void PageWriter::set_stroke(Colour colour) {
  if (state_.stroke == colour) return;
  append_colour(colour, "G\n", "RG\n");
  state_.stroke = colour;
}
void PageWriter::set_opacity(double opacity) {
  const int thousandths = opacity_thousandths(opacity);
  if (state_.opacity == thousandths) return;
  content_.operators += fmt::format("/O{} gs\n", thousandths);
  content_.opacities.insert(thousandths);
  state_.opacity = thousandths;
}

void PageWriter::set_line(const Stroke& stroke) {
  if (state_.width != stroke.width) {
    append_points(content_.operators, stroke.width);
    word(" w\n");
    state_.width = stroke.width;
  }
  std::vector<Length> dash = usable_dash(stroke.dash);
  if (state_.dash.value_or(std::vector<Length>{}) != dash) {
    word("[");
    for (const Length length : dash) {
      append_points(content_.operators, length);
      word(" ");
    }
    word("]0 d\n");
    state_.dash = std::move(dash);
  }
  if (const int cap = static_cast<int>(stroke.cap); cap != state_.cap) {
    content_.operators += fmt::format("{} J\n", cap);
    state_.cap = cap;
  }
  if (const int join = static_cast<int>(stroke.join); join != state_.join) {
    content_.operators += fmt::format("{} j\n", join);
    state_.join = join;
  }
}

void PageWriter::draw(const Fill& fill) {
  std::string path;
  if (!append_path(path, fill.path, height_)) return;
  need_marked();
  set_opacity(fill.opacity);
  set_fill(fill.colour);
  content_.operators += path;
  word("f*\n");
}

void PageWriter::draw(const Stroke& stroke) {
  std::string path;
  if (stroke.width.nm <= 0 || !append_path(path, stroke.path, height_)) return;
  need_marked();
  set_opacity(stroke.opacity);
  set_stroke(stroke.colour);
  set_line(stroke);
  content_.operators += path;
  word("S\n");
}

void PageWriter::append_matrix(double a, double b, double c, double d) {
  for (const double value : {a, b, c, d}) {
    append_real(content_.operators, value);
    content_.operators.push_back(' ');
  }
}

void PageWriter::draw(const TextRun& run) {
  const int face = run.shaped.face;
  if (run.shaped.glyphs.empty() || run.shaped.size.nm <= 0 || face < 0 ||
      face >= input_.fonts.count())
    return;
  if (marked_ == Marked::No) need_marked();
  set_opacity(1.0);
  set_fill(run.colour);
  const std::vector<TextPart> parts =
      text_parts(input_.fonts, run.shaped, run.word_space, uses_[as_index(face)]);
  for (const TextPart& part : parts) {
    if (!part.says) {
      need_marked();
      draw_part(run, part);
      continue;
    }
    const std::string says = "/ActualText" + utf16_string(*part.says);
    const bool tagged = marked_ == Marked::Tagged || marked_ == Marked::Paused;
    if (tagged) {
      end_marked();
      begin_piece("/Span", says);
    } else {
      content_.operators += "/Span<<" + says + ">>BDC\n";
    }
    draw_part(run, part);
    word("EMC\n");
    if (tagged) marked_ = Marked::Paused;
  }
}

void PageWriter::draw_part(const TextRun& run, const TextPart& part) {
  word("BT\n");
  const text::Shaped& shaped = run.shaped;
  if (state_.face != shaped.face || state_.size != shaped.size) {
    content_.operators += fmt::format("/F{} ", shaped.face);
    append_points(content_.operators, shaped.size);
    word(" Tf\n");
    state_.face = shaped.face;
    state_.size = shaped.size;
    content_.faces.insert(shaped.face);
  }
  const Turn turn = turn_of(run.turned);
  const double along = part.start / 1000.0 * static_cast<double>(shaped.size.nm);
  const Point at{run.baseline.x + Length{std::llround(along * turn.cosine)},
                 run.baseline.y + Length{std::llround(along * turn.sine)}};
  // Clockwise as seen on the page: PDF's y grows upwards.
  if (!turn.level()) append_matrix(turn.cosine, -turn.sine, turn.sine, turn.cosine);
  append_points(content_.operators, at.x);
  word(" ");
  append_points(content_.operators, height_ - at.y);
  word(turn.level() ? " Td\n" : " Tm\n");
  content_.operators += part.operators;
  word("ET\n");
}

namespace {

// The unit square of a picture as it is stored onto the same as it is seen (Exif orientations).
// Pictures that are decoded on the way are upright already.
std::string_view stored_to_upright(const Picture& picture) {
  if (picture.kind != Picture::Kind::Jpeg) return {};
  switch (picture.orientation) {
  case 2: return "-1 0 0 1 1 0 cm ";
  case 3: return "-1 0 0 -1 1 1 cm ";
  case 4: return "1 0 0 -1 0 1 cm ";
  case 5: return "0 -1 -1 0 1 1 cm ";
  case 6: return "0 -1 1 0 0 1 cm ";
  case 7: return "0 1 1 0 0 0 cm ";
  case 8: return "0 1 -1 0 1 0 cm ";
  default: return {};
  }
}

} // namespace

void PageWriter::draw(const Image& image) {
  if (image.picture < 0 || as_index(image.picture) >= input_.pictures.size()) return;
  need_marked();
  set_opacity(1.0);
  const Turn turn = turn_of(image.turned);
  const double width = in_points(image.box.size.width);
  const double height = in_points(image.box.size.height);
  // The unit square about its own centre, sized, turned, and set down on the centre of the box.
  const double a = width * turn.cosine, b = -width * turn.sine;
  const double c = height * turn.sine, d = height * turn.cosine;
  const double middle_x = (in_points(image.box.left()) + in_points(image.box.right())) / 2;
  const double middle_y =
      in_points(height_) - (in_points(image.box.top()) + in_points(image.box.bottom())) / 2;
  word("q ");
  append_matrix(a, b, c, d);
  append_real(content_.operators, middle_x - (a + c) / 2, 4);
  word(" ");
  append_real(content_.operators, middle_y - (b + d) / 2, 4);
  word(" cm ");
  content_.operators += stored_to_upright(input_.pictures[as_index(image.picture)]);
  content_.operators += fmt::format("/X{} Do Q\n", image.picture);
  content_.pictures.insert(image.picture);
}

void PageWriter::draw(const PushClip& clip) {
  Clip pushed;
  if (!append_path(pushed.operators, clip.path, height_))
    pushed.operators = "0 0 0 0 re\n"; // an empty outline shows nothing
  pushed.operators += "W* n\n";
  pushed.saved = clips_.size() < deepest_save;
  pushed.before = state_;
  if (pushed.saved) word("q\n");
  content_.operators += pushed.operators;
  clips_.push_back(std::move(pushed));
}

void PageWriter::draw(const PopClip&) {
  if (clips_.empty()) return;
  if (clips_.back().saved) {
    word("Q\n");
    state_ = std::move(clips_.back().before);
    clips_.pop_back();
    return;
  }
  // Deeper than PDF's saves go: take back the deepest save and clip again by what remains above it.
  clips_.pop_back();
  const std::size_t base = deepest_save - 1;
  word("Q\nq\n");
  state_ = clips_[base].before;
  for (std::size_t i = base; i < clips_.size(); ++i) content_.operators += clips_[i].operators;
}

void PageWriter::draw(const Link& link) {
  content_.links.push_back({link, static_cast<int>(content_.marked.size())});
}

} // namespace

PageContent page_content(const page::LaidPage& page, const ContentInput& input,
                         std::vector<FaceUse>& uses) {
  return PageWriter(page, input, uses).take();
}

} // namespace leafwright::pdf
