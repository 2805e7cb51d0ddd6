#pragma once

#include "guide/block.h"
#include "page/layout.h"
#include "text/fonts.h"

#include <cstdint>
#include <string>
#include <vector>

// Documents for the tests of the page engine: one like a whole booklet, and random ones.

namespace leafwright::page::sample {

// Same numbers on every machine (Marsaglia's xorshift, 2003).
class Dice {
 public:
  explicit Dice(std::uint64_t start) : state_(start * 2654435761U + 88172645463325252U) {}
  std::uint64_t next() {
    state_ ^= state_ << 13U;
    state_ ^= state_ >> 7U;
    state_ ^= state_ << 17U;
    return state_;
  }
  int below(int limit) { return static_cast<int>(next() % static_cast<std::uint64_t>(limit)); }
  int between(int low, int high) { return low + below(high - low + 1); }

 private:
  std::uint64_t state_;
};

text::Fonts fonts();
Template booklet();
guide::Inlines words(std::string text);
std::string babble(Dice& dice, int words);
// A plain card with a mat on it, and the mat's width as a dimension.
figure::Scene card_scene(Size size, Length inset, Colour base, Colour mat, bool labelled);
guide::Document booklet_document();
guide::Document random_document(std::uint64_t start, int blocks);

} // namespace leafwright::page::sample
