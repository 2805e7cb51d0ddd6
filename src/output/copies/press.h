#pragma once

#include "measure/parsed.h"
#include "output/pdf/document.h"
#include "output/pdf/parts.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <span>
#include <string>
#include <vector>

// Personal copies: one laid-out document, written once, then stamped for each buyer. Only the
// stamps, their font and the metadata differ; everything else is copied as it is.

namespace leafwright::copies {

// For whom a copy is; what is empty is left out.
using Recipient = pdf::Personal;

class Press {
 public:
  // Keeps references to `laid` and `fonts`.
  static Parsed<Press> made(const page::Laid& laid, const text::Fonts& fonts,
                            std::span<const Picture> pictures, const pdf::PdfOptions& options);

  // Pages (from 0) whose foot is too full for a stamp that keeps clear of what is printed there and
  // of the edge that printers leave white.
  const std::vector<int>& pages_without_room() const { return crowded_; }
  // Characters of the stamp that the font does not have.
  std::vector<char32_t> missing(const Recipient& recipient) const;
  // Whether the stamp fits across the narrowest page in a size that can be read.
  bool fits(const Recipient& recipient) const;

  // The same bytes for the same recipient.
  Parsed<std::string> copy(const Recipient& recipient) const;

 private:
  Press(const page::Laid& laid, const text::Fonts& fonts, pdf::PdfOptions options)
      : laid_(&laid), fonts_(&fonts), options_(std::move(options)) {}
  Length size_for(const std::string& words) const;

  const page::Laid* laid_;
  const text::Fonts* fonts_;
  pdf::PdfOptions options_;
  pdf::Slots slots_;
  pdf::Parts parts_;
  std::vector<Length> baselines_; // by page
  std::vector<int> crowded_;
};

// "Prepared for Ada Quill · order 1043 · Edition 3".
std::string stamp_words(const Recipient& recipient);

} // namespace leafwright::copies
