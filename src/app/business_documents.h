#pragma once

#include "app/documents.h"

namespace leafwright::app {

// Rows of documents.cpp: what sells the class, and what it earns.

// For everybody, and in team/ another of the tiers that are for the team alone: PDF, a PNG of
// each page, a web page and plain text.
Made make_offer(const Prepared& prepared, const Workshop& workshop);
// In private/: PDF, CSV and JSON.
Made make_money(const Prepared& prepared, const Workshop& workshop);

} // namespace leafwright::app
