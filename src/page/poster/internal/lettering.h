#pragma once

#include "guide/figure/drawing.h"

#include <string>
#include <string_view>
#include <vector>

namespace leafwright::poster {

// Words in lines no wider than `width`, filled one after the other. A word that is wider stands
// alone.
std::vector<std::string> lines_of(std::string_view words, text::Role role, Length size,
                                  Length width, const text::Fonts& fonts);
// The largest of the sizes from `most` down to `least`, in steps of a twentieth, at which the words
// stand in at most `most_lines` lines that all keep within the width; `least` when none does.
Length fitting_size(std::string_view words, text::Role role, Length most, Length least,
                    Length width, std::size_t most_lines, const text::Fonts& fonts);

enum class Alignment { Left, Centre };
struct Lettering {
  text::Role role = text::Role::Text;
  Length size, leading;
  Colour colour;
  Alignment stand = Alignment::Left;
};
// Sets the words from `top` down, their lines in [left, left + width]; returns where they end.
Length set_words(Drawing& into, std::string_view words, const Lettering& how, Length left,
                 Length width, Length top, const text::Fonts& fonts);

} // namespace leafwright::poster
