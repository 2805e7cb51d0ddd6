#include "sample.h"

#include <doctest/doctest.h>
#include <png.h>

#include <cstdio>
// jpeglib.h needs size_t and FILE to be known.
#include <jpeglib.h>

#include <array>
#include <cstdlib>

namespace leafwright::sample {

const text::Fonts& fonts() {
  static const Parsed<text::Fonts> read = text::standard_fonts(LEAFWRIGHT_SOURCE_DIR "/fonts");
  REQUIRE(read.ok());
  return *read;
}

Path rectangle(Rect box) {
  using Kind = Segment::Kind;
  return {{Kind::Move, {}, {}, box.origin},
          {Kind::Line, {}, {}, {box.right(), box.top()}},
          {Kind::Line, {}, {}, {box.right(), box.bottom()}},
          {Kind::Line, {}, {}, {box.left(), box.bottom()}},
          {Kind::Close, {}, {}, {}}};
}

namespace {

// Four flat quarters, so that a reader's smoothing touches only their edges.
std::vector<std::uint8_t> quarters(int width, int height, int channels) {
  constexpr std::array<std::array<std::uint8_t, 3>, 4> colours{
      {{200, 40, 40}, {40, 160, 40}, {40, 40, 200}, {230, 200, 40}}};
  std::vector<std::uint8_t> bytes;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const bool right = x * 2 >= width;
      const auto& colour = colours.at((y * 2 >= height ? 2U : 0U) + (right ? 1U : 0U));
      bytes.insert(bytes.end(), colour.begin(), colour.end());
      if (channels == 4) bytes.push_back(right ? 0 : 255);
    }
  return bytes;
}

} // namespace

std::string png_bytes(int width, int height, bool alpha) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(width);
  image.height = static_cast<png_uint_32>(height);
  image.format = alpha ? PNG_FORMAT_RGBA : PNG_FORMAT_RGB;
  const std::vector<std::uint8_t> pixels = quarters(width, height, alpha ? 4 : 3);
  png_alloc_size_t size = 0;
  REQUIRE(png_image_write_to_memory(&image, nullptr, &size, 0, pixels.data(), 0, nullptr) != 0);
  std::string bytes(size, '\0');
  REQUIRE(png_image_write_to_memory(&image, bytes.data(), &size, 0, pixels.data(), 0, nullptr) !=
          0);
  bytes.resize(size);
  return bytes;
}

std::string jpeg_bytes(int width, int height) {
  jpeg_compress_struct info{};
  jpeg_error_mgr error{};
  info.err = jpeg_std_error(&error);
  jpeg_create_compress(&info);
  unsigned char* data = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &data, &size);
  info.image_width = static_cast<JDIMENSION>(width);
  info.image_height = static_cast<JDIMENSION>(height);
  info.input_components = 3;
  info.in_color_space = JCS_RGB;
  jpeg_set_defaults(&info);
  jpeg_set_quality(&info, 95, TRUE);
  jpeg_start_compress(&info, TRUE);
  std::vector<std::uint8_t> pixels = quarters(width, height, 3);
  while (info.next_scanline < info.image_height) {
    JSAMPROW row = pixels.data() + static_cast<std::size_t>(info.next_scanline) * 3U *
                                       static_cast<std::size_t>(width);
    jpeg_write_scanlines(&info, &row, 1);
  }
  jpeg_finish_compress(&info);
  jpeg_destroy_compress(&info);
  std::string bytes(reinterpret_cast<const char*>(data), size);
  std::free(data);
  return bytes;
}

Picture png_picture(int width, int height, bool alpha) {
  return {"leaf.png", Picture::Kind::Png, width, height, png_bytes(width, height, alpha)};
}
Picture jpeg_picture(int width, int height) {
  return {"gate.jpg", Picture::Kind::Jpeg, width, height, jpeg_bytes(width, height)};
}

TextRun run(std::string_view words, Point baseline, text::Role role, Length size) {
  TextRun made;
  made.shaped = fonts().shape(fonts().face(role), size, words);
  made.baseline = baseline;
  return made;
}

TextRun closed_up(TextRun run) {
  for (text::Glyph& glyph : run.shaped.glyphs)
    if (run.shaped.text.compare(glyph.cluster, 2, "\u00a0") == 0) glyph.advance = 80;
  return run;
}

