#include "output/internal/pdf/navigation.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

using namespace leafwright;

namespace {

std::string labels(const std::vector<const char*>& texts) {
  std::vector<page::LaidPage> pages;
  for (const char* text : texts) {
    page::LaidPage page;
    page.label = text;
    pages.push_back(page);
  }
  return pdf::page_labels(pages);
}

} // namespace

TEST_CASE("pages 1, 2, 3 need no labels") { CHECK(labels({"1", "2", "3"}) == ""); }

TEST_CASE("front matter in roman figures, then the text from 1") {
  CHECK(labels({"i", "ii", "iii", "1", "2"}) == "/PageLabels<</Nums[0<</S/r>>3<</S/D>>]>>");
}

TEST_CASE("numbering may start anywhere, with a prefix, in capitals") {
  CHECK(labels({"7", "8", "A-3", "A-4", "IX", "X"}) ==
        "/PageLabels<</Nums[0<</S/D/St 7>>2<</S/D/P(A-)/St 3>>4<</S/R/St 9>>]>>");
}

TEST_CASE("an unnumbered cover and words are labels as they stand") {
  CHECK(labels({"", "Cover", "1"}) == "/PageLabels<</Nums[0<<>>1<</P(Cover)>>2<</S/D>>]>>");
}

TEST_CASE("a repeated or skipped number begins anew") {
  CHECK(labels({"1", "1", "3"}) == "/PageLabels<</Nums[0<</S/D>>1<</S/D>>2<</S/D/St 3>>]>>");
}
