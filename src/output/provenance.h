#pragma once

#include "measure/parsed.h"

#include <optional>
#include <string>
#include <vector>

// Where a document comes from, written into the document itself: which edition of which project,
// and a digest of everything it was made from, so that it can be told later whether it is current.

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
