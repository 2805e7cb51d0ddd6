#include "content_scan.h"
#include "output/copies.h"
#include "output/pdf.h"
#include "sample.h"
#include "ua_rules.h"

#include <doctest/doctest.h>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

using namespace leafwright;

namespace {

std::string written(const page::Laid& laid) {
  pdf::PdfOptions options;
  options.attachments = {{"project.xml", "application/xml", "Source", "<a/>"}};
  const auto bytes = pdf::write_pdf(laid, sample::fonts(), sample::pictures(), options);
  REQUIRE(bytes.ok());
  return *bytes;
}

std::string told(const std::string& pdf) {
  return fmt::format("{}", fmt::join(ua::breaches(pdf), "\n"));
}

page::Node& first_of(page::Laid& laid, std::string_view type) {
  const auto at = std::find_if(laid.nodes.begin(), laid.nodes.end(),
                               [type](const page::Node& node) { return node.type == type; });
  REQUIRE(at != laid.nodes.end());
  return *at;
}

// Whether the rules see a document in which something was broken.
template <class Break>
bool seen(std::string_view words, Break broken) {
  page::Laid laid = sample::document();
  broken(laid);
  return told(written(laid)).find(words) != std::string::npos;
}

} // namespace

TEST_CASE("a document of everything a page can hold keeps the rules of PDF/UA-1") {
  CHECK(told(written(sample::document())) == "");
}

TEST_CASE("a personal copy keeps the rules too") {
  const page::Laid laid = sample::document();
  const auto press = copies::CopyStamper::made(laid, sample::fonts(), sample::pictures(), {});
  REQUIRE(press.ok());
  const auto copy = (*press).copy({"Zoë", "7", "Edition 1"});
  REQUIRE(copy.ok());
  CHECK(told(*copy) == "");
}

TEST_CASE("the rules see what is broken") {
  CHECK(seen("7.3: a figure without a description",
             [](page::Laid& laid) { first_of(laid, "Figure").alternative.clear(); }));
  CHECK(seen("7.3: a figure without a box",
             [](page::Laid& laid) { first_of(laid, "Figure").page = -1; }));
  CHECK(seen("7.5: a header cell without a scope",
             [](page::Laid& laid) { first_of(laid, "TH").scope.clear(); }));
  CHECK(seen("7.4.2: a heading", [](page::Laid& laid) { first_of(laid, "H1").type = "H3"; }));
  CHECK(seen("7.2: no language", [](page::Laid& laid) { laid.language.clear(); }));
  CHECK(seen("7.1: the title is not shown", [](page::Laid& laid) { laid.title.clear(); }));
  CHECK(seen("7.1: no standard type: Panel",
             [](page::Laid& laid) { first_of(laid, "P").type = "Panel"; }));
  CHECK(seen("7.1: no structure tree", [](page::Laid& laid) { laid.nodes.clear(); }));
}

TEST_CASE("content that is neither tagged nor an artefact is found") {
  CHECK(ua::scan_content("/P<</MCID 0>>BDC BT (a \\) BDC) Tj ET EMC /Artifact BMC 0 0 m S EMC")
            .faults.empty());
  CHECK(ua::scan_content("/Span<</MCID 0/ActualText<FEFF0041>>>BDC (\\101) Tj EMC").faults.empty());
  CHECK(ua::scan_content("BT (a) Tj ET").faults.size() == 1);
  CHECK(ua::scan_content("/Artifact BMC /P<</MCID 0>>BDC EMC EMC").faults.size() == 1);
  CHECK(ua::scan_content("/P<</MCID 0>>BDC EMC /P<</MCID 0>>BDC EMC").faults.size() == 1);
  CHECK(ua::scan_content("BT /P<</MCID 0>>BDC (a) Tj ET EMC").faults.size() == 1);
  CHECK(ua::scan_content("/P<</MCID 0>>BDC (a) Tj").faults.size() == 1);
}
