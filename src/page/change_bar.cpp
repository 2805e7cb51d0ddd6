#include "page/change_bar.h"

namespace leafwright::page {

namespace {

constexpr double distance = 9;    // points from the words: clear of them, and off no paper
constexpr double thickness = 1.5; // points

} // namespace

void add_change_bar(std::vector<Op>& ops, Point at, Length height, const Context& context) {
  const Length x = at.x - points(distance);
  Stroke bar;
  bar.path = straight({x, at.y}, {x, at.y + height});
  bar.colour = context.colour("accent");
  bar.width = points(thickness);
  ops.emplace_back(Furniture{true});
  ops.emplace_back(DrawItem{std::move(bar)});
  ops.emplace_back(DrawItem{Mark{"change-bar", {}, {{x, at.y}, {{}, height}}, {{}, height}}});
  ops.emplace_back(Furniture{false});
}

void mark_changed(Flow& flow, const Context& context) {
  for (FlowItem& item : flow) {
    auto frame = std::make_shared<Frame>();
    frame->size = item.frame->size;
    add_change_bar(frame->ops, {}, frame->size.height, context);
    frame->ops.emplace_back(Stand{{}, item.frame});
    item.frame = std::move(frame);
  }
}

} // namespace leafwright::page
