#include "output/pdf/pdf.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

using namespace leafwright;
using tools::run_on;

namespace {

std::string written(const pdf::PdfOptions& options = {}) {
  const Parsed<std::string> bytes =
      pdf::write_pdf(sample::document(), sample::fonts(), sample::pictures(), options);
  REQUIRE_MESSAGE(bytes.ok(), (bytes.ok() ? "" : bytes.misread().found));
  return *bytes;
}

} // namespace

TEST_CASE("qpdf finds nothing wrong with the file") {
  const auto check = run_on(written(), "qpdf --check {}");
  CHECK_MESSAGE(check.status == 0, check.output);
}
