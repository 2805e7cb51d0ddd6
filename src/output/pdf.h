#pragma once

#include "basics/parsed.h"
#include "basics/reuse.h"
#include "model/project.h"
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

// Where a document comes from, written into the document itself: which edition of which project,
// and a digest of everything it was made from, so that it can be told later whether it is current.

namespace leafwright::digest {

// SHA-256 (FIPS 180-4) of bytes, as 64 lower-case hexadecimal digits.
std::string sha256(std::string_view bytes);

} // namespace leafwright::digest

namespace leafwright::provenance {

struct Input {
  std::string name;   // as the project names it; never a path of the machine
  std::string sha256; // of its bytes, 64 hexadecimal digits
  friend bool operator==(const Input&, const Input&) = default;
};

struct Provenance {
  std::string project;               // the project's id
  std::string document;              // the verb that made it: "tutorial"
  std::string edition;               // the project's edition number
  std::string program;               // version of the program
  std::vector<std::string> settings; // what the command line changed: "mat.width=4in", "paper=a4"
  std::vector<Input> inputs;         // project file first, pictures, page template
  friend bool operator==(const Provenance&, const Provenance&) = default;
};

// SHA-256 of all of it but the program: two documents with one digest were made from the same
// things with the same settings.
std::string content_digest(const Provenance& provenance);

// A file carried inside a document (ISO 32000-1, 7.11.4).
struct Attachment {
  std::string name;        // "project.xml"
  std::string type;        // its media type: "application/xml"
  std::string description; // one line
  std::string bytes;
};

// The provenance as properties for an XMP packet: the elements alone, in the namespace below, whose
// prefix is "made".
inline constexpr const char* xmp_namespace = "urn:leafwright:provenance:1";
std::string xmp_properties(const Provenance& provenance);

struct Embedded {
  std::optional<Provenance> provenance; // nothing: the document carries none
  std::string digest;                   // as written into it, to hold against content_digest
  std::string title;
  std::vector<Attachment> attachments;
};

// What a PDF says about where it comes from. A file that is no PDF, or a locked one that does not
// open with `password`, is a misread.
Parsed<Embedded> read_provenance(const std::string& pdf, const std::string& password = {});

} // namespace leafwright::provenance

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

// How hard streams are deflated: as small as is worth the time, or quickly and some 8 % larger, for
// a file that is soon made again.
enum class Deflate { Small, Quick };

struct PdfOptions {
  // Seconds since 1970, UTC, when Laid::created is not set: the app passes SOURCE_DATE_EPOCH here.
  // Without either the file carries no date, so that the same project gives the same bytes.
  std::optional<std::int64_t> created;
  std::string producer = "Leafwright";
  bool compress = true; // page contents, fonts and pictures; off to read the file by eye
  Deflate effort = Deflate::Small;
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
  // Each of them deflated; what is not known yet on all cores.
  std::vector<std::string> deflated_all(std::span<const std::string> data, Deflate effort);
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
