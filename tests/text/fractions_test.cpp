#include "text/fractions.h"

#include <doctest/doctest.h>

#include <string>

using leafwright::text::fractions_in;

namespace {

// The fractions found, each in brackets, so that a failure shows what was taken for one.
std::string marked(std::string_view text) {
  std::string shown;
  for (const auto range : fractions_in(text))
    shown += "[" + std::string(text.substr(range.begin, range.end - range.begin)) + "]";
  return shown;
}

} // namespace

TEST_CASE("a fraction is digits, one slash, digits") {
  CHECK(marked("cut 4 1/4 x 5 13/16 in") == "[1/4][13/16]");
  CHECK(marked("1/2") == "[1/2]");
  CHECK(marked("4-1/4\"") == "[1/4]");
  CHECK(marked("1/2in wide") == "[1/2]");
  CHECK(marked("3\u20448 in") == "[3\u20448]");
}

TEST_CASE("punctuation after a fraction does not hide it") {
  CHECK(marked("is 3/8. Then 1/4, then (5/8)") == "[3/8][1/4][5/8]");
}

TEST_CASE("dates, chains, decimals and sizes with a letter are no fractions") {
  CHECK(marked("12/25/26") == "");
  CHECK(marked("1/2/3/4") == "");
  CHECK(marked("1/2.5 and 0.5/3") == "");
  CHECK(marked("A4/5") == "");
  CHECK(marked("either/or, 5/ and /5") == "");
}
