#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

// The segments of a JPEG up to the picture's own data (ITU-T T.81, B.1). A picture is measured
// where it is read and told about where it is written; both walk it here.

namespace leafwright {

struct JpegSegment {
  unsigned marker = 0;    // the byte after 0xFF
  std::string_view whole; // with its marker and length
  std::string_view body;  // what stands behind them
  // Start of frame, of any kind.
  bool is_frame() const {
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
  }
  bool is_exif() const { return marker == 0xE1; } // APP1, which XMP shares
  bool is_adobe() const { return marker == 0xEE && body.starts_with("Adobe"); }
  bool begins_data() const { return marker == 0xDA; }
};

class JpegSegments {
 public:
  explicit JpegSegments(std::string_view jpeg)
      : jpeg_(jpeg), at_(2), sound_(jpeg.starts_with("\xFF\xD8")) {}

  std::size_t at() const { return at_; } // where the next one begins
  // Whether all so far was of segments; when false they end at `at()`.
  bool sound() const { return sound_; }

  // Nothing at the end, where a segment is cut short, and where no marker stands.
  std::optional<JpegSegment> next() {
    while (sound_ && at_ + 4 <= jpeg_.size()) {
      if (byte(at_) != 0xFF) break;
      const unsigned marker = byte(at_ + 1);
      if (marker == 0xFF) { // fill byte
        ++at_;
        continue;
      }
      if (marker == 0x01 || (marker >= 0xD0 && marker <= 0xD8)) { // markers without a length
        at_ += 2;
        continue;
      }
      const std::size_t length = std::size_t{byte(at_ + 2)} << 8U | byte(at_ + 3);
      if (length < 2 || at_ + 2 + length > jpeg_.size()) break;
      const JpegSegment segment{marker, jpeg_.substr(at_, length + 2),
                                jpeg_.substr(at_ + 4, length - 2)};
      at_ += 2 + length;
      return segment;
    }
    sound_ = false;
    return std::nullopt;
  }

 private:
  unsigned byte(std::size_t at) const { return static_cast<unsigned char>(jpeg_[at]); }

  std::string_view jpeg_;
  std::size_t at_;
  bool sound_;
};

} // namespace leafwright