namespace {

constexpr Colour black{0, 0, 0}, moss{61, 94, 73}, sand{230, 214, 180}, rust{168, 76, 44};

page::Node node(std::string type, int parent) {
  page::Node made;
  made.type = std::move(type);
  made.parent = parent;
  return made;
}

class Builder {
 public:
  int add(page::Node node) {
    laid.nodes.push_back(std::move(node));
    return static_cast<int>(laid.nodes.size()) - 1;
  }
  page::LaidPage& page() { return laid.pages.back(); }
  void put(DrawItem item) { page().items.push_back(std::move(item)); }
  void text(int of, std::string_view words, Point at, text::Role role = text::Role::Text,
            Length size = points(10)) {
    put(Begin{of});
    put(run(words, at, role, size));
    put(End{});
  }
  page::Laid laid;
};

Stroke hairline(Path path, Colour colour) {
  Stroke made;
  made.path = std::move(path);
  made.colour = colour;
  return made;
}

Point at(std::int64_t x_mm, std::int64_t y_mm) { return {millimetres(x_mm), millimetres(y_mm)}; }

void add_text_page(Builder& make) {
  make.laid.pages.push_back({{inches(8, 1, 2), inches(11)}, "i", false, {}});
  const int section = make.add(node("Sect", 0));
  make.text(make.add(node("H1", section)), "Gate and trees", at(20, 30), text::Role::Display,
            points(24));
  const int paragraph = make.add(node("P", section));
  const int link = make.add(node("Link", paragraph));
  make.text(paragraph, "Cut the mat 1 3/8 in wide, not 4 13/16 in; see ", at(20, 45));
  make.text(link, "the drawing", at(110, 45));
  make.put(Link{{at(110, 41), {millimetres(20), millimetres(5)}}, "drawing", link});
  make.text(paragraph, " for how.", at(132, 45));
  const int web = make.add(node("P", section));
  const int address = make.add(node("Link", web));
  make.text(address, "paper-room.example", at(20, 52));
  make.put(Link{
      {at(20, 48), {millimetres(40), millimetres(5)}}, "https://paper-room.example/é", address});

  const int table = make.add(node("Table", section));
  const std::vector<std::vector<const char*>> rows{{"Piece", "Count"}, {"Mat", "8"}, {"Base", "4"}};
  std::int64_t y = 70;
  for (const auto& row : rows) {
    const int line = make.add(node("TR", table));
    std::int64_t x = 20;
    for (const char* words : row) {
      page::Node cell = node(y == 70 ? "TH" : "TD", line);
      if (y == 70) cell.scope = "Column";
      make.text(make.add(cell), words, at(x, y));
      x += 40;
    }
    y += 7;
  }
  page::Node list = node("L", section);
  list.list_numbering = "Decimal";
  const int steps = make.add(list);
  const int step = make.add(node("LI", steps));
  make.text(make.add(node("Lbl", step)), "1", at(20, 110));
  make.text(make.add(node("LBody", step)), "Tape the mat to the front.", at(26, 110));
  make.put(Begin{-1});
  make.put(hairline(rectangle({at(20, 260), {millimetres(170), Length{}}}), black));
  make.put(run("Orchard Gate", at(20, 268), text::Role::TextItalic, points(8)));
  make.put(End{});
}

void add_drawing_page(Builder& make) {
  make.laid.pages.push_back({{inches(8, 1, 2), inches(11)}, "1", true, {}});
  page::Node drawn = node("Figure", 1);
  drawn.alternative = "The base of the card, 4 1/4 × 5 1/2 in, with its mat";
  drawn.page = 1;
  drawn.box = {at(20, 30), {millimetres(150), millimetres(150)}};
  const int figure = make.add(drawn);
  make.laid.anchors.push_back({"drawing", 1, at(20, 25)});
  make.put(Begin{figure});
  const Rect cut{at(20, 30), {millimetres(108), micrometres(139'700)}};
  make.put(Fill{rectangle(cut), sand});
  Stroke edge = hairline(rectangle(cut), black);
  make.put(edge);
  Stroke fold = edge;
  fold.path = {{Segment::Kind::Move, {}, {}, at(74, 30)},
               {Segment::Kind::Line, {}, {}, at(74, 169)}};
  fold.dash = {micrometres(1500), micrometres(750)};
  fold.colour = rust;
  fold.width = micrometres(350);
  fold.cap = Stroke::Cap::Round;
  make.put(fold);
  make.put(Fill{rectangle({at(30, 40), {millimetres(40), millimetres(40)}}), moss, 0.5});
  make.put(PushClip{rectangle({at(80, 40), {millimetres(20), millimetres(20)}})});
  make.put(Fill{{{Segment::Kind::Move, {}, {}, at(75, 60)},
                 {Segment::Kind::Curve, at(85, 20), at(105, 20), at(110, 60)},
                 {Segment::Kind::Close, {}, {}, {}}},
                rust});
  make.put(PopClip{});
  make.put(Image{0, {at(80, 70), {millimetres(30), millimetres(20)}}, {}});
  make.put(Image{1, {at(80, 100), {millimetres(30), millimetres(20)}}, degrees(30)});
  TextRun turned =
      closed_up(run("about 4\u00a01/4 in wide", at(140, 100), text::Role::TextBold, points(12)));
  turned.turned = degrees(90);
  turned.colour = moss;
  make.put(turned);
  make.put(End{});
  make.put(Mark{"cut", "base", cut, cut.size});
}

} // namespace

page::Laid document() {
  Builder make;
  make.laid.title = "Orchard Gate – a tutorial";
  make.laid.author = "Fenmoor Paper Room";
  make.laid.subject = "Four cards & their envelopes";
  make.laid.language = "en-US";
  make.laid.keywords = {"cards", "paper"};
  make.add(node("Document", -1));
  add_text_page(make);
  add_drawing_page(make);
  make.laid.outline = {{1, "Gate and trees", 0, at(20, 20)},
                       {2, "Drawing – ½ size", 1, at(20, 25)},
                       {1, "Last", 1, at(20, 200)}};
  return std::move(make.laid);
}

std::vector<Picture> pictures() { return {png_picture(60, 40, true), jpeg_picture(60, 40)}; }

} // namespace leafwright::sample
