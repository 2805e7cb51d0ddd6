#include "output/pdf.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

using namespace leafwright;
using tools::run_on;

namespace {

provenance::Provenance orchard() {
  provenance::Provenance from;
  from.project = "orchard-gate";
  from.document = "tutorial";
  from.edition = "3";
  from.program = "0.1";
  from.settings = {"mat.width=4in & 1/8"};
  from.inputs = {{"project.xml", digest::sha256("<a/>")},
                 {"stamps/<tree>.png", digest::sha256("")}};
  return from;
}

std::string written_with(const pdf::PdfOptions& options) {
  const auto bytes =
      pdf::write_pdf(sample::document(), sample::fonts(), sample::pictures(), options);
  REQUIRE(bytes.ok());
  return *bytes;
}

pdf::PdfOptions with_everything() {
  pdf::PdfOptions options;
  options.provenance = orchard();
  options.attachments = {{"project.xml", "application/xml", "What it was made from", "<a>\r\n</a>"},
                         {"Größe.txt", "text/plain", "", std::string(100'000, 'x')}};
  return options;
}

} // namespace

// The examples of FIPS 180-4's companion (NIST, "Descriptions of SHA-256"): one block, two blocks;
// the empty text and a million letters are from the same series.
TEST_CASE("SHA-256 gives the published digests") {
  CHECK(digest::sha256("abc") ==
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(digest::sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(digest::sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  CHECK(digest::sha256(std::string(1'000'000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("SHA-256 agrees with sha256sum at every length around a block's end") {
  for (std::size_t length = 53; length < 68; ++length) {
    const std::string text(length, static_cast<char>('0' + length % 10));
    CHECK(run_on(text, "sha256sum {}", ".txt").output.substr(0, 64) == digest::sha256(text));
  }
}

TEST_CASE("a document says where it comes from") {
  const auto read = provenance::read_provenance(written_with(with_everything()));
  REQUIRE(read.ok());
  REQUIRE((*read).provenance.has_value());
  CHECK(*(*read).provenance == orchard());
  CHECK((*read).digest == provenance::content_digest(orchard()));
  CHECK((*read).title == "Orchard Gate – a tutorial");
}

TEST_CASE("files inside a document come out as they went in") {
  const std::string bytes = written_with(with_everything());
  const auto read = provenance::read_provenance(bytes);
  REQUIRE(read.ok());
  REQUIRE((*read).attachments.size() == 2);
  CHECK((*read).attachments[0].name == "Größe.txt"); // a name tree is sorted
  CHECK((*read).attachments[1].bytes == "<a>\r\n</a>");
  CHECK((*read).attachments[1].type == "application/xml");
  CHECK((*read).attachments[1].description == "What it was made from");
  // Witnesses: poppler and qpdf find the same file.
  CHECK(run_on(bytes, "pdfdetach -list {}").output.find("2 embedded files") == 0);
  CHECK(run_on(bytes, "qpdf --show-attachment=project.xml {}").output == "<a>\r\n</a>");
  CHECK(run_on(bytes, "qpdf --check {}").status == 0);
}

TEST_CASE("a document that carries nothing says so") {
  const auto read = provenance::read_provenance(written_with({}));
  REQUIRE(read.ok());
  CHECK_FALSE((*read).provenance.has_value());
  CHECK((*read).attachments.empty());
}

TEST_CASE("what is no PDF is refused with a reason") {
  const auto read = provenance::read_provenance("a letter to a friend");
  REQUIRE_FALSE(read.ok());
  CHECK(read.parse_error().found.find("cannot be read as a PDF") != std::string::npos);
}

TEST_CASE(
    "any change of an input or a setting changes the digest, the program's version does not") {
  const std::string before = provenance::content_digest(orchard());
  provenance::Provenance other = orchard();
  other.program = "9";
  CHECK(provenance::content_digest(other) == before);
  other = orchard();
  other.inputs[1].sha256[0] = 'f';
  CHECK(provenance::content_digest(other) != before);
  other = orchard();
  other.settings.clear();
  CHECK(provenance::content_digest(other) != before);
  // Moving a letter from one part to the next is a change too.
  other = orchard();
  other.project = "orchard-gat";
  other.document = "etutorial";
  CHECK(provenance::content_digest(other) != before);
}
