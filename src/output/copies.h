#pragma once

#include "basics/parsed.h"
#include "output/pdf.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

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

// Personal copies: one laid-out document, written once, then stamped for each buyer. Only the
// stamps, their font and the metadata differ; everything else is copied as it is.

// For whom a copy is; what is empty is left out.
using Recipient = pdf::Personal;

class CopyStamper {
 public:
  // Keeps references to `laid` and `fonts`.
  static Parsed<CopyStamper> made(const page::Laid& laid, const text::Fonts& fonts,
                                  std::span<const Picture> pictures,
                                  const pdf::PdfOptions& options);

  // Pages (from 0) whose foot is too full for a stamp that keeps clear of what is printed there and
  // of the edge that printers leave white.
  const std::vector<int>& pages_without_room() const;
  // Characters of the stamp that the font does not have.
  std::vector<char32_t> missing(const Recipient& recipient) const;
  // Whether the stamp fits across the narrowest page in a size that can be read.
  bool fits(const Recipient& recipient) const;

  // The same bytes for the same recipient.
  Parsed<std::string> copy(const Recipient& recipient) const;

 private:
  struct Slotted; // the document with its empty slots
  explicit CopyStamper(std::shared_ptr<const Slotted> document) : document_(std::move(document)) {}
  std::shared_ptr<const Slotted> document_;
};

// "Prepared for Ada Quill · order 1043 · Edition 3".
std::string stamp_words(const Recipient& recipient);

} // namespace leafwright::copies
