#pragma once

#include "output/pdf/haru.h"
#include "output/provenance/provenance.h"

#include <span>
#include <string>

namespace leafwright::pdf {

class Kept;

struct AttachedFiles {
  std::string names;      // entry of the catalogue's Names dictionary
  std::string associated; // entry of the catalogue
};

// Adds files as embedded file streams (ISO 32000-1, 7.11.4); both entries are empty when there are
// none.
AttachedFiles add_attachments(Haru& haru, std::span<const provenance::Attachment> attachments,
                              bool compress, Kept* kept = nullptr);

} // namespace leafwright::pdf
