#pragma once

#include "output/internal/deflate/deflate.h"
#include "output/internal/pdf/haru.h"
#include "output/pdf.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>

namespace leafwright::pdf {

// The information dictionary and the XMP stream (ISO 16684-1) say the same.
std::string information(const page::Laid& laid, const PdfOptions& options,
                        const Personal& personal = {});
std::string xmp(const page::Laid& laid, const PdfOptions& options, const Personal& personal = {});
// An XMP packet that says only for whom a page was made.
std::string page_xmp(const Personal& personal);
// Laid::created, else the option's date.
std::optional<std::int64_t> created(const page::Laid& laid, const PdfOptions& options);

// 32 hexadecimal digits that follow from what is fed to it: the same document, the same identity.
class Identity {
 public:
  void feed(std::string_view bytes);
  std::string hexadecimal() const;

 private:
  std::uint64_t first_ = 14695981039346656037ULL; // FNV-1a, 64 bits, and one with another start
  std::uint64_t second_ = 0x9e3779b97f4a7c15ULL;
};

struct AttachedFiles {
  std::string names;      // entry of the catalogue's Names dictionary
  std::string associated; // entry of the catalogue
};

// Adds files as embedded file streams (ISO 32000-1, 7.11.4); both entries are empty when there are
// none.
AttachedFiles add_attachments(Haru& haru, std::span<const provenance::Attachment> attachments,
                              const Packing& packing);

} // namespace leafwright::pdf
