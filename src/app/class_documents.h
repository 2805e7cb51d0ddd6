#pragma once

#include "app/documents.h"

namespace leafwright::app {

// The tutorial for everybody, or as one tier's buyers (Audience::tier) or a fellow teacher
// (Audience::students) get it.
Made make_tutorial(const Prepared& prepared, const Workshop& workshop);
// The same as one page for a browser.
Made make_html(const Prepared& prepared, const Workshop& workshop);
// The tutorial of each tier that holds it.
Made make_editions(const Prepared& prepared, const Workshop& workshop);
// A sheet of paper a card: one set for students, one for the teacher.
Made make_handouts(const Prepared& prepared, const Workshop& workshop);

} // namespace leafwright::app
