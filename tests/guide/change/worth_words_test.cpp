#include "guide/change/internal/report_parts.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::change;
using guide::fact_words;
using guide::refit_words;

namespace {

const Printing inch{Unit::Inch, inches(0, 1, 16), millimetres(1) / 2};

std::string plain(std::string text) { // without no-break spaces
  for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
    text.replace(at, 2, " ");
  return text;
}

} // namespace

TEST_CASE("facts are printed as the project prints them, and nothing as a dash") {
  CHECK(plain(fact_words(FactValue{inches(4, 1, 4)}, inch)) == "4 1/4 in");
  CHECK(plain(fact_words(FactValue{Size{inches(4), inches(5, 1, 4)}}, inch)) == "4 × 5 1/4 in");
  CHECK(plain(fact_words(FactValue{Point{inches(0, 3, 8), inches(1)}}, inch)) ==
        "3/8 in from left, 1 in from top");
  CHECK(fact_words(FactValue{std::int64_t{12}}, inch) == "12");
  CHECK(fact_words(FactValue{std::string()}, inch) == "–");
  CHECK(fact_words(std::nullopt, inch) == "–");
}

TEST_CASE("a change finer than the ruler is not rounded away") {
  const std::string before = fact_words(FactValue{inches(4)}, inch);
  const std::string after = fact_words(FactValue{inches(4) + micrometres(100)}, inch);
  CHECK(before != after);
}

TEST_CASE("what is cut off is told by its edges, equal ones together") {
  Refit refit;
  refit.fate = Fate::Trim;
  refit.right = refit.bottom = inches(0, 1, 4);
  CHECK(plain(refit_words(refit, inch)) == "cut 1/4 in off the right and bottom");
  refit.left = inches(0, 1, 8);
  refit.turned = true;
  CHECK(plain(refit_words(refit, inch)) ==
        "give it a quarter turn and cut 1/8 in off the left and 1/4 in off the right and bottom");
}

TEST_CASE("a lost piece is told why, a good one that it stays") {
  Refit refit;
  refit.loss = Loss::TooSmall;
  refit.narrow = inches(0, 1, 8);
  CHECK(plain(refit_words(refit, inch)) == "1/8 in too narrow");
  refit.loss = Loss::Fold;
  CHECK(refit_words(refit, inch) == "its old fold would show");
  refit.fate = Fate::Good;
  CHECK(refit_words(refit, inch) == "use it as it is");
}

TEST_CASE("a piece is called by its name and its letter") {
  Thing thing;
  thing.name = "dotted mat";
  CHECK(guide::thing_words(thing) == "dotted mat");
  thing.facts.push_back({"letter", std::string("C")});
  CHECK(guide::thing_words(thing) == "dotted mat (C)");
}
