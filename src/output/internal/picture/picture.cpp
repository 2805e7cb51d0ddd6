#include "output/internal/picture/picture.h"

#include "basics/jpeg_segments.h"
#include "measure/index.h"

#include <fmt/format.h>
#include <jpeglib.h>
#include <png.h>

#include <algorithm>
#include <csetjmp>
#include <cstddef>
#include <cstdio>

// jpeglib.h needs size_t and FILE to be known.

namespace leafwright::picture {
namespace {

ParseError damaged(std::string why) {
  return {0, 0, "a JPEG that cannot be read: " + std::move(why), "a whole JPEG picture",
          "open it in a picture program and save it again as JPEG"};
}

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}
unsigned word_at(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at) << 8U | byte_at(bytes, at + 1);
}

// libjpeg's own handler ends the program; ours jumps back.
struct JumpingError {
  jpeg_error_mgr manager{};
  std::jmp_buf back{};
  char message[JMSG_LENGTH_MAX]{};
};
[[noreturn]] void jump_back(j_common_ptr info) {
  auto* error = static_cast<JumpingError*>(info->client_data);
  info->err->format_message(info, error->message);
  std::longjmp(error->back, 1);
}
void keep_silent(j_common_ptr, int) {}

// No object with a destructor lives in here: longjmp would skip it. Grows `pixels`, which the
// caller owns. False with a message in `error`.
bool read_into(std::string_view bytes, Pixels& pixels, jpeg_decompress_struct& info,
               JumpingError& error) {
  if (setjmp(error.back) != 0) return false; // NOLINT(cert-err52-cpp): libjpeg's way
  jpeg_create_decompress(&info);
  jpeg_mem_src(&info, reinterpret_cast<const unsigned char*>(bytes.data()),
               static_cast<unsigned long>(bytes.size()));
  jpeg_read_header(&info, TRUE);
  const bool grey = info.jpeg_color_space == JCS_GRAYSCALE;
  const bool four = info.jpeg_color_space == JCS_CMYK || info.jpeg_color_space == JCS_YCCK;
  info.out_color_space = grey ? JCS_GRAYSCALE : four ? JCS_CMYK : JCS_RGB;
  jpeg_start_decompress(&info);
  pixels.width = static_cast<int>(info.output_width);
  pixels.height = static_cast<int>(info.output_height);
  pixels.channels = info.output_components;
  const std::size_t stride = as_index(info.output_width) * as_index(info.output_components);
  pixels.bytes.resize(stride * info.output_height);
  while (info.output_scanline < info.output_height) {
    JSAMPROW row = pixels.bytes.data() + stride * info.output_scanline;
    jpeg_read_scanlines(&info, &row, 1);
  }
  jpeg_finish_decompress(&info);
  return true;
}

// CMYK to RGB the plain way, for previews; print programs use profiles. Adobe writes it inverted.
void cmyk_to_rgb(Pixels& pixels, bool inverted) {
  const std::size_t count = pixels.bytes.size() / 4;
  for (std::size_t i = 0; i < count; ++i) {
    const auto ink = [&](std::size_t channel) {
      const unsigned value = pixels.bytes[i * 4 + channel];
      return inverted ? value : 255U - value; // how much light is left
    };
    const unsigned key = ink(3);
    const unsigned red = ink(0) * key / 255, green = ink(1) * key / 255, blue = ink(2) * key / 255;
    pixels.bytes[i * 3] = static_cast<std::uint8_t>(red);
    pixels.bytes[i * 3 + 1] = static_cast<std::uint8_t>(green);
    pixels.bytes[i * 3 + 2] = static_cast<std::uint8_t>(blue);
  }
  pixels.bytes.resize(count * 3);
  pixels.channels = 3;
}

} // namespace

namespace {

// What stands in a start of frame: precision, height, width, components (ITU-T T.81, B.2.2).
Parsed<JpegFrame> read_frame(const JpegSegment& segment) {
  // Baseline, extended and progressive; the rest PDF readers need not know (ISO 32000-1, 7.4.8).
  if (segment.marker > 0xc2) return damaged("it is of a rare kind");
  if (segment.body.size() < 6 || byte_at(segment.body, 0) != 8)
    return damaged("its samples are not 8 bits");
  JpegFrame frame;
  frame.height = static_cast<int>(word_at(segment.body, 1));
  frame.width = static_cast<int>(word_at(segment.body, 3));
  frame.components = static_cast<int>(byte_at(segment.body, 5));
  if (frame.width == 0 || frame.height == 0) return damaged("it has no size");
  if (static_cast<std::int64_t>(frame.width) * frame.height > most_pixels)
    return damaged(fmt::format("{} × {} pixels are too many", frame.width, frame.height));
  if (frame.components != 1 && frame.components != 3 && frame.components != 4)
    return damaged(fmt::format("it has {} components", frame.components));
  return frame;
}

} // namespace

