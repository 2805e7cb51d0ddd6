#pragma once

#include <array>
#include <string>
#include <string_view>

// Faults of structure, each made by one replacement in a good project. The reader's rules and the
// grammar are written by hand in two places; both must refuse each of these.

namespace leafwright::test {

struct StructuralCase {
  std::string_view what, from, to, code;
};

inline constexpr std::string_view structural_base =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<project xmlns="urn:leafwright:project" version="1" id="p" title="P" units="inch">
  <intro>Words.</intro>
  <maker name="M"><terms>T</terms></maker>
  <supplies>
    <stock id="kraft" sheet="letter"/>
    <pack id="pk"><holds stock="kraft" sheets="2"/></pack>
    <stamps id="set"><image id="im" size="1 x 1" grid="10 x 10"><path d="M0 0 L1 1"/><shape outline="circle"/></image></stamps>
    <die id="di" size="1 x 1" shape="circle"/>
    <ink id="ik" mark="dots"/>
    <ribbon id="rb" width="1/4"/>
    <embellishment id="em" size="4 x 4 mm"/>
    <adhesive id="ad" kind="tape"/>
    <tool id="tl" risk="blade"/>
    <envelope id="en" size="A2"/>
  </supplies>
  <card id="c" title="C" form="top-fold" size="A2" minutes="5">
    <base stock="kraft"/>
    <panel id="mat" stock="kraft" on="front" inset="1/8"><stamp image="im" ink="ik"/><alternative>A</alternative></panel>
    <ribbon of="rb" at="1 from top"/>
    <embellish with="em" on="mat"/>
    <stamp image="im" ink="ik" on="front"/>
    <step for="mat">S<tip>T</tip></step>
  </card>
  <tier id="t"><include item="tutorial"/><own item="set"/></tier>
  <run of-each="2"><expect tier="t" kits="3"/><in-hand item="kraft" sheets="2"/></run>
</project>
)";

