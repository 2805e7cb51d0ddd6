#pragma once

#include <algorithm>
#include <bit>
#include <compare>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

// Finding again what was made before: a value told apart by what it was made from, and a cache of
// such values. For one run of the program only: no file holds a fingerprint, and it is no
// protection against malice.
//
//   const Fingerprint of_job = Fingerprinter().put(job.width, job.letters).result();
//   if (const Plan* known = cache.find(of_job)) return *known;
//   return cache.keep(of_job, made(job));

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

// Values found again by all that they were made from, so that a hit changes no result. A value that
// two rounds in a row had no use for is dropped. Not for two threads at once.
template <class Key, class Value, class Less = std::less<>>
class AgeingCache {
 public:
  // nullptr when it is not there; a pointer is good until next_round().
  template <class Like>
  const Value* find(const Like& key) {
    const auto known = entries_.find(key);
    if (known == entries_.end()) return nullptr;
    known->second.round = round_;
    return &known->second.value;
  }
  const Value& keep(Key key, Value value) {
    return entries_.insert_or_assign(std::move(key), Entry{std::move(value), round_})
        .first->second.value;
  }
  std::size_t size() const { return entries_.size(); }
  // Before everything is made again.
  void next_round() {
    std::erase_if(entries_, [this](const auto& one) { return one.second.round + 1 < round_; });
    ++round_;
  }

 private:
  struct Entry {
    Value value;
    int round = 0;
  };
  std::map<Key, Entry, Less> entries_;
  int round_ = 0;
};

} // namespace leafwright
