#pragma once

#include "measure/shape.h"

#include <algorithm>
#include <bit>
#include <compare>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

// Telling values apart by what they hold, to find again what was made from them. For this run
// of the program only: no file holds a fingerprint, and it is no protection against malice.

namespace leafwright {

// 128 bits, so that two different things never meet by chance.
struct Fingerprint {
  std::uint64_t high = 0, low = 0;
  friend auto operator<=>(const Fingerprint&, const Fingerprint&) = default;
};

// Gathers values; more kinds of them by overloads of `feed(Fingerprinter&, const T&)`, found by
// their argument.
class Fingerprinter {
 public:
  template <class... Ts>
  Fingerprinter& put(const Ts&... values) {
    (one(values), ...);
    return *this;
  }
  Fingerprint result() const { return sums_; }

 private:
  template <class T>
  requires std::integral<T> || std::is_enum_v<T>
  void one(T value) { add(static_cast<std::uint64_t>(value)); }
  void one(double value) { add(std::bit_cast<std::uint64_t>(value)); }
  void one(std::string_view text) {
    add(text.size());
    while (!text.empty()) {
      std::uint64_t word = 0;
      const std::size_t bytes = std::min(text.size(), sizeof word);
      std::memcpy(&word, text.data(), bytes);
      add(word);
      text.remove_prefix(bytes);
    }
  }
  void one(const std::string& text) { one(std::string_view(text)); }
  void one(Length a) { one(a.nm); }
  void one(Angle a) { one(a.udeg); }
  void one(Point p) { put(p.x, p.y); }
  void one(Size s) { put(s.width, s.height); }
  void one(Rect r) { put(r.origin, r.size); }
  void one(Fingerprint f) { put(f.high, f.low); }
  template <class T>
  void one(const std::optional<T>& maybe) {
    one(maybe.has_value());
    if (maybe) one(*maybe);
  }
  template <class T>
  void one(const std::vector<T>& all) {
    one(all.size());
    for (const T& each : all) one(each);
  }
  template <class T>
  requires requires(Fingerprinter& to, const T& value) { feed(to, value); }
  void one(const T& value) { feed(*this, value); }

  // Two multiply-and-fold sums that share nothing; the constants are odd numbers of many bits
  // (digits of the golden ratio and of pi).
  void add(std::uint64_t value) {
    sums_.high = fold(sums_.high ^ value, 0x9e3779b97f4a7c15ULL);
    sums_.low = fold(sums_.low + value, 0x243f6a8885a308d3ULL);
  }
  __extension__ using Wide = unsigned __int128;
  static std::uint64_t fold(std::uint64_t a, std::uint64_t by) {
    const Wide product = static_cast<Wide>(a ^ (by >> 7U)) * by + (a >> 3U) + by;
    return static_cast<std::uint64_t>(product) ^ static_cast<std::uint64_t>(product >> 64U);
  }

  Fingerprint sums_{0x452821e638d01377ULL, 0xbe5466cf34e90c6cULL};
};

} // namespace leafwright