inline constexpr std::array structural_cases = {
    StructuralCase{"no namespace", R"( xmlns="urn:leafwright:project")", "", "read-namespace"},
    StructuralCase{"another namespace", "urn:leafwright:project", "urn:other", "read-namespace"},
    StructuralCase{"another version", R"(version="1" id)", R"(version="2" id)", "read-version"},
    StructuralCase{"no version", R"(version="1" id)", "id", "read-missing-attribute"},
    StructuralCase{"no title", R"( title="P")", "", "read-missing-attribute"},
    StructuralCase{"an unknown element", "<intro>", "<introo/><intro>", "read-unknown-element"},
    StructuralCase{"an unknown attribute", R"(id="kraft")", R"(id="kraft" wieght="3")",
                   "read-unknown-attribute"},
    StructuralCase{"an element in the wrong home", "<run of-each", "<panel id=\"q\"/><run of-each",
                   "read-unknown-element"},
    StructuralCase{"two intros", "<intro>", "<intro>A</intro><intro>", "read-twice"},
    StructuralCase{"two bases", "<base stock=\"kraft\"/>",
                   "<base stock=\"kraft\"/><base stock=\"kraft\"/>", "read-twice"},
    StructuralCase{"no base", "<base stock=\"kraft\"/>", "", "read-missing-element"},
    StructuralCase{"no supplies", "supplies>", "suppliez>", "read-missing-element"},
    StructuralCase{"words in a card", "<embellish", "words<embellish", "read-stray-words"},
    StructuralCase{"a card without form", R"( form="top-fold")", "", "read-missing-attribute"},
    StructuralCase{"a form that is none", "top-fold", "roof-fold", "read-word"},
    StructuralCase{"an accordion without leaves", "top-fold", "accordion",
                   "read-missing-attribute"},
    StructuralCase{"leaves of a top fold", R"(minutes="5")", R"(leaves="4")", "read-either-or"},
    StructuralCase{"minutes that are no number", R"(minutes="5")", R"(minutes="half an hour")",
                   "read-number"},
    StructuralCase{"no minutes at all", R"(minutes="5")", R"(minutes="0")", "read-number"},
    StructuralCase{"size and inset", R"(inset="1/8")", R"(inset="1/8" size="3 x 3")",
                   "read-either-or"},
    StructuralCase{"width and inset", R"(inset="1/8")", R"(inset="1/8" width="3")",
                   "read-either-or"},
    StructuralCase{"at and places", R"(inset="1/8")", R"(inset="1/8" at="centre" places="1, 1")",
                   "read-either-or"},
    StructuralCase{"raised and with", R"(inset="1/8")", R"(inset="1/8" raised="yes" with="ad")",
                   "read-either-or"},
    StructuralCase{"a panel without id", R"(<panel id="mat")", "<panel", "read-missing-attribute"},
    StructuralCase{"an id that is no name", R"(id="mat" s)", R"(id="4 mats" s)", "read-id"},
    StructuralCase{"a stamp on the card without on", R"(ink="ik" on="front")", R"(ink="ik")",
                   "read-missing-attribute"},
    StructuralCase{"a stock without a sheet", R"( sheet="letter")", "", "read-missing-attribute"},
    StructuralCase{"a sheet twice", R"(<stock id="kraft" sheet="letter"/>)",
                   R"(<stock id="kraft" sheet="letter"><sheet size="letter"/></stock>)",
                   "read-either-or"},
    StructuralCase{"a colour by name", R"(mark="dots")", R"(colour="red")", "read-colour"},
    StructuralCase{"a mark that is none", R"(mark="dots")", R"(mark="dotty")", "read-word"},
    StructuralCase{"a free outline without path", R"(shape="circle"/>)", R"(shape="free"/>)",
                   "read-missing-attribute"},
    StructuralCase{"a path for a circle", R"(shape="circle"/>)",
                   R"(shape="circle" outline="M0 0 L1 1" grid="1 x 1"/>)", "read-either-or"},
    StructuralCase{"an adhesive without kind", R"( kind="tape")", "", "read-missing-attribute"},
    StructuralCase{"an empty stamp set", R"(<stamps id="set">)",
                   R"(<stamps id="none"/><stamps id="set">)", "read-missing-element"},
    StructuralCase{"a price in words", R"(size="A2"/>)", R"(size="A2" price="three"/>)",
                   "read-money"},
    StructuralCase{"a tip in a tip", "<tip>T</tip>", "<tip>T<tip>U</tip></tip>",
                   "read-unknown-element"},
    StructuralCase{"a requirement of nothing", R"(<own item="set"/>)", "<own/>",
                   "read-missing-attribute"},
    StructuralCase{"item and any", R"(<own item="set"/>)", R"(<own item="set" any="ik"/>)",
                   "read-either-or"},
    StructuralCase{"stock in hand without an amount", R"( sheets="2"/></run>)", "/></run>",
                   "read-missing-attribute"},
    StructuralCase{"kits below nothing", R"(kits="3")", R"(kits="-3")", "read-number"},
    StructuralCase{"a picture without words", R"(minutes="5")", R"(picture="a.png")",
                   "read-missing-attribute"},
    StructuralCase{"an empty file", structural_base, "", "read-empty"},
    StructuralCase{"another root", structural_base, "<card/>", "read-not-a-project"},
    StructuralCase{"tone beyond one", R"(L1 1")", R"(L1 1" tone="1.5")", "read-number"},
};

// The base with the replacement made, everywhere it occurs.
inline std::string with_case(const StructuralCase& one) {
  std::string text(structural_base);
  for (std::size_t at = text.find(one.from); at != std::string::npos;
       at = text.find(one.from, at + one.to.size())) {
    text.replace(at, one.from.size(), one.to);
    if (text.empty()) break;
  }
  return text;
}

} // namespace leafwright::test