Parsed<JpegFrame> jpeg_frame(std::string_view bytes) {
  if (bytes.size() < 4 || word_at(bytes, 0) != 0xffd8) return damaged("it is no JPEG");
  JpegFrame frame;
  bool adobe = false;
  JpegSegments segments(bytes);
  while (const auto segment = segments.next()) {
    adobe = adobe || segment->is_adobe();
    if (segment->is_frame()) {
      const Parsed<JpegFrame> read = read_frame(*segment);
      if (!read) return read.parse_error();
      frame = *read;
    }
    if (!segment->begins_data()) continue;
    if (frame.width == 0) return damaged("its frame is missing");
    // The end marker cannot stand inside the data. It need not be the last thing: some cameras
    // add bytes after it. A small preview before the data has one of its own.
    if (bytes.find("\xff\xd9", segments.at()) == std::string_view::npos)
      return damaged("it is cut short");
    frame.inverted = adobe && frame.components == 4;
    return frame;
  }
  const bool lost = segments.at() + 4 <= bytes.size() && byte_at(bytes, segments.at()) != 0xff;
  return damaged(lost ? "a marker is missing" : "it is cut short");
}

Parsed<Pixels> decode_jpeg(std::string_view bytes) {
  const Parsed<JpegFrame> frame = jpeg_frame(bytes);
  if (!frame) return frame.parse_error();
  Pixels pixels;
  jpeg_decompress_struct info{};
  JumpingError error;
  info.err = jpeg_std_error(&error.manager);
  info.client_data = &error; // kept by jpeg_create_decompress
  error.manager.error_exit = jump_back;
  error.manager.emit_message = keep_silent;
  const bool read = read_into(bytes, pixels, info, error);
  jpeg_destroy_decompress(&info);
  if (!read) return damaged(error.message);
  if (pixels.channels == 4) cmyk_to_rgb(pixels, (*frame).inverted);
  return pixels;
}

std::string without_exif(std::string_view jpeg) {
  std::string out(jpeg.substr(0, 2));
  JpegSegments segments(jpeg);
  while (const auto segment = segments.next()) {
    if (!segment->is_exif()) out += segment->whole;
    if (segment->begins_data()) break;
  }
  return out += jpeg.substr(std::min(segments.at(), jpeg.size()));
}

Pixels upright(Pixels pixels, int orientation) {
  if (orientation < 2 || orientation > 8) return pixels;
  const bool lies = orientation > 4;
  Pixels out;
  out.width = lies ? pixels.height : pixels.width;
  out.height = lies ? pixels.width : pixels.height;
  out.channels = pixels.channels;
  out.bytes.resize(pixels.bytes.size());
  const int right = pixels.width - 1, bottom = pixels.height - 1;
  for (int y = 0; y < out.height; ++y)
    for (int x = 0; x < out.width; ++x) {
      int from_x = lies ? y : x, from_y = lies ? x : y;
      if (orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8)
        from_x = right - from_x;
      if (orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7)
        from_y = bottom - from_y;
      const auto offset = [&](int px, int py, int width) {
        return (static_cast<std::ptrdiff_t>(py) * width + px) * out.channels;
      };
      std::copy_n(pixels.bytes.begin() + offset(from_x, from_y, pixels.width), out.channels,
                  out.bytes.begin() + offset(x, y, out.width));
    }
  return out;
}

Parsed<Pixels> decode(const Picture& picture) {
  Parsed<Pixels> pixels =
      picture.kind == Picture::Kind::Png ? decode_png(picture.bytes) : decode_jpeg(picture.bytes);
  if (pixels) return upright(std::move(pixels).value(), picture.orientation);
  ParseError why = pixels.parse_error();
  why.found = picture.path + ": " + why.found;
  return why;
}

namespace {

struct ImageGuard {
  png_image image{};
  ImageGuard() { image.version = PNG_IMAGE_VERSION; }
  ~ImageGuard() { png_image_free(&image); }
  ImageGuard(const ImageGuard&) = delete;
  ImageGuard& operator=(const ImageGuard&) = delete;
};

ParseError damaged_png(std::string why) {
  return {0, 0, "a PNG that cannot be read: " + std::move(why), "a whole PNG picture",
          "open it in a picture program and save it again as PNG"};
}

} // namespace

Parsed<Pixels> decode_png(std::string_view bytes) {
  ImageGuard guard;
  png_image& image = guard.image;
  if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0)
    return damaged_png(image.message);
  if (static_cast<std::int64_t>(image.width) * image.height > most_pixels)
    return damaged_png(fmt::format("{} × {} pixels are too many", image.width, image.height));
  Pixels pixels;
  pixels.width = static_cast<int>(image.width);
  pixels.height = static_cast<int>(image.height);
  if ((image.format & PNG_FORMAT_FLAG_ALPHA) != 0) {
    image.format = PNG_FORMAT_RGBA;
    pixels.channels = 4;
  } else if ((image.format & PNG_FORMAT_FLAG_COLOR) == 0) {
    image.format = PNG_FORMAT_GRAY;
    pixels.channels = 1;
  } else {
    image.format = PNG_FORMAT_RGB;
  }
  pixels.bytes.resize(PNG_IMAGE_SIZE(image));
  if (png_image_finish_read(&image, nullptr, pixels.bytes.data(), 0, nullptr) == 0)
    return damaged_png(image.message);
  return pixels;
}

} // namespace leafwright::picture
