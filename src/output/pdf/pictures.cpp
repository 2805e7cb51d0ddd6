#include "output/pdf/pictures.h"

#include "measure/index.h"
#include "output/pdf/pack.h"
#include "output/picture/picture.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::pdf {
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

Ref add_pixels(Haru& haru, const picture::Pixels& pixels, bool compress, Kept* kept) {
  const auto count = as_index(pixels.width) * as_index(pixels.height);
  const auto* raw = reinterpret_cast<const char*>(pixels.bytes.data());
  std::string entries =
      image_entries(pixels.width, pixels.height, pixels.channels == 1 ? "DeviceGray" : "DeviceRGB");
  if (pixels.channels != 4)
    return add_packed(haru, std::move(entries), {raw, pixels.bytes.size()}, compress, kept);
  std::string colour(count * 3, '\0'), alpha(count, '\0');
  for (std::size_t i = 0; i < count; ++i) {
    std::copy_n(raw + i * 4, 3, colour.data() + i * 3);
    alpha[i] = raw[i * 4 + 3];
  }
  if (std::any_of(alpha.begin(), alpha.end(), [](char a) { return a != '\xff'; })) {
    const Ref mask = add_packed(haru, image_entries(pixels.width, pixels.height, "DeviceGray"),
                                alpha, compress, kept);
    entries += "/SMask " + ref_text(mask);
  }
  return add_packed(haru, std::move(entries), colour, compress, kept);
}

} // namespace

Parsed<Ref> add_picture(Haru& haru, const Picture& picture, bool compress, Kept* kept) {
  if (picture.kind == Picture::Kind::Jpeg) {
    const Parsed<picture::JpegFrame> frame = picture::jpeg_frame(picture.bytes);
    if (frame) return add_jpeg(haru, picture, *frame);
    Misread why = frame.misread();
    why.found = picture.path + ": " + why.found;
    return why;
  }
  const Parsed<picture::Pixels> pixels = picture::decode(picture);
  if (!pixels) return pixels.misread();
  return add_pixels(haru, *pixels, compress, kept);
}

} // namespace leafwright::pdf
