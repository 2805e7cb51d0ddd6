#include "output/html/html.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::html;

// WCAG 2.2: black on white is 21 : 1; #767676 on white is the palest grey that passes 4.5 : 1
// (4.54, common knowledge, worked out by hand from the formula).
TEST_CASE("contrast is as WCAG has it") {
  CHECK(contrast_ratio({0, 0, 0}, {255, 255, 255}) == doctest::Approx(21.0));
  CHECK(contrast_ratio({0x76, 0x76, 0x76}, {255, 255, 255}) ==
        doctest::Approx(4.54).epsilon(0.002));
  CHECK(contrast_ratio({255, 255, 255}, {0x77, 0x77, 0x77}) < readable);
}

TEST_CASE("a pale colour is darkened until it can be read, a dark one is left alone") {
  const Colour ground{0xf4, 0xef, 0xe4}, yellow{0xf2, 0xc4, 0x1d}, moss{0x3d, 0x5e, 0x49};
  CHECK(contrast_ratio(yellow, ground) < readable);
  const Colour dark = darkened_on(yellow, ground);
  CHECK(contrast_ratio(dark, ground) >= readable);
  CHECK(contrast_ratio(dark, ground) < readable + 0.4);
  CHECK(darkened_on(moss, ground) == moss);
}
