#include "plan/supply/internal/tool_use.h"

#include "measure/index.h"
#include "measure/letters.h"

#include <algorithm>
#include <string_view>

namespace leafwright::supply {

namespace {

template <class Test>
bool any_piece(const Card& card, Test test) {
  return std::any_of(card.pieces.begin(), card.pieces.end(), test);
}

bool heat_embossed(const Impression& impression) {
  return impression.method == Impression::Method::HeatEmbossed;
}

bool heated(const Card& card) {
  return any_piece(card,
                   [](const Piece& piece) {
                     return std::any_of(piece.stamped.begin(), piece.stamped.end(), heat_embossed);
                   }) ||
         std::any_of(card.face_stampings.begin(), card.face_stampings.end(),
                     [](const FaceStamping& s) { return heat_embossed(s.impression); });
}

bool pressed(const Piece& piece) {
  const auto by_die = [](const Window& window) { return window.die >= 0; };
  const auto embossed = [](const Finish& f) { return f.kind == Finish::Kind::Embossed; };
  return piece.cut == Piece::CutBy::Die || piece.die >= 0 ||
         std::any_of(piece.windows.begin(), piece.windows.end(), by_die) ||
         std::any_of(piece.finishes.begin(), piece.finishes.end(), embossed);
}

bool cut_by_hand(const Piece& piece) {
  const auto by_hand = [](const Window& window) { return window.die < 0; };
  return piece.cut == Piece::CutBy::Scissors ||
         std::any_of(piece.windows.begin(), piece.windows.end(), by_hand);
}

bool named(const Card& card, const Tool& tool) {
  return any_piece(card, [&](const Piece& piece) {
    return std::any_of(piece.finishes.begin(), piece.finishes.end(), [&](const Finish& f) {
      return !f.with.empty() && (f.with == tool.id || f.with == tool.name);
    });
  });
}

bool stamps(const Card& card) {
  return !card.face_stampings.empty() ||
         any_piece(card, [](const Piece& piece) { return !piece.stamped.empty(); });
}

bool folds(const Card& card) {
  return !card.plan.scores.empty() ||
         any_piece(card, [](const Piece& piece) { return !piece.scores.empty(); });
}

bool says(const AuthorText& text, ItemRef tool) {
  return std::ranges::any_of(text, [tool](const TextPart& part) { return part.thing == tool; });
}

bool written(const Card& card, ItemRef tool) {
  const auto said = [tool](const AuthorText& text) { return says(text, tool); };
  return said(card.intro) || std::ranges::any_of(card.tips, said) ||
         std::ranges::any_of(card.steps, [&](const AuthorStep& step) {
           return said(step.text) || said(step.tip) || said(step.caution);
         });
}

// What the name of a tool without a risk tells of its work.
ToolUse by_name(const Card& card, std::string_view name) {
  const auto when = [](bool used) { return used ? ToolUse::Yes : ToolUse::No; };
  if (mentions(name, "powder")) return when(heated(card));
  if (mentions(name, "block")) return when(stamps(card));
  if (mentions(name, "bone folder") || mentions(name, "score") || mentions(name, "scoring"))
    return when(folds(card));
  return ToolUse::Unknown;
}

} // namespace

ToolUse tool_use(const Project& project, const Card& card, int index) {
  const Tool& tool = project.tools.at(as_index(index));
  const ItemRef item{ItemKind::Tool, index};
  const auto when = [](bool used) { return used ? ToolUse::Yes : ToolUse::No; };
  if (named(card, tool) || written(card, item)) return ToolUse::Yes;
  if (tool.cut_length > Length{})
    return when(any_piece(card, [](const Piece& p) { return p.cut != Piece::CutBy::Punch; }));
  switch (tool.risk) {
  case Tool::Risk::Blade: return when(any_piece(card, cut_by_hand));
  case Tool::Risk::Heat: return when(heated(card));
  case Tool::Risk::Pressure: return when(any_piece(card, pressed));
  case Tool::Risk::None: break;
  }
  const ToolUse use = by_name(card, tool.name);
  if (use != ToolUse::Unknown) return use;
  // Where one card calls for it by name, the others do without.
  const bool elsewhere = std::ranges::any_of(
      project.cards, [&](const Card& other) { return named(other, tool) || written(other, item); });
  return elsewhere ? ToolUse::No : ToolUse::Unknown;
}

} // namespace leafwright::supply
