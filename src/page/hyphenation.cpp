#include "page/hyphenation.h"

#include "measure/letters.h"

#include <hyphen.h>
#include <linebreak.h>

#include <array>
#include <cstdlib>

namespace leafwright::page {

struct Hyphenation::Inside {
  struct FreeDictionary {
    void operator()(HyphenDict* dictionary) const { hnj_hyphen_free(dictionary); }
  };
  std::unique_ptr<HyphenDict, FreeDictionary> dictionary;
};

Hyphenation::Hyphenation() : inside_(std::make_unique<Inside>()) {}
Hyphenation::Hyphenation(const std::string& dictionary_file) : Hyphenation() {
  inside_->dictionary.reset(hnj_hyphen_load(dictionary_file.c_str()));
}
Hyphenation::Hyphenation(Hyphenation&&) noexcept = default;
Hyphenation& Hyphenation::operator=(Hyphenation&&) noexcept = default;
Hyphenation::~Hyphenation() = default;

bool Hyphenation::loaded() const { return inside_ && inside_->dictionary; }

std::vector<std::size_t> Hyphenation::points(std::string_view word) const {
  std::vector<std::size_t> result;
  constexpr std::size_t longest = 80; // no English word; keeps libhyphen's buffers small
  if (!loaded() || word.size() < 5 || word.size() > longest) return result;
  const std::string lower = small_letters(word);
  std::array<char, longest + 8> marks{};
  std::array<char, 2 * longest + 8> hyphenated{};
  char** replacements = nullptr;
  int* positions = nullptr;
  int* cuts = nullptr;
  const int failed = hnj_hyphen_hyphenate3(
      inside_->dictionary.get(), lower.c_str(), static_cast<int>(lower.size()), marks.data(),
      hyphenated.data(), &replacements, &positions, &cuts, 2, 3, 2, 3);
  // Without spelling changes: an odd mark behind a character allows a hyphen there. The marks count
  // characters; words with more than one byte a character are left whole rather than cut wrongly.
  const bool plain = [&] {
    for (const char c : lower)
      if (static_cast<unsigned char>(c) >= 0x80) return false;
    return true;
  }();
  if (failed == 0 && plain)
    for (std::size_t i = 0; i + 1 < lower.size(); ++i)
      if ((marks[i] & 1) != 0 && (replacements == nullptr || replacements[i] == nullptr))
        result.push_back(i + 1);
  if (replacements != nullptr)
    for (std::size_t i = 0; i + 1 < lower.size(); ++i) std::free(replacements[i]);
  std::free(replacements);
  std::free(positions);
  std::free(cuts);
  return result;
}

Hyphenation system_hyphenation(std::string_view language) {
  std::string name(language);
  for (char& c : name)
    if (c == '-') c = '_';
  const std::string folder = "/usr/share/hyphen/hyph_"; // Debian's place for them
  Hyphenation exact(folder + name + ".dic");
  if (exact.loaded()) return exact;
  if (name.starts_with("en")) return Hyphenation(folder + "en_US.dic");
  return {};
}

std::vector<bool> break_opportunities(std::string_view utf8) {
  // The library builds its look-up table once, for all.
  static const bool ready = [] {
    init_linebreak();
    return true;
  }();
  std::vector<bool> result(utf8.size(), false);
  if (!ready || utf8.empty()) return result;
  std::string breaks(utf8.size(), '\0');
  set_linebreaks_utf8(reinterpret_cast<const utf8_t*>(utf8.data()), utf8.size(), "en",
                      breaks.data());
  for (std::size_t i = 0; i < utf8.size(); ++i)
    result[i] = breaks[i] == LINEBREAK_ALLOWBREAK || breaks[i] == LINEBREAK_MUSTBREAK;
  return result;
}

} // namespace leafwright::page
