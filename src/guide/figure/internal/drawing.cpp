#include "guide/figure/drawing.h"

#include <type_traits>

namespace leafwright {

DrawItem moved_item(const DrawItem& item, Point by) {
  return std::visit(
      [by](const auto& command) -> DrawItem {
        auto copy = command;
        using Command = std::decay_t<decltype(command)>;
        if constexpr (std::is_same_v<Command, Fill> || std::is_same_v<Command, Stroke> ||
                      std::is_same_v<Command, PushClip>) {
          copy.path = moved(std::move(copy.path), by);
        } else if constexpr (std::is_same_v<Command, TextRun>) {
          copy.baseline = copy.baseline + by;
        } else if constexpr (std::is_same_v<Command, Image> || std::is_same_v<Command, Link> ||
                             std::is_same_v<Command, Mark>) {
          copy.box.origin = copy.box.origin + by;
        } else {
          static_assert(std::is_same_v<Command, PopClip> || std::is_same_v<Command, Begin> ||
                        std::is_same_v<Command, End>);
        }
        return copy;
      },
      item);
}

void append_moved(std::vector<DrawItem>& into, const Drawing& drawing, Point by) {
  into.reserve(into.size() + drawing.items.size());
  for (const DrawItem& item : drawing.items) into.push_back(moved_item(item, by));
}

} // namespace leafwright
