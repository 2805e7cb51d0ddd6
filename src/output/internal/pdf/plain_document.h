#pragma once

#include "output/internal/pdf/embedded_font.h"
#include "output/internal/pdf/metadata.h"
#include "output/pdf.h"

#include <optional>
#include <string>
#include <vector>

namespace leafwright::pdf {

// The objects that differ from one personal copy to the next. Each page shows its stamp after its
// own content, with the font as /Fc, and refers to `page_metadata`.
struct Slots {
  FontRefs font;
  Ref page_metadata, metadata;
  std::vector<Ref> stamps; // one a page
};

struct Plain {
  std::string bytes; // every object by itself
  Slots slots;       // when asked for
};

// The document before its small objects are packed. With `with_slots` the slots are there, empty.
Parsed<Plain> write_plain(const page::Laid& laid, const text::Fonts& fonts,
                          std::span<const Picture> pictures, const PdfOptions& options,
                          bool with_slots);

} // namespace leafwright::pdf
