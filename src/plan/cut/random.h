#pragma once

#include <cstdint>

namespace leafwright::cut {

/// Well-mixed numbers that are the same on every machine (splitmix64; Steele, Lea, Flood 2014).
class Draw {
 public:
  explicit Draw(std::uint64_t start) : state_(start) {}

  std::uint64_t next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t x = state_;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
    return x ^ (x >> 31);
  }
  /// 0 to count - 1.
  int below(int count) {
    return static_cast<int>(((next() >> 32) * static_cast<std::uint64_t>(count)) >> 32);
  }
  double unit() { return static_cast<double>(next() >> 11) * 0x1p-53; }

 private:
  std::uint64_t state_;
};

} // namespace leafwright::cut
