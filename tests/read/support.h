#pragma once

#include "measure/print_length.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <map>
#include <string>
#include <string_view>
#include <vector>

// Small projects as text, and findings as text that a test can compare whole.

namespace leafwright::test {

// A project with one A2 top-fold card; `card` goes between the base and the end of the card.
inline std::string project_with(std::string_view card, std::string_view supplies = "") {
  return std::string(R"(<project xmlns="urn:leafwright:project" version="1" id="p" title="P">
<supplies><stock id="kraft" sheet="letter" weight="80 lb cover"/><ink id="moss"/><ink id="rust"/>
<stamps id="set"><image id="tree" size="1 x 1 1/2"/></stamps>
<die id="label-die" size="2 1/2 x 13/16" shape="rounded" radius="1/4"/>
<ribbon id="grosgrain" width="3/8" spool="360"/><embellishment id="dome" size="4 x 4 mm"/>
<adhesive id="tape" kind="tape" length="300"/><adhesive id="foam" kind="foam" count="100"/>
<envelope id="a2" size="A2"/>)") +
         std::string(supplies) +
         R"(</supplies>
<card id="c" title="C" form="top-fold" size="A2" envelope="a2"><base stock="kraft"/>
)" + std::string(card) +
         "\n</card></project>\n";
}

// No file but those in the map exists; the folder is "here".
inline FileAccess memory_files(std::map<std::string, std::string> files) {
  FileAccess access;
  access.read = [files](const std::string& path, std::size_t most) -> FileBytes {
    const auto found = files.find(path);
    if (found == files.end()) return FileFault{FileFault::Kind::Missing, "there is no such file"};
    if (found->second.size() > most) return FileFault{FileFault::Kind::TooLarge, "it is too large"};
    return found->second;
  };
  access.real_path = [files](const std::string& path) -> std::string {
    if (path == "here" || files.contains(path)) return path;
    return {};
  };
  return access;
}

inline Reading read_text(std::string_view text, ReadOptions options = {}) {
  return read_project(text, "here/p.xml", options);
}

inline std::string all_text(const Reading& reading) {
  std::string text;
  for (const Finding& finding : reading.findings) text += finding_text(finding, reading.sources);
  return text;
}

// With common blanks for no-break ones, as a test writes them.
inline std::string plain_blanks(std::string text) {
  for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at))
    text.replace(at, 2, " ");
  return text;
}

inline std::vector<std::string> codes(const Reading& reading) {
  std::vector<std::string> list;
  for (const Finding& finding : reading.findings) list.push_back(finding.code);
  return list;
}

inline bool has_code(const Reading& reading, std::string_view code) {
  for (const Finding& finding : reading.findings)
    if (finding.code == code) return true;
  return false;
}

inline const Piece& piece(const Reading& reading, std::string_view id) {
  static const Piece none{};
  for (const Card& card : reading.project.cards)
    for (const Piece& one : card.pieces)
      if (one.id == id) return one;
  FAIL_CHECK("there is no piece " << id);
  return none;
}

// The text that findings of this reading underline.
inline std::string marked(const Reading& reading, const Finding& finding) {
  const std::string line(
      reading.sources.at(static_cast<std::size_t>(finding.place.file)).line(finding.place.line));
  std::string out;
  int column = 0;
  for (const char c : line) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++column;
    if (column >= finding.place.column && column < finding.place.column + finding.place.length)
      out += c;
  }
  return out;
}

std::string sample_path(std::string_view name);
std::string file_text(const std::string& path);

} // namespace leafwright::test

namespace doctest {
template <>
struct StringMaker<leafwright::Length> {
  static String convert(leafwright::Length a) { return leafwright::exact_text(a).c_str(); }
};
template <>
struct StringMaker<leafwright::Size> {
  static String convert(leafwright::Size a) { return leafwright::exact_text(a).c_str(); }
};
template <>
struct StringMaker<leafwright::Point> {
  static String convert(leafwright::Point a) {
    return (leafwright::exact_text(a.x) + ", " + leafwright::exact_text(a.y)).c_str();
  }
};
template <>
struct StringMaker<std::vector<std::string>> {
  static String convert(const std::vector<std::string>& list) {
    std::string text;
    for (const std::string& one : list) text += one + " ";
    return text.c_str();
  }
};
} // namespace doctest
