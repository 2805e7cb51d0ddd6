#include "output/picture/picture.h"

#include <png.h>

#include <fmt/format.h>

namespace leafwright::picture {
namespace {

struct ImageGuard {
  png_image image{};
  ImageGuard() { image.version = PNG_IMAGE_VERSION; }
  ~ImageGuard() { png_image_free(&image); }
  ImageGuard(const ImageGuard&) = delete;
  ImageGuard& operator=(const ImageGuard&) = delete;
};

Misread damaged(std::string why) {
  return {0, 0, "a PNG that cannot be read: " + std::move(why), "a whole PNG picture",
          "open it in a picture program and save it again as PNG"};
}

} // namespace

Parsed<Pixels> decode_png(std::string_view bytes) {
  ImageGuard guard;
  png_image& image = guard.image;
  if (png_image_begin_read_from_memory(&image, bytes.data(), bytes.size()) == 0)
    return damaged(image.message);
  if (static_cast<std::int64_t>(image.width) * image.height > most_pixels)
    return damaged(fmt::format("{} × {} pixels are too many", image.width, image.height));
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
    return damaged(image.message);
  return pixels;
}

} // namespace leafwright::picture
