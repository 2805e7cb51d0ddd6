#include "language/agreement.h"
#include "language/english.h"
#include "language/lists.h"
#include "language/weights.h"
#include "language/words.h"

#include <doctest/doctest.h>

#include <chrono>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

// Expected forms are common English usage, from memory, except where a test names a source.

using namespace leafwright::words;

TEST_CASE("an article follows the sound of the next word, not its letter") {
  const std::vector<std::pair<const char*, const char*>> cases{{"hour", "an"},
                                                               {"honest mistake", "an"},
                                                               {"half sheet", "a"},
                                                               {"one-inch strip", "a"},
                                                               {"oval", "an"},
                                                               {"once-folded card", "a"},
                                                               {"uniform edge", "a"},
                                                               {"used stamp", "a"},
                                                               {"usual fold", "a"},
                                                               {"uninked stamp", "an"},
                                                               {"unit", "a"},
                                                               {"umbrella", "an"},
                                                               {"European size", "a"},
                                                               {"embossed panel", "an"},
                                                               {"eucalyptus leaf", "a"},
                                                               {"utensil", "a"},
                                                               {"undyed twine", "an"},
                                                               {"ewe", "a"},
                                                               {"heirloom", "an"},
                                                               {"hedge", "a"},
                                                               {"ink pad", "an"}};
  for (const auto& one : cases) {
    CAPTURE(one.first);
    CHECK(with_article(one.first) == std::string(one.second) + " " + one.first);
  }
}

TEST_CASE("an article follows how a number is spoken") {
  const std::vector<std::pair<const char*, const char*>> cases{
      {"8 in square", "an"}, {"8-inch square", "an"},   {"11 in strip", "an"},
      {"18 in ruler", "an"}, {"80 lb card", "an"},      {"1 in strip", "a"},
      {"110 lb card", "a"},  {"12 × 12 in sheet", "a"}, {"1/8 in border", "a"},
      {"11,000 nm", "an"},   {"180 mm strip", "a"},     {"811 mm roll", "an"},
      {"≈8 in strip", "an"}, {"11\u00A0in strip", "an"}};
  for (const auto& one : cases) {
    CAPTURE(one.first);
    CHECK(with_article(one.first) == std::string(one.second) + " " + one.first);
  }
}

TEST_CASE("letters that are spelled out take the article of their name") {
  CHECK(with_article("A2 card") == "an A2 card");
  CHECK(with_article("C6 card") == "a C6 card");
  CHECK(with_article("SVG file") == "an SVG file");
  CHECK(with_article("U-shaped notch") == "a U-shaped notch");
  CHECK(with_article("“F” stamp") == "an “F” stamp");
  CHECK(with_article("Apple") == "an Apple");
}

TEST_CASE("the definite article is not said twice") {
  CHECK(with_the("front") == "the front");
  CHECK(with_the("the front") == "the front");
  CHECK(with_the("a front") == "the front");
  CHECK(with_the("your own") == "your own");
  CHECK(without_article("The mat") == "mat");
  CHECK(without_article("antler") == "antler");
}

TEST_CASE("plurals of what lies on a craft table") {
  const std::vector<std::pair<const char*, const char*>> cases{
      {"leaf", "leaves"},
      {"half", "halves"},
      {"craft knife", "craft knives"},
      {"die", "dies"},
      {"inch", "inches"},
      {"box", "boxes"},
      {"glass", "glasses"},
      {"berry", "berries"},
      {"tray", "trays"},
      {"cuff", "cuffs"},
      {"photo", "photos"},
      {"lens", "lenses"},
      {"cactus", "cactuses"},
      {"scissors", "scissors"},
      {"linen twine", "linen twine"},
      {"clear domes", "clear domes"},
      {"sheet of kraft", "sheets of kraft"},
      {"piece for card 2", "pieces for card 2"},
      {"foam square, 1.5 mm", "foam squares, 1.5 mm"},
      {"glue dot (small)", "glue dots (small)"}};
  for (const auto& pair : cases) {
    CAPTURE(pair.first);
    CHECK(plural(pair.first) == pair.second);
  }
}

TEST_CASE("a plural name gives back its singular") {
  const std::vector<std::pair<const char*, const char*>> cases{
      {"clear domes", "clear dome"}, {"foam squares", "foam square"},  {"leaves", "leaf"},
      {"berries", "berry"},          {"small brushes", "small brush"}, {"glasses", "glass"},
      {"scissors", "scissors"},      {"glue dots", "glue dot"},        {"glass", "glass"}};
  for (const auto& pair : cases) {
    CAPTURE(pair.first);
    CHECK(singular(pair.first) == pair.second);
  }
}

TEST_CASE("a plural name is known by its end") {
  CHECK(is_plural("five palings"));
  CHECK(is_plural("leaves"));
  CHECK(is_plural("small scissors"));
  CHECK_FALSE(is_plural("rise of grass"));
  CHECK_FALSE(is_plural("canvas"));
  CHECK_FALSE(is_plural("paper"));
}

TEST_CASE("counts are words up to ten and figures beyond") {
  CHECK(count_words(1) == "one");
  CHECK(count_words(10) == "ten");
  CHECK(count_words(11) == "11");
  CHECK(counted(0, "sheet") == "no sheets");
  CHECK(counted(1, "leaf") == "one leaf");
  CHECK(counted(3, "leaf") == "three leaves");
  CHECK(counted(12, "foam square") == "12 foam squares");
  CHECK(figured(2, "sheet") == "2\u00A0sheets");
  CHECK(times_words(1) == "once");
  CHECK(times_words(2) == "twice");
  CHECK(times_words(3) == "three times");
}

