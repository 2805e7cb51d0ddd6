#pragma once

#include "guide/prose/prose.h"
#include "guide/prose/telling.h"

#include <string>

namespace leafwright::guide {

// How the base becomes a card: scored, folded, burnished, or cut when it has no fold.
// `named`: the base has been named in this step already.
Prose base_words(const Telling& telling, bool named);
std::string base_title(const Card& card); // "Fold the base", "Fold the gates", "Cut the tag"
bool has_fold(const Card& card);

} // namespace leafwright::guide
