#pragma once

#include "text/fonts.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

namespace leafwright::pdf {

// What writing a document leaves for the next time: streams deflated, faces cut down to the glyphs
// used. Belongs to one set of fonts. Nothing in it changes what comes out: each is found only by
// all that it is made from. Not for two threads at once.
class Kept {
 public:
  // As deflated_all(); what is not known yet is deflated on all cores.
  std::vector<std::string> deflated_all(std::span<const std::string> data);
  std::string deflated(std::string_view data);
  // As text::subset().
  const std::string& subset(const text::Fonts& fonts, int face,
                            const std::vector<std::uint32_t>& glyphs);

  // Before everything is made again: what the last two rounds had no use for is let go.
  void next_round();

 private:
  struct Entry {
    std::string bytes;
    int round = 0;
  };
  std::unordered_map<std::string, Entry> packed_; // by the data, or its digest; only looked up
  std::map<std::pair<int, std::vector<std::uint32_t>>, Entry> subsets_;
  int round_ = 0;
};

} // namespace leafwright::pdf
