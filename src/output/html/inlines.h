#pragma once

#include "guide/block.h"
#include "page/layout.h"

#include <map>
#include <set>
#include <string>
#include <string_view>

namespace leafwright::html {

// Text as it stands between tags, with true fractions.
std::string text_markup(std::string_view text);

// What can be led to: the title of each anchor that the page has.
using Anchors = std::map<std::string, std::string, std::less<>>;

// Markup of what stands inside a line.
class InlineWriter {
 public:
  InlineWriter(const page::LayoutInput& input, const page::Template& look, const Anchors& anchors,
               bool grey)
      : input_(input), look_(look), anchors_(anchors), grey_(grey) {}

  std::string markup(const guide::Inlines& inlines) const;

 private:
  std::string chip(int ink) const;
  std::string link(std::string_view target, std::string words) const;

  const page::LayoutInput& input_;
  const page::Template& look_;
  const Anchors& anchors_;
  bool grey_;
};

} // namespace leafwright::html
