#pragma once

#include "guide/block.h"
#include "guide/prose/prose.h"

#include <utility>

// Short ways to write the blocks of a section.

namespace leafwright::guide {

template <class T>
void add(Section& section, T what, Place place = {}) {
  section.blocks.push_back(Block{std::move(what), place});
}

inline Heading heading(int level, std::string anchor, std::string text, std::string number = {},
                       std::string aside = {}) {
  return {level, std::move(anchor), std::move(text), std::move(number), std::move(aside)};
}
inline Paragraph body(Inlines text) { return {Paragraph::Kind::Body, std::move(text)}; }
inline Paragraph lead(Inlines text) { return {Paragraph::Kind::Lead, std::move(text)}; }
inline Paragraph small(Inlines text) { return {Paragraph::Kind::Small, std::move(text)}; }

// The anchor of a card's chapter.
inline std::string card_anchor(const std::string& card_id) { return "card-" + card_id; }

} // namespace leafwright::guide
