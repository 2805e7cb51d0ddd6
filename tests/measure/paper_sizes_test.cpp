#include "show.h"

#include "measure/length.h"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace leafwright;

namespace {

Size sheet(std::string_view name) {
  const auto size = find_size(sheet_sizes(), name);
  if (!size) FAIL("no sheet is called " << std::string(name));
  return *size;
}

Size millimetre_size(std::int64_t width, std::int64_t height) {
  return {millimetres(width), millimetres(height)};
}

} // namespace

// ISO 216, table of trimmed sizes; the series in full as the standard gives it.
TEST_CASE("sheets of the A and B series have the trimmed sizes of ISO 216") {
  const std::vector<std::pair<int, int>> a_series = {
      {841, 1189}, {594, 841}, {420, 594}, {297, 420}, {210, 297}, {148, 210},
      {105, 148},  {74, 105},  {52, 74},   {37, 52},   {26, 37}};
  const std::vector<std::pair<int, int>> b_series = {
      {1000, 1414}, {707, 1000}, {500, 707}, {353, 500}, {250, 353}, {176, 250},
      {125, 176},   {88, 125},   {62, 88},   {44, 62},   {31, 44}};
  for (std::size_t i = 0; i < a_series.size(); ++i) {
    CAPTURE(i);
    CHECK(sheet(fmt::format("A{}", i)) == millimetre_size(a_series[i].first, a_series[i].second));
    CHECK(sheet(fmt::format("B{}", i)) == millimetre_size(b_series[i].first, b_series[i].second));
  }
}

// ISO 216, principles: each size is half of the one before, rounded down to a whole millimetre;
// sides stand as 1 to the square root of 2; A0 has 1 m².
TEST_CASE("each ISO sheet is the one before it cut in half") {
  for (const char series : {'A', 'B'}) {
    for (int i = 0; i < 10; ++i) {
      const Size whole = sheet(fmt::format("{}{}", series, i));
      const Size half = sheet(fmt::format("{}{}", series, i + 1));
      CAPTURE(i);
      CHECK(half.height == whole.width);
      CHECK(half.width.nm == whole.height.nm / 2 / nm_per_mm * nm_per_mm);
      CHECK(std::abs(in_mm(whole.height) - in_mm(whole.width) * std::sqrt(2.0)) < 1.5);
    }
  }
  CHECK(static_cast<double>(area(sheet("A0")).um2) / 1e12 == doctest::Approx(1).epsilon(0.001));
}

// ASME Y14.1: size A is 8.5 x 11 in, size B 11 x 17 in.
TEST_CASE("letter and tabloid have the sizes of ASME Y14.1") {
  CHECK(sheet("letter") == Size{inches(8, 1, 2), inches(11)});
  CHECK(sheet("tabloid") == Size{inches(11), inches(17)});
  CHECK(sheet("legal") == Size{inches(8, 1, 2), inches(14)});
  CHECK(sheet("12x12") == Size{inches(12), inches(12)});
  CHECK(sheet("6x12") == Size{inches(6), inches(12)});
}

// ISO 269, table 1.
TEST_CASE("envelopes have the sizes of ISO 269") {
  const std::pair<std::string_view, Size> table[] = {
      {"C6", millimetre_size(114, 162)},    {"DL", millimetre_size(110, 220)},
      {"C6/C5", millimetre_size(114, 229)}, {"C5", millimetre_size(162, 229)},
      {"C4", millimetre_size(229, 324)},    {"C3", millimetre_size(324, 458)},
      {"B6", millimetre_size(125, 176)},    {"B5", millimetre_size(176, 250)},
      {"B4", millimetre_size(250, 353)},    {"E4", millimetre_size(280, 400)},
  };
  for (const auto& row : table) {
    const auto& name = row.first;
    const auto& size = row.second;
    CAPTURE(name);
    CHECK(find_size(envelope_sizes(), name) == size);
  }
}

// Common practice in the United States; the figures that envelope makers print.
TEST_CASE("announcement envelopes have the sizes that envelope makers print") {
  const std::pair<std::string_view, Size> table[] = {
      {"A2", {inches(4, 3, 8), inches(5, 3, 4)}}, {"A6", {inches(4, 3, 4), inches(6, 1, 2)}},
      {"A7", {inches(5, 1, 4), inches(7, 1, 4)}}, {"A8", {inches(5, 1, 2), inches(8, 1, 8)}},
      {"A9", {inches(5, 3, 4), inches(8, 3, 4)}}, {"A10", {inches(6), inches(9, 1, 2)}},
  };
  for (const auto& row : table) {
    const auto& name = row.first;
    const auto& size = row.second;
    CAPTURE(name);
    CHECK(find_size(envelope_sizes(), name) == size);
  }
}

TEST_CASE("a card slides into the envelope of its name") {
  int pairs = 0;
  for (const NamedSize& card : card_sizes()) {
    const auto envelope = find_size(envelope_sizes(), card.name);
    if (!envelope) continue;
    ++pairs;
    CAPTURE(card.name);
    CHECK(fits(card.size, *envelope));
    CHECK(envelope->width - card.size.width >= inches(0, 1, 8));
    CHECK(envelope->height - card.size.height >= inches(0, 1, 8));
    CHECK(envelope->height - card.size.height <= inches(0, 3, 4));
  }
  CHECK(pairs >= 10);
}

TEST_CASE("an A2 card is a quarter of a letter sheet") {
  const Size letter = sheet("letter");
  CHECK(find_size(card_sizes(), "A2") == Size{letter.width / 2, letter.height / 2});
}

TEST_CASE("every named size is portrait, has a source, and is named once in its table") {
  for (const auto table : {sheet_sizes(), card_sizes(), envelope_sizes()}) {
    for (const NamedSize& one : table) {
      CAPTURE(one.name);
      CHECK(one.size.width > Length{});
      CHECK(one.size.width <= one.size.height);
      CHECK_FALSE(one.source.empty());
      CHECK(find_size(table, one.name) == one.size);
    }
  }
}

TEST_CASE("names are found in capitals or small letters, and A2 means what its table says") {
  CHECK(find_size(sheet_sizes(), "LETTER") == sheet("letter"));
  CHECK(find_size(sheet_sizes(), "a2") == millimetre_size(420, 594));
  CHECK(find_size(card_sizes(), "a2") == Size{inches(4, 1, 4), inches(5, 1, 2)});
  CHECK(find_size(card_sizes(), "C6") == sheet("A6"));
  CHECK_FALSE(find_size(card_sizes(), "A3"));
  CHECK_FALSE(find_size(sheet_sizes(), ""));
}
