#include "show.h"

#include "measure/amounts/amounts.h"

#include <cmath>
#include <utility>

using namespace leafwright;
using leafwright::testing::refusal_of;
using leafwright::testing::value_of;

namespace {

std::int64_t mg(std::string_view text) { return value_of(parse_mass(text)).mg; }
std::int64_t mg_per_m2(std::string_view text) { return value_of(parse_grammage(text)).mg_per_m2; }

} // namespace

TEST_CASE("masses are read in grams, kilograms, ounces and pounds") {
  CHECK(mg("12 g") == 12'000);
  CHECK(mg("12g") == 12'000);
  CHECK(mg("0.5 kg") == 500'000);
  CHECK(mg("1/2 kg") == 500'000);
  // The international avoirdupois pound (1959): 453.592 37 g; an ounce is a sixteenth of it.
  CHECK(mg("1 lb") == 453'592);
  CHECK(mg("100 lb") == 45'359'237);
  CHECK(mg("1.5 oz") == 42'524);
  CHECK(mg("16 ounces") == mg("1 pound"));
  CHECK(mg("0.0005 g") == 1); // a half goes up
  CHECK(mg("0.0004999 g") == 0);
}

TEST_CASE("a mass without a unit, or with two, is refused") {
  const std::pair<std::string_view, std::string_view> wrongs[] = {
      {"12", "say which unit: g, kg, oz or lb"},
      {"12 stone", "the unit may be g, kg, mg, oz or lb"},
      {"1 lb 4 oz", "give one mass in one unit"},
      {"-1 g", "a weight cannot be negative; leave the minus sign away"},
      {"10001 kg", "masses up to 10 000 kg can be given; check the number and its unit"},
      {"999999999999 lb", "masses up to 10 000 kg can be given; check the number and its unit"},
  };
  for (const auto& row : wrongs) {
    const auto& text = row.first;
    const auto& fix = row.second;
    CAPTURE(text);
    CHECK(refusal_of(parse_mass(text)).fix == fix);
  }
}

TEST_CASE("a mass prints with about three figures") {
  const std::pair<std::int64_t, std::string_view> cases[] = {
      {0, "0\u00A0g"},
      {40, "0.04\u00A0g"},
      {999, "1\u00A0g"},
      {1'250, "1.3\u00A0g"},
      {9'960, "10\u00A0g"},
      {12'000, "12\u00A0g"},
      {12'499, "12\u00A0g"},
      {999'499, "999\u00A0g"},
      {999'500, "1\u00A0kg"},
      {1'250'000, "1.25\u00A0kg"},
      {12'345'678, "12.35\u00A0kg"},
      {-12'000, "−12\u00A0g"},
  };
  for (const auto& [amount, text] : cases) CHECK(mass_text({amount}) == text);
}

// The figures that paper makers' handbooks print, which round here and there by a gram (110 lb
// cover is 297.45 g/m² by definition and 298 in most tables). Basis weight by definition: the mass
// of 500 sheets of the basic size over their area.
TEST_CASE("basis weights agree with the handbooks' grammages") {
  struct Known {
    std::string_view text;
    int handbook;
  };
  const Known table[] = {
      {"20 lb bond", 75},    {"24 lb bond", 90},    {"28 lb bond", 105},   {"50 lb text", 74},
      {"60 lb text", 89},    {"80 lb text", 118},   {"100 lb text", 148},  {"65 lb cover", 176},
      {"80 lb cover", 216},  {"100 lb cover", 270}, {"110 lb cover", 298}, {"90 lb index", 163},
      {"110 lb index", 199},
  };
  for (const Known& known : table) {
    CAPTURE(known.text);
    const Grammage read = value_of(parse_grammage(known.text));
    CHECK(std::abs(static_cast<double>(read.mg_per_m2) / 1000 - known.handbook) < 0.6);
  }
}

TEST_CASE("80 lb cover is 36.287 kg of paper over 500 sheets of 20 x 26 in") {
  // 80 lb x 453.592 37 g / (500 x 0.508 m x 0.6604 m)
  CHECK(mg_per_m2("80 lb cover") == std::llround(80 * 453'592.37 / (500 * 0.508 * 0.6604)));
}

// Conversion factors from pounds to g/m² as printers' handbooks give them.
TEST_CASE("a pound of each grade is the handbooks' factor") {
  CHECK(mg_per_m2("1000 lb cover") == doctest::Approx(2'704'000).epsilon(0.0002));
  CHECK(mg_per_m2("1000 lb bond") == doctest::Approx(3'760'000).epsilon(0.0002));
  CHECK(mg_per_m2("1000 lb text") == doctest::Approx(1'480'000).epsilon(0.0003));
  CHECK(mg_per_m2("1000 lb index") == doctest::Approx(1'808'000).epsilon(0.0003));
}

TEST_CASE("paper weights are read in the ways that packs print them") {
  for (std::string_view text : {"216 gsm", "216gsm", "216 g/m²", "216 g/m2", "216\u00A0g/m²"}) {
    CHECK(mg_per_m2(text) == 216'000);
  }
  for (std::string_view text :
       {"80 lb cover", "80lb cover", "80 lbs. Cover", "80# cover", "80 pound cover"}) {
    CAPTURE(text);
    CHECK(mg_per_m2(text) == 216'329);
  }
  CHECK(mg_per_m2("60 lb book") == mg_per_m2("60 lb text"));
  CHECK(mg_per_m2("24 lb writing") == mg_per_m2("24 lb bond"));
}

TEST_CASE("a paper weight that leaves the grade open is refused") {
  const std::string grade = "name the grade, for pounds mean another weight in each: cover, text, "
                            "bond or index";
  const std::pair<std::string_view, std::string> wrongs[] = {
      {"80 lb", grade},
      {"80 lb card", grade},
      {"80", "say which weight: gsm, or lb with the grade (cover, text, bond, index)"},
      {"80 cover", "write gsm or g/m², or lb with the grade, such as 80 lb cover"},
      {"80 lb cover stock", "nothing may follow the weight"},
      {"216 gsmx", "nothing may follow the weight"},
      {"0 gsm", "a paper weighs more than 0 and at most 10 000 g/m²"},
      {"10001 gsm", "a paper weighs more than 0 and at most 10 000 g/m²"},
      {"-80 lb cover", "a weight cannot be negative; leave the minus sign away"},
  };
  for (const auto& row : wrongs) {
    const auto& text = row.first;
    const auto& fix = row.second;
    CAPTURE(text);
    CHECK(refusal_of(parse_grammage(text)).fix == fix);
  }
}

TEST_CASE("grammage prints in whole grams, thin papers to a tenth") {
  CHECK(grammage_text(value_of(parse_grammage("80 lb cover"))) == "216\u00A0g/m²");
  CHECK(grammage_text({8'540}) == "8.5\u00A0g/m²");
}

TEST_CASE("a sheet weighs its area times its grammage") {
  // ISO 216: sixteen A4 sheets have the area of A0, which is 1 m² to within its rounding; a sheet
  // of A4 at 80 g/m² weighs 4.99 g.
  CHECK(mass_of(area({millimetres(210), millimetres(297)}), {80'000}).mg == 4990);
  CHECK(mass_of(area({millimetres(1000), millimetres(1000)}), {216'329}).mg == 216'329);
  CHECK(mass_of({}, {80'000}).mg == 0);
  // By definition 500 sheets of 20 x 26 in weigh the pounds: 80 lb is 36.287 kg.
  const Grammage cover = value_of(parse_grammage("80 lb cover"));
  const Mass ream = mass_of(area(basic_size(Grade::Cover)) * 500, cover);
  CHECK(std::abs(ream.mg - 36'287'390) < 100);
  CHECK(mass_text(ream) == "36.29\u00A0kg");
}
