#include "stall.h"

#include "read/read.h"

#include <doctest/doctest.h>

namespace stall {

using namespace leafwright;

namespace {

constexpr std::string_view file =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<project xmlns="urn:leafwright:project" version="1" id="stall" title="Stall" units="inch">
  <supplies>
    <stock id="kraft" weight="216 gsm" sheet="letter" pack="10" price="5.00"/>
    <stock id="dots" weight="100 gsm" pattern="dots" sheet="12x12"/>
    <pack id="pair" price="6.00"><holds stock="dots" sheets="4"/></pack>
    <stamps id="set" price="20.00" each="80 g"><image id="im" size="1 x 1" grid="10 x 10"><path d="M0 0 L1 1"/></image></stamps>
    <die id="oval" size="2 x 1" price="7.00"/>
    <ink id="plum"/>
    <ribbon id="silk" width="1/4" spool="100" price="4.00"/>
    <embellishment id="dome" size="4 x 4 mm" pack="50" price="5.00"/>
  </supplies>
  <card id="c" title="C" form="flat" size="A2">
    <base stock="kraft"/>
    <stamp image="im" ink="plum" on="front" at="centre"/>
    <ribbon of="silk" as="band" at="1 from top"/>
  </card>
  <tier id="kit" name="Kit" price="12.00" shipping="3.00" parts="cut">
    <include item="tutorial"/>
    <include item="parts"/>
    <include item="silk" amount="25 in"/>
    <include item="dome" amount="4"/>
    <own item="set"/>
  </tier>
  <tier id="booklet" name="Booklet" price="4.00" shipping="none" open="anytime">
    <include item="tutorial"/>
  </tier>
  <tier id="full" name="Full kit" price="30.00" shipping="3.00" parts="cut">
    <include item="tutorial"/>
    <include item="parts"/>
    <include item="silk" amount="25 in"/>
    <include item="dome" amount="10"/>
    <include item="set" amount="whole"/>
    <swap top-up="yes"/>
  </tier>
  <run of-each="2" wrapping="20 g">
    <expect tier="kit" kits="10"/>
    <expect tier="booklet" kits="3"/>
  </run>
  <selling>
    <fees percent="3" fixed="0.20"/>
    <postage cost="2.50"/>
    <postage up-to="50 g" cost="1.50"/>
    <packing cost="0.50"/>
    <outlay cost="30.00">Paper for the samples</outlay>
  </selling>
</project>
)";

} // namespace

Project project(std::initializer_list<std::pair<std::string_view, std::string_view>> replaced) {
  std::string text(file);
  for (const auto& [from, to] : replaced) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, from.size(), to);
  }
  Reading reading = read_project(text, "stall.xml");
  for (const Finding& finding : reading.findings)
    MESSAGE(finding.code << ": " << finding.found << "; " << finding.expected);
  REQUIRE(reading.ok());
  return std::move(reading.project);
}

Project project(std::string_view from, std::string_view to) {
  return from.empty() ? project({}) : project({{from, to}});
}

} // namespace stall
