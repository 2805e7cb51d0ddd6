#include "page/figures.h"

#include <algorithm>
#include <type_traits>

namespace leafwright::page {

namespace {

void note(const figure::Scene& scene, Size room, Context& context) {
  if (scene.scale_group.empty()) return;
  const double fits = context.figures.fitting(scene, room);
  const auto [entry, fresh] = context.group_scales.emplace(scale_group_of(scene), fits);
  if (!fresh) entry->second = std::min(entry->second, fits);
}

void walk(std::span<const guide::Block> blocks, Length width, Context& context) {
  for (const guide::Block& block : blocks)
    std::visit(
        [&](const auto& what) {
          using What = std::decay_t<decltype(what)>;
          if constexpr (std::is_same_v<What, guide::Figure>) {
            note(what.scene, figure_room(what, width, context), context);
          } else if constexpr (std::is_same_v<What, guide::Beside>) {
            note(what.figure.scene, beside_room(what, width, context), context);
            walk(what.blocks, beside_words_width(what, width, context), context);
          }
          // Rows of figures and steps settle their own common scale.
        },
        block.what);
}

} // namespace

void note_group_scales(std::span<const guide::Block> blocks, Length width, Context& context) {
  walk(blocks, width, context);
}

} // namespace leafwright::page
