#pragma once

#include "guide/prose/prose.h"
#include "guide/prose/telling.h"

namespace leafwright::guide {

// The author's own words with measures and names filled in. A name of a thing gets its article when
// the author left it out: "Tape {mat}" -> "Tape the dotted mat (C)"; "the stamped {mat}" stays.
Inlines author_text(const Telling& telling, const AuthorText& text);
// The same where no card is meant (the project's introduction).
Inlines author_text(const Project& project, const AuthorText& text);

} // namespace leafwright::guide
