#include "output/internal/pdf/graphics_ops.h"

#include "measure/index.h"
#include "output/internal/pdf/parts.h"
#include "output/internal/pdf/syntax.h"
#include "output/internal/picture/picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

namespace leafwright::pdf {
namespace {

using Kind = Segment::Kind;

// How many segments from the front are one closed level rectangle: 5 (Move, three Lines, Close) or
// 6 (with a Line back to the start), else 0.
std::size_t rectangle_at(std::span<const Segment> rest) {
  if (rest.size() < 5 || rest[0].kind != Kind::Move) return 0;
  for (std::size_t i = 1; i < 4; ++i)
    if (rest[i].kind != Kind::Line) return 0;
  const Point a = rest[0].end, b = rest[1].end, c = rest[2].end, d = rest[3].end;
  if (a.y != b.y || b.x != c.x || c.y != d.y || d.x != a.x) return 0;
  if (rest[4].kind == Kind::Close) return 5;
  const bool back = rest[4].kind == Kind::Line && rest[4].end == a;
  return back && rest.size() > 5 && rest[5].kind == Kind::Close ? 6 : 0;
}

class Pen {
 public:
  Pen(std::string& out, Length height) : out_(out), height_(height) {}
  void point(Point at) {
    append_points(out_, at.x);
    out_.push_back(' ');
    append_points(out_, height_ - at.y);
    out_.push_back(' ');
  }
  void rectangle(Point a, Point c) {
    point(a);
    append_points(out_, c.x - a.x);
    out_.push_back(' ');
    append_points(out_, a.y - c.y);
    out_ += " re\n";
  }

 private:
  std::string& out_;
  Length height_;
};

} // namespace

bool append_path(std::string& out, const Path& path, Length page_height) {
  Pen pen(out, page_height);
  bool drawn = false; // something beyond a lone Move
  bool begun = false; // a current point exists
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (const std::size_t length = rectangle_at(std::span(path).subspan(i)); length != 0) {
      pen.rectangle(path[i].end, path[i + 2].end);
      i += length - 1;
      drawn = begun = true;
      continue;
    }
    const Segment& segment = path[i];
    switch (segment.kind) {
    case Kind::Move:
      pen.point(segment.end);
      out += "m\n";
      begun = true;
      break;
    case Kind::Line:
      pen.point(segment.end);
      out += begun ? "l\n" : "m\n";
      drawn = drawn || begun;
      begun = true;
      break;
    case Kind::Curve:
      if (!begun) {
        pen.point(segment.control1);
        out += "m\n";
      }
      pen.point(segment.control1);
      pen.point(segment.control2);
      pen.point(segment.end);
      out += "c\n";
      drawn = begun = true;
      break;
    case Kind::Close:
      if (begun) out += "h\n";
      break;
    }
  }
  return drawn;
}

namespace {

std::string image_entries(int width, int height, std::string_view colours) {
  return fmt::format("/Type/XObject/Subtype/Image/Width {}/Height {}/ColorSpace/{}"
                     "/BitsPerComponent 8",
                     width, height, colours);
}

Ref add_jpeg(Haru& haru, const Picture& picture, const picture::JpegFrame& frame) {
  const char* colours = frame.components == 1   ? "DeviceGray"
                        : frame.components == 3 ? "DeviceRGB"
                                                : "DeviceCMYK";
  std::string entries = image_entries(frame.width, frame.height, colours) + "/Filter/DCTDecode";
  if (frame.inverted) entries += "/Decode[1 0 1 0 1 0 1 0]";
  return haru.add_stream(std::move(entries), picture::without_exif(picture.bytes));
}

Ref add_pixels(Haru& haru, const picture::Pixels& pixels, const Packing& packing) {
  const auto count = as_index(pixels.width) * as_index(pixels.height);
  const auto* raw = reinterpret_cast<const char*>(pixels.bytes.data());
  std::string entries =
      image_entries(pixels.width, pixels.height, pixels.channels == 1 ? "DeviceGray" : "DeviceRGB");
  if (pixels.channels != 4)
    return add_packed(haru, std::move(entries), std::string(raw, pixels.bytes.size()), packing);
  std::string colour(count * 3, '\0'), alpha(count, '\0');
  for (std::size_t i = 0; i < count; ++i) {
    std::copy_n(raw + i * 4, 3, colour.data() + i * 3);
    alpha[i] = raw[i * 4 + 3];
  }
  if (std::any_of(alpha.begin(), alpha.end(), [](char a) { return a != '\xff'; })) {
    const Ref mask =
        add_packed(haru, image_entries(pixels.width, pixels.height, "DeviceGray"), alpha, packing);
    entries += "/SMask " + ref_text(mask);
  }
  return add_packed(haru, std::move(entries), colour, packing);
}

} // namespace

Parsed<Ref> add_picture(Haru& haru, const Picture& picture, const Packing& packing) {
  if (picture.kind == Picture::Kind::Jpeg) {
    const Parsed<picture::JpegFrame> frame = picture::jpeg_frame(picture.bytes);
    if (frame) return add_jpeg(haru, picture, *frame);
    ParseError why = frame.parse_error();
    why.found = picture.path + ": " + why.found;
    return why;
  }
  const Parsed<picture::Pixels> pixels = picture::decode(picture);
  if (!pixels) return pixels.parse_error();
  return add_pixels(haru, *pixels, packing);
}

} // namespace leafwright::pdf