TEST_CASE("lists end in and, with a comma only where an and is near") {
  CHECK(listed({}) == "");
  CHECK(listed({"moss"}) == "moss");
  CHECK(listed({"moss", "rust"}) == "moss and rust");
  CHECK(listed({"moss", "rust", "plum"}) == "moss, rust and plum");
  CHECK(listed({"moss", "rust", "black and white"}) == "moss, rust, and black and white");
  CHECK(listed({"tape", "glue"}, "or") == "tape or glue");
}

TEST_CASE("names that share their end are said together") {
  CHECK(listed_together({"left gate panel", "right gate panel"}) == "left and right gate panels");
  CHECK(listed_together({"leaf", "leaf"}) == "leaves");
  CHECK(listed_together({"mat", "tag"}) == "mat and tag");
  CHECK(listed_together({"mat"}) == "mat");
  CHECK(listed_together({"upper leaf", "middle leaf", "lower leaf"}) == "three leaves");
  CHECK(listed_together({"leaf 1", "leaf 2", "leaf 4"}) == "leaves 1, 2 and 4");
  CHECK(listed_together({"panel", "left panel"}) == "panel and left panel");
}

TEST_CASE("a sentence begins with a capital, also behind quotes and beyond ASCII") {
  CHECK(sentence_case("tape it") == "Tape it");
  CHECK(sentence_case("“come on in” stamp") == "“Come on in” stamp");
  CHECK(sentence_case("étoile") == "Étoile");
  CHECK(sentence_case("čard") == "Čard");
  CHECK(sentence_case("÷") == "÷");
  CHECK(sentence_case("3 in") == "3 in");
  CHECK(sentence_case("") == "");
  CHECK(sentence_case("“") == "“");
}

TEST_CASE("shares of a pack are said as one says them") {
  CHECK(share_words(1, 4) == "a quarter");
  CHECK(share_words(2, 4) == "half");
  CHECK(share_words(3, 4) == "three quarters");
  CHECK(share_words(1, 3) == "a third");
  CHECK(share_words(2, 3) == "two thirds");
  CHECK(share_words(1, 8) == "an eighth");
  CHECK(share_words(3, 16) == "3/16");
  CHECK(share_words(4, 4) == "all");
  CHECK(share_words(3, 2) == "1\u00A01/2");
  CHECK(share_words(1, 0) == "no");
}

TEST_CASE("a measure written with blanks never falls apart at the end of a line") {
  CHECK(tie_measures("cut 2 3/4 in across") == "cut 2\u00A03/4\u00A0in across");
  CHECK(tie_measures("12 × 12 in") == "12\u00A0×\u00A012\u00A0in");
  CHECK(tie_measures("80 lb cover") == "80\u00A0lb cover");
  CHECK(tie_measures("for 35 min.") == "for 35\u00A0min.");
  CHECK(tie_measures("card 2 is in here") == "card 2 is in here");
  CHECK(tie_measures("two in a row") == "two in a row");
}

TEST_CASE("a verb agrees with how many things it speaks of") {
  CHECK(agreed("be", 1) == "is");
  CHECK(agreed("be", 0) == "are");
  CHECK(agreed("have", 1) == "has");
  CHECK(agreed("do", 1) == "does");
  CHECK(agreed("stay", 1) == "stays");
  CHECK(agreed("carry", 1) == "carries");
  CHECK(agreed("match", 1) == "matches");
  CHECK(agreed("match", 2) == "match");
  CHECK(noun_for(1, "leaf") == "leaf");
  CHECK(noun_for(0, "leaf") == "leaves");
  CHECK(it_or_them(1) == "it");
  CHECK(it_or_them(3) == "them");
}

TEST_CASE("a parcel's weight in America has pounds and ounces before its grams") {
  // NIST Handbook 44, appendix C: the avoirdupois pound is 453.592 37 g, its ounce 28.349 523 125
  // g.
  const auto weight = [](std::int64_t mg) {
    return parcel_weight(English::American, leafwright::Mass{mg});
  };
  CHECK(weight(28'349) == "1\u00A0oz (29\u00A0g)");
  CHECK(weight(28'350) == "2\u00A0oz (29\u00A0g)");
  CHECK(weight(453'592) == "1\u00A0lb (454\u00A0g)");
  CHECK(weight(453'593) == "1\u00A0lb 1\u00A0oz (454\u00A0g)");
  CHECK(weight(525'000) == "1\u00A0lb 3\u00A0oz (525\u00A0g)");
  CHECK(parcel_weight(English::British, leafwright::Mass{525'000}) == "525\u00A0g");
}

TEST_CASE("a day is said as each English says it, and one of no calendar by its numbers") {
  // Proleptic Gregorian calendar (ISO 8601): 2 March 2027 is a Tuesday.
  using namespace std::chrono_literals;
  const leafwright::Date day = 2027y / std::chrono::March / 2d;
  CHECK(day_text(English::American, day) == "March 2, 2027");
  CHECK(long_day_text(English::American, day) == "Tuesday, March 2, 2027");
  CHECK(day_text(English::British, day) == "2 March 2027");
  CHECK(long_day_text(English::British, day) == "Tuesday 2 March 2027");
  CHECK(day_text(English::British, {}) == "0000-00-00");
  CHECK(long_day_text(English::American, 2027y / std::chrono::February / 30d) == "2027-02-30");
}

TEST_CASE("what joins a list of more than text is what joins one of text") {
  for (std::size_t n = 1; n <= 4; ++n) {
    std::string joined;
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < n; ++i) {
      parts.push_back(std::string(1, static_cast<char>('a' + i)));
      joined += joint(i, n, "or") + parts.back();
    }
    CHECK(joined == listed(parts, "or"));
  }
}
