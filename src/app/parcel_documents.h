#pragma once

#include "app/documents.h"

namespace leafwright::app {

// From the orders to the post, and the class in a room. What names buyers is made in a folder of
// its own, "private/", so that it is not handed on by mistake.
Made make_packing_slips(const Prepared& prepared, const Workshop& workshop);
Made make_labels(const Prepared& prepared, const Workshop& workshop);
Made make_totals(const Prepared& prepared, const Workshop& workshop);
Made make_calendar(const Prepared& prepared, const Workshop& workshop);
Made make_run_sheet(const Prepared& prepared, const Workshop& workshop);

} // namespace leafwright::app
