#include "app/verbs/piece_list.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::app;

namespace {

PartsOptions sixteenths() {
  PartsOptions options;
  options.unit_name = "1/16 in";
  return options;
}

bool has(const std::string& text, std::string_view what) {
  return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("a list of bases in sixteenths is planned and answered in the same unit") {
  // By hand: 68 x 176 sixteenths is 4 1/4 x 11 in; two from each letter sheet, so 20 sheets for 40.
  PartsJob parts = read_parts("id,width,height,copies\nbase,68,176,40\n",
                              "width,height,rotation,limit,price\n136,176,yes,,\n", sixteenths());
  REQUIRE(parts.findings.empty());
  const std::string json = plan_parts(parts, {});
  CHECK(has(json, "\"sheets\": 20"));
  CHECK(has(json, "\"bound_sheets\": 20"));
  CHECK(has(json, "\"proven\": true"));
  CHECK(has(json, "\"unit\": \"1/16 in\""));
  CHECK(has(json, "\"count\": 20"));
  CHECK(has(json, "\"x\": 68"));
}

TEST_CASE("measures may be written as a crafter writes them and come back in millimetres") {
  PartsOptions options;
  options.measures = Unit::Inch;
  PartsJob parts = read_parts("id,width,height,copies\r\nbase,4 1/4,279.4 mm,3\r\n",
                              "height,width\r\n11,8 1/2\r\n", options);
  REQUIRE(parts.findings.empty());
  const std::string json = plan_parts(parts, {});
  CHECK(has(json, "\"unit\": \"mm\""));
  CHECK(has(json, "\"sheets\": 2"));
  CHECK(has(json, "\"width\": 107.95"));
}

TEST_CASE("prices and limits are kept: the cheaper sheet is used as far as it goes") {
  // By hand: four pieces of 10 x 10; two small sheets at 0.30 hold one each, a large one at 1.00
  // four.
  PartsJob parts = read_parts(
      "id,width,height,copies\na,10,10,4\n",
      "id,width,height,limit,price\nsmall,10,10,2,0.30\nlarge,20,20,,1.00\n", sixteenths());
  REQUIRE(parts.findings.empty());
  const std::string json = plan_parts(parts, {});
  CHECK(has(json, "\"cost\": 1.0000"));
  CHECK(has(json, "\"sheet\": \"large\""));
}

TEST_CASE("every fault is told at its line and character, all in one reading") {
  const PartsJob parts =
      read_parts("id,width,height,copies\na,ten,10,1\nb,10,10,-2\n",
                 "width,height,rotation,colour\n10,10,maybe,red\n", sixteenths());
  REQUIRE(parts.findings.size() == 4);
  CHECK(parts.findings[0].place.line == 2);
  CHECK(parts.findings[0].place.column == 3);
  CHECK(parts.findings[1].place.line == 3);
  CHECK(parts.findings[2].place.file == 1);
}

TEST_CASE(
    "a piece that fits no sheet is told with the sheet that would do, and nothing is invented") {
  PartsJob parts = read_parts("id,width,height,copies\nlong,300,10,1\n", "width,height\n136,176\n",
                              sixteenths());
  REQUIRE(parts.findings.empty());
  const std::string json = plan_parts(parts, {});
  REQUIRE(has_errors(parts.findings));
  CHECK(has(parts.findings.front().fix, "300 × 10 1/16 in"));
  CHECK(has(json, "\"patterns\": []"));
}

TEST_CASE("missing columns and empty lists are told") {
  CHECK(has_errors(read_parts("", "width,height\n1,1\n", sixteenths()).findings));
  CHECK(has_errors(
      read_parts("id,width,height,copies\n", "width,height\n1,1\n", sixteenths()).findings));
  CHECK(has_errors(
      read_parts("id,width,height,copies\na,1,1,1\n", "width\n1\n", sixteenths()).findings));
}
