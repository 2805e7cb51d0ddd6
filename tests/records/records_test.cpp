#include "records/records.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::records;

TEST_CASE("cells with commas, quotes and line ends are quoted as RFC 4180 says") {
  // RFC 4180, section 2, rules 1, 5, 6 and 7.
  CHECK(csv_row({"aaa", "b\r\nbb", "ccc"}) == "aaa,\"b\r\nbb\",ccc\r\n");
  CHECK(csv_row({"a\"b", "x,y"}) == "\"a\"\"b\",\"x,y\"\r\n");
  CHECK(csv_row({""}) == "\r\n");
}

TEST_CASE("a cell that a spreadsheet would take for a formula is made harmless, a number is not") {
  CHECK(csv_row({"=1+1", "+tag", "@sum", "-x", "\tx"}) == "'=1+1,'+tag,'@sum,'-x,'\tx\r\n");
  CHECK(csv_row({"-3.50", "12"}) == "-3.50,12\r\n");
}

TEST_CASE("JSON texts are escaped and lists parted by commas") {
  Json json;
  json.open_object();
  json.key("a").text("say \"hi\"\\\n");
  json.key("b").open_array().number(1).number(2).close_array();
  json.key("c").open_array().close_array();
  json.key("d").nothing();
  json.close_object();
  CHECK(json.take() ==
        "{\n  \"a\": \"say \\\"hi\\\"\\\\\\u000a\",\n  \"b\": [\n    1,\n    2\n  ],\n"
        "  \"c\": [],\n  \"d\": null\n}\n");
}

TEST_CASE("millimetres are exact decimals") {
  CHECK(millimetre_text(inches(4, 1, 4)) == "107.95");
  CHECK(millimetre_text(inches(0, 1, 64)) == "0.396875");
  CHECK(millimetre_text(millimetres(210)) == "210");
  CHECK(millimetre_text(-inches(0, 1, 2)) == "-12.7");
}

TEST_CASE("amounts have the decimals of their currency") {
  CHECK(amount_text({-1250, {"USD", 2}}) == "-12.50");
  CHECK(amount_text({5, {"KWD", 3}}) == "0.005");
  CHECK(amount_text({1250, {"JPY", 0}}) == "1250");
}

TEST_CASE("JSON on one line has no blanks, and bytes that are no UTF-8 cannot get into it") {
  Json json(Json::Layout::OneLine);
  json.open_object().key("a").text("\xff\x7f").key("b").open_array().truth(true).close_array();
  json.close_object();
  CHECK(json.take() == "{\"a\":\"\uFFFD\\u007f\",\"b\":[true]}\n");
}
