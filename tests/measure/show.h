#pragma once

#include "basics/parsed.h"
#include "measure/amounts/amounts.h"
#include "measure/length.h"
#include "measure/print_length.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <string>

// How a failing test prints measures. Include it in a test of any room.

namespace doctest {

template <>
struct StringMaker<leafwright::Length> {
  static String convert(leafwright::Length a) { return fmt::format("{} ({} nm)", a, a.nm).c_str(); }
};
template <>
struct StringMaker<leafwright::Point> {
  static String convert(leafwright::Point a) { return fmt::format("({}, {})", a.x, a.y).c_str(); }
};
template <>
struct StringMaker<leafwright::Size> {
  static String convert(leafwright::Size a) { return fmt::format("{}", a).c_str(); }
};
template <>
struct StringMaker<leafwright::Rect> {
  static String convert(leafwright::Rect a) {
    return fmt::format("{} at ({}, {})", a.size, a.origin.x, a.origin.y).c_str();
  }
};
template <>
struct StringMaker<leafwright::Area> {
  static String convert(leafwright::Area a) { return fmt::format("{} µm²", a.um2).c_str(); }
};
template <>
struct StringMaker<leafwright::Angle> {
  static String convert(leafwright::Angle a) {
    return fmt::format("{} millionths of a degree", a.udeg).c_str();
  }
};
template <>
struct StringMaker<leafwright::Mass> {
  static String convert(leafwright::Mass a) { return fmt::format("{} mg", a.mg).c_str(); }
};
template <>
struct StringMaker<leafwright::Grammage> {
  static String convert(leafwright::Grammage a) {
    return fmt::format("{} mg/m²", a.mg_per_m2).c_str();
  }
};
template <>
struct StringMaker<leafwright::Money> {
  static String convert(const leafwright::Money& a) { return fmt::format("{}", a).c_str(); }
};
template <>
struct StringMaker<leafwright::Date> {
  static String convert(leafwright::Date a) { return leafwright::iso_text(a).c_str(); }
};

} // namespace doctest

namespace leafwright::testing {

inline std::string said(const ParseError& why) {
  return fmt::format("[{}+{}] found {}; expected {}; {}", why.at, why.length, why.found,
                     why.expected, why.fix);
}

// The value, or a failed test that says why there is none.
template <class T>
T value_of(const Parsed<T>& parsed) {
  if (!parsed) FAIL(said(parsed.parse_error()));
  return parsed.value();
}

// The misread, or a failed test when the text was accepted.
template <class T>
ParseError refusal_of(const Parsed<T>& parsed) {
  if (parsed) FAIL("accepted, but must be refused");
  return parsed.parse_error();
}

} // namespace leafwright::testing
