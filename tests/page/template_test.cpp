#include "sample.h"

#include "page/template.h"

#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>

using namespace leafwright;
using namespace leafwright::page;

namespace {

std::string wrapped(const std::string& inside) {
  return "<template xmlns=\"urn:leafwright:template\" version=\"1\" name=\"t\">\n" + inside +
         "\n<styles><style name=\"body\" size=\"10pt\" leading=\"14pt\"/></styles>"
         "<sections><section name=\"cover\"/></sections></template>";
}

} // namespace

TEST_CASE("the booklet that ships is read without a finding") {
  std::ifstream file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/templates/booklet.xml");
  std::ostringstream text;
  text << file.rdbuf();
  const TemplateReading reading = read_template(text.str(), "booklet.xml");
  for (const Finding& finding : reading.findings) MESSAGE(finding.found);
  CHECK(reading.findings.empty());
  CHECK(reading.page_template.sections.size() >= 9);
}

TEST_CASE("lengths take points, millimetres and fractions of an inch") {
  const TemplateReading reading =
      read_template(wrapped("<margins top=\"30pt\" bottom=\"25mm\" inner=\"3/4 in\"/>"), "t.xml");
  REQUIRE(reading.findings.empty());
  CHECK(reading.page_template.top == points(30));
  CHECK(reading.page_template.bottom == millimetres(25));
  CHECK(reading.page_template.inner == inches(0, 3, 4));
}

TEST_CASE("a wrong value is a finding at its very place, and the rest is kept") {
  const TemplateReading reading =
      read_template(wrapped("<margins top=\"wide\" bottom=\"25mm\"/>"), "t.xml", 3);
  REQUIRE(reading.findings.size() == 1);
  const Finding& finding = reading.findings[0];
  CHECK(finding.place.file == 3);
  CHECK(finding.place.line == 2);
  CHECK(finding.place.column == 15);
  CHECK(finding.found.find("wide") != std::string::npos);
  CHECK(reading.page_template.bottom == millimetres(25));
}

TEST_CASE("unknown elements and attributes are findings") {
  CHECK(read_template(wrapped("<marjins top=\"1mm\"/>"), "t.xml").findings.size() == 1);
  CHECK(read_template(wrapped("<margins tops=\"1mm\"/>"), "t.xml").findings.size() == 1);
}

TEST_CASE("a style takes over what another says, and colours may be the project's") {
  const TemplateReading reading = read_template(
      wrapped("<colours><colour name=\"soft\" value=\"accent\" share=\"50%\"/></colours>"
              "<styles><style name=\"a\" size=\"20pt\" leading=\"28pt\" colour=\"soft\"/>"
              "<style name=\"b\" like=\"a\" leading=\"21pt\"/></styles>"),
      "t.xml");
  REQUIRE(reading.findings.empty());
  const TextStyle& style = reading.page_template.style("b");
  CHECK(style.size == points(20));
  CHECK(style.leading == points(21));
  CHECK(mixed(style.colour, Colour{0, 0, 0}) == Colour{128, 128, 128});
}

TEST_CASE("broken, hostile and foreign files end in findings") {
  for (const std::string& text :
       {std::string(""), std::string("<template"), std::string("<a/>"),
        std::string("<!DOCTYPE x [<!ENTITY a \"b\">]><template/>"),
        std::string("\0<template/>", 12),
        std::string("<template xmlns=\"urn:leafwright:template\" version=\"1\"/>")}) {
    CAPTURE(text);
    CHECK_FALSE(read_template(text, "t.xml").findings.empty());
  }
}

TEST_CASE("what is no character is refused where it stands, written out or as a reference") {
  // U+FFFF as bytes; the library that breaks lines ends the program when it meets one.
  const TemplateReading written =
      read_template(wrapped("<words draft=\"Dra\xef\xbf\xbft\"/>"), "t.xml", 3);
  REQUIRE(written.findings.size() == 1);
  CHECK(written.findings[0].found == "t.xml: U+FFFF, which is no character");
  CHECK(written.findings[0].place.line == 2);
  CHECK(written.findings[0].place.column == 18);
  const TemplateReading reference =
      read_template(wrapped("<words draft=\"&#x1FFFE;\"/>"), "t.xml", 3);
  REQUIRE(reference.findings.size() == 1);
  CHECK(reference.findings[0].found == "t.xml: U+1FFFE, which is no character");
  CHECK(reference.findings[0].place.column == 15);
}

TEST_CASE("a place far down is counted from the line's beginning, characters not bytes") {
  const std::string far = std::string(5000, '\n') + std::string(3000, ' ') + "<!-- \u00bd -->";
  const TemplateReading reading = read_template(wrapped(far + "<marjins/>"), "t.xml");
  REQUIRE(reading.findings.size() == 1);
  CHECK(reading.findings[0].place.line == 5002);
  CHECK(reading.findings[0].place.column == 3000 + 10 + 2);
}

TEST_CASE("a template can ask for bleed and crop marks") {
  const TemplateReading reading =
      read_template(wrapped("<paper size=\"a5\" bleed=\"3mm\" crop-marks=\"yes\"/>"), "t.xml");
  CHECK(reading.findings.empty());
  CHECK(reading.page_template.bleed == millimetres(3));
  CHECK(reading.page_template.crop_marks);
}
