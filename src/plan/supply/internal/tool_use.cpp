#include "plan/supply/internal/tool_use.h"

#include "measure/index.h"
#include "model/work.h"

#include <algorithm>

namespace leafwright::supply {

namespace {

template <class Test>
bool any_piece(const Card& card, Test test) {
  return std::any_of(card.pieces.begin(), card.pieces.end(), test);
}

bool named(const Card& card, const Tool& tool) {
  return any_piece(card, [&](const Piece& piece) {
    return std::any_of(piece.finishes.begin(), piece.finishes.end(), [&](const Finish& f) {
      return !f.with.empty() && (f.with == tool.id || f.with == tool.name);
    });
  });
}

bool says(const AuthorText& text, ItemRef tool) {
  return std::ranges::any_of(text, [tool](const TextPart& part) { return part.thing == tool; });
}

bool written(const Card& card, ItemRef tool) {
  const auto said = [tool](const AuthorText& text) { return says(text, tool); };
  return said(card.intro) || std::ranges::any_of(card.tips, said) ||
         std::ranges::any_of(card.steps,
                             [&](const AuthorStep& step) {
                               return said(step.text) || said(step.tip) || said(step.caution) ||
                                      std::ranges::find(step.uses, tool) != step.uses.end();
                             }) ||
         any_piece(card, [&](const Piece& piece) {
           return said(piece.alternative_text) ||
                  std::ranges::find(piece.alternative_uses, tool) != piece.alternative_uses.end();
         });
}

} // namespace

ToolUse tool_use(const Project& project, const Card& card, int index) {
  const Tool& tool = project.tools.at(as_index(index));
  const ItemRef item{ItemKind::Tool, index};
  if (named(card, tool) || written(card, item)) return ToolUse::Yes;
  if (tool.works.meets(works_of(card))) return ToolUse::Yes;
  // Where one card calls for it by name, the others do without.
  const bool elsewhere = std::ranges::any_of(
      project.cards, [&](const Card& other) { return named(other, tool) || written(other, item); });
  const bool serves = !tool.works.empty() && tool.works != Works{Work::Light};
  return elsewhere || serves ? ToolUse::No : ToolUse::Unknown;
}

} // namespace leafwright::supply
