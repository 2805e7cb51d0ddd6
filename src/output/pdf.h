#pragma once

#include "measure/ageing_cache.h"
#include "measure/parsed.h"
#include "model/project.h"
#include "output/provenance.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// A laid-out document as a tagged PDF 1.7 (ISO 32000-1): text by glyph id with kerning, fonts
// embedded as subsets, vectors in true scale, outline, links, page labels and a structure tree for
// readers who listen.

namespace leafwright::pdf {

// For whom a copy was made; all empty in a document that is nobody's.
struct Personal {
  std::string name, number, edition;
  bool empty() const { return name.empty() && number.empty() && edition.empty(); }
};

class StreamCache;

struct PdfOptions {
  // Seconds since 1970, UTC, when Laid::created is not set: the app passes SOURCE_DATE_EPOCH here.
  // Without either the file carries no date, so that the same project gives the same bytes.
  std::optional<std::int64_t> created;
  std::string producer = "Leafwright";
  bool compress = true; // page contents, fonts and pictures; off to read the file by eye
  // Packs the small objects together: a third less for a tagged booklet. Off, the file is plain
  // enough for old tools and for the eye.
  bool compact = true;
  // What it was made from, kept in its metadata; read back by provenance::read_provenance.
  std::optional<provenance::Provenance> provenance;
  std::vector<provenance::Attachment> attachments; // files carried inside, names all different
  // From writing another document with the same fonts, and for the next one; may be nothing.
  StreamCache* kept = nullptr;
};

// The file's bytes, the same for the same input. Pictures that cannot be read, links that lead
// nowhere and pages beyond what a PDF can hold are misreads; nothing is written to disk here.
Parsed<std::string> write_pdf(const page::Laid& laid, const text::Fonts& fonts,
                              std::span<const Picture> pictures, const PdfOptions& options = {});
// The same; what is drawn on a page is given up once it is written, which thousands of pages take
// far less memory for.
Parsed<std::string> write_pdf(page::Laid&& laid, const text::Fonts& fonts,
                              std::span<const Picture> pictures, const PdfOptions& options = {});

// What writing a document leaves for the next time: streams deflated, faces cut down to the glyphs
// used. Belongs to one set of fonts. Nothing in it changes what comes out: each is found only by
// all that it is made from. Not for two threads at once.
class StreamCache {
 public:
  // As deflated_all(); what is not known yet is deflated on all cores.
  std::vector<std::string> deflated_all(std::span<const std::string> data);
  std::string deflated(std::string_view data);
  // As text::subset().
  const std::string& subset(const text::Fonts& fonts, int face,
                            const std::vector<std::uint32_t>& glyphs);

  // Before everything is made again: what the last two rounds had no use for is let go.
  void next_round() {
    packed_.next_round();
    subsets_.next_round();
  }

 private:
  AgeingCache<std::string, std::string> packed_; // by the data, or its digest
  AgeingCache<std::pair<int, std::vector<std::uint32_t>>, std::string> subsets_;
};

} // namespace leafwright::pdf
