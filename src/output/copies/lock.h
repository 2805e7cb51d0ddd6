#pragma once

#include "measure/parsed.h"

#include <string>
#include <string_view>

namespace leafwright::copies {

// How a copy is locked. Passwords are kept here and nowhere else: they are never printed.
struct Lock {
  std::string owner_password; // changes what is allowed
  std::string open_password;  // asked for when opening; empty: opens by itself
  bool print = true, copy = false, annotate = false, change = false;
};

// Reads lines of "owner-password: ...", "open-password: ..." and "allow: print copy annotate
// change" (or "allow: nothing"). Lines that are blank or begin with # are passed over. A misread
// names the line, and never what stands in it.
Parsed<Lock> read_lock(std::string_view text);

// Encrypted with AES-256 (ISO 32000-2, 7.6, revision 6). Never the same bytes twice: the keys are
// random. Reading aloud is always allowed.
Parsed<std::string> locked(const std::string& pdf, const Lock& lock);

} // namespace leafwright::copies
