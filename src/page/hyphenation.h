#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::page {

// Where a word may be divided, by the patterns of a libhyphen dictionary. Without a dictionary no
// word is ever divided. Move-only.
class Hyphenation {
 public:
  Hyphenation();
  explicit Hyphenation(const std::string& dictionary_file); // not loaded when it cannot be read
  Hyphenation(Hyphenation&&) noexcept;
  Hyphenation& operator=(Hyphenation&&) noexcept;
  ~Hyphenation();

  bool loaded() const;
  // Byte offsets within `word` (letters only, UTF-8) where a hyphen may stand, ascending.
  std::vector<std::size_t> points(std::string_view word) const;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

// The dictionary of a language ("en-US") where Debian's hyphen packages put them; another variety
// of the same language serves when the exact one is missing.
Hyphenation system_hyphenation(std::string_view language);

// Where a line of UTF-8 text may be broken by UAX #14: one entry a byte, true = a line may end
// behind it.
std::vector<bool> break_opportunities(std::string_view utf8);

} // namespace leafwright::page
