#include "model/technique.h"

#include <algorithm>
#include <array>

namespace leafwright {

namespace {

using enum Finish::Kind;

constexpr std::array technique_table{
    TechniqueRow{
        .kind = Embossed, .element = "emboss", .words = "dry embossing", .work = Work::Emboss},
    TechniqueRow{
        .kind = Distressed, .element = "distress", .words = "distressing", .work = Work::Distress},
    TechniqueRow{.kind = EdgeInked,
                 .element = "ink-edge",
                 .words = "inking edges",
                 .work = Work::Ink,
                 .own_tool_alone = true,
                 .named_skill = true},
    TechniqueRow{.kind = CornersRounded,
                 .element = "round-corners",
                 .words = "rounding corners",
                 .work = Work::Round,
                 .own_tool_alone = true},
    TechniqueRow{.kind = Washed,
                 .element = "wash",
                 .words = "watercolor wash",
                 .british = "watercolour wash",
                 .work = Work::Wash,
                 .dry = 10,
                 .as_written = true,
                 .own_tool_alone = true,
                 .wets = true,
                 .named_skill = true},
    TechniqueRow{.kind = Blended,
                 .element = "blend",
                 .words = "stencil blending",
                 .work = Work::Blend,
                 .dry = 2,
                 .as_written = true,
                 .named_skill = true},
    TechniqueRow{.kind = Splattered,
                 .element = "splatter",
                 .words = "splattering",
                 .work = Work::Splatter,
                 .dry = 5,
                 .as_written = true,
                 .own_tool_alone = true,
                 .named_skill = true},
    TechniqueRow{.kind = Coloured,
                 .element = "colour",
                 .words = "coloring",
                 .british = "colouring",
                 .work = Work::ColourIn,
                 .as_written = true,
                 .own_tool_alone = true,
                 .named_skill = true},
    TechniqueRow{.kind = Foiled,
                 .element = "foil",
                 .words = "foiling",
                 .work = Work::Foil,
                 .as_written = true,
                 .own_tool_alone = true,
                 .named_skill = true},
    TechniqueRow{.kind = Stitched,
                 .element = "stitch",
                 .words = "stitching",
                 .work = Work::Stitch,
                 .as_written = true,
                 .own_tool_alone = true,
                 .named_skill = true},
    TechniqueRow{.kind = Torn,
                 .element = "tear",
                 .words = "tearing",
                 .work = Work::Tear,
                 .as_written = true,
                 .named_skill = true},
    TechniqueRow{.kind = Glittered,
                 .element = "glitter",
                 .words = "liquid glitter",
                 .work = Work::Glitter,
                 .dry = 30,
                 .as_written = true,
                 .own_tool_alone = true,
                 .named_skill = true},
};

constexpr bool techniques_in_order() {
  for (std::size_t i = 0; i < technique_table.size(); ++i)
    if (technique_table[i].kind != static_cast<Finish::Kind>(i)) return false;
  return true;
}
static_assert(techniques_in_order());

} // namespace

std::span<const TechniqueRow> technique_rows() { return technique_table; }
const TechniqueRow& technique_row(Finish::Kind kind) {
  return technique_table.at(static_cast<std::size_t>(kind));
}

int drying_minutes(const Finish& finish) {
  return finish.dry.value_or(technique_row(finish.kind).dry);
}

int drying_minutes(const Card& card) {
  int longest = 0;
  for (const Piece& piece : card.pieces) {
    int minutes = 0;
    for (const Finish& finish : piece.finishes) minutes += drying_minutes(finish);
    longest = std::max(longest, minutes);
  }
  return longest;
}

} // namespace leafwright
