#include "output/svg/spelling.h"

#include <fmt/format.h>

#include <cmath>

namespace leafwright::svg {
namespace {

// value / unit with as many decimals as it takes; unit is a power of ten.
void append_quotient(std::string& out, std::int64_t value, std::int64_t unit) {
  if (value < 0) {
    out.push_back('-');
    value = -value;
  }
  fmt::format_to(std::back_inserter(out), "{}", value / unit);
  std::int64_t rest = value % unit;
  if (rest != 0) out.push_back('.');
  while (rest != 0) {
    unit /= 10;
    out.push_back(static_cast<char>('0' + rest / unit));
    rest %= unit;
  }
}

} // namespace

void append_mm(std::string& out, Length a) { append_quotient(out, a.nm, nm_per_mm); }

void append_real(std::string& out, double value, int decimals) {
  constexpr double largest = 1e9;
  if (!std::isfinite(value) || std::abs(value) > largest) value = 0;
  std::int64_t unit = 1;
  for (int i = 0; i < decimals; ++i) unit *= 10;
  append_quotient(out, std::llround(value * static_cast<double>(unit)), unit);
}

std::string path_data(const Path& path, std::int64_t nm_per_unit) {
  std::string out;
  bool begun = false;
  const auto point = [&](Point at) {
    append_quotient(out, at.x.nm, nm_per_unit);
    out.push_back(' ');
    append_quotient(out, at.y.nm, nm_per_unit);
  };
  for (const Segment& segment : path) {
    switch (segment.kind) {
    case Segment::Kind::Move:
      out.push_back('M');
      point(segment.end);
      begun = true;
      break;
    case Segment::Kind::Line:
      out.push_back(begun ? 'L' : 'M');
      point(segment.end);
      begun = true;
      break;
    case Segment::Kind::Curve:
      if (!begun) {
        out.push_back('M');
        point(segment.control1);
      }
      out.push_back('C');
      point(segment.control1);
      out.push_back(' ');
      point(segment.control2);
      out.push_back(' ');
      point(segment.end);
      begun = true;
      break;
    case Segment::Kind::Close:
      if (begun) out.push_back('Z');
      break;
    }
  }
  return out;
}

Length rounded(Length a, std::int64_t step_nm) {
  const std::int64_t half = step_nm / 2;
  return {(a.nm >= 0 ? a.nm + half : a.nm - half) / step_nm * step_nm};
}

std::string rounded_path_data(Path path, std::int64_t step_nm) {
  for (Segment& segment : path)
    for (Point* point : {&segment.control1, &segment.control2, &segment.end})
      *point = {rounded(point->x, step_nm), rounded(point->y, step_nm)};
  return path_data(path);
}

std::string colour(Colour colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view digits =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t k) {
      return i + k < bytes.size() ? static_cast<unsigned>(static_cast<unsigned char>(bytes[i + k]))
                                  : 0U;
    };
    const unsigned group = byte(0) << 16U | byte(1) << 8U | byte(2);
    out.push_back(digits[group >> 18U & 63U]);
    out.push_back(digits[group >> 12U & 63U]);
    out.push_back(i + 1 < bytes.size() ? digits[group >> 6U & 63U] : '=');
    out.push_back(i + 2 < bytes.size() ? digits[group & 63U] : '=');
  }
  return out;
}

} // namespace leafwright::svg
