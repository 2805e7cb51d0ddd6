#include "guide/handout/room_cautions.h"

#include "guide/prose/naming.h"
#include "guide/prose/prose.h"
#include "guide/words/letter_case.h"
#include "guide/words/list.h"
#include "guide/words/plural.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <string>
#include <string_view>

namespace leafwright::guide {
namespace {

struct Uses {
  bool blade = false, heat = false, pressure = false, lamp = false;
  std::vector<std::string> small_parts;
};

Uses uses_of(const Project& project, int card) {
  Uses uses;
  for (const supply::Need& need : supply::needs_of(project, card)) {
    // A tool of which nobody knows where it is used is no tool of this card.
    if (need.cards.empty()) continue;
    const auto at = as_index(need.item.index);
    if (need.item.kind == ItemKind::Embellishment && project.embellishments.at(at).small_part)
      uses.small_parts.push_back(words::plural(item_noun(project, need.item)));
    if (need.item.kind != ItemKind::Tool) continue;
    const Tool& tool = project.tools.at(at);
    uses.blade = uses.blade || tool.risk == Tool::Risk::Blade;
    uses.heat = uses.heat || tool.risk == Tool::Risk::Heat;
    uses.pressure = uses.pressure || tool.risk == Tool::Risk::Pressure;
    uses.lamp = uses.lamp || mentions(tool.name, "tea light") || mentions(tool.name, "lamp") ||
                mentions(tool.name, "battery");
  }
  return uses;
}

// Of what is at hand: "Blades, rollers and hot tools".
std::string tools_words(const Uses& uses) {
  std::vector<std::string> kinds;
  if (uses.blade) kinds.emplace_back("blades");
  if (uses.pressure) kinds.emplace_back("rollers");
  if (uses.heat) kinds.emplace_back("hot tools");
  return words::sentence_case(words::listed(kinds));
}

bool speaks_of_light(std::string_view caution) {
  return mentions(caution, "flame") || mentions(caution, "candle") || mentions(caution, "light");
}

Notice caution(std::string title, std::string_view text) {
  return {Notice::Kind::Caution, std::move(title), plain(text)};
}

} // namespace

std::vector<Notice> room_cautions(const Project& project, int card) {
  std::vector<Notice> out;
  const Uses uses = uses_of(project, card);
  if (const std::string tools = tools_words(uses); !tools.empty())
    out.push_back(caution(tools + ".", "Keep fingers, hair and sleeves clear, and follow the "
                                       "instructions of their makers."));
  if (!uses.small_parts.empty())
    out.push_back(caution("Small parts.", words::sentence_case(words::listed(uses.small_parts)) +
                                              " can be swallowed: not for children under three."));
  if (!uses.lamp) return out;
  const auto own = std::ranges::find_if(project.cautions, speaks_of_light);
  out.push_back(caution("Light.", own != project.cautions.end()
                                      ? *own
                                      : std::string("Paper burns: an electric light only, never a "
                                                    "flame.")));
  out.push_back(caution("Batteries.", "Keep them from children: a swallowed button cell is an "
                                      "emergency. Follow the instructions of the maker of the "
                                      "light."));
  return out;
}

} // namespace leafwright::guide
