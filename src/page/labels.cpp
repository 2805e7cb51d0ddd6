#include "page/labels.h"

#include "page/blocks.h"
#include "page/paragraph.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright::page {

namespace {

constexpr std::array<int, 6> percents = {100, 92, 84, 76, 68, 60}; // of the styles' sizes

struct SetLabel {
  FramePtr frame; // as wide as the room
  Length height;
  bool fits = false;
};

TextStyle scaled(TextStyle style, int percent) {
  style.size = style.size * percent / 100;
  style.leading = style.leading * percent / 100;
  style.measure = {};
  style.hyphenate = false;
  return style;
}

// All lines at that size; `most` is the height beyond which lines are left away.
SetLabel set_at(const guide::Labels::Label& label, Size room, int percent, bool may_turn, bool cut,
                Context& context) {
  auto frame = std::make_shared<Frame>();
  SetLabel set;
  set.fits = true;
  Length y{};
  for (std::size_t i = 0; i < label.lines.size(); ++i) {
    const TextStyle style =
        scaled(context.look.style(i == 0 ? "label-name" : "label-line"), percent);
    const Paragraph paragraph(plain(label.lines[i]), style, context);
    if (paragraph.empty()) continue;
    const bool wide = paragraph.widest() > room.width;
    if (wide && (!may_turn || paragraph.narrowest() > room.width)) set.fits = false;
    if (!set.fits && !cut) return set;
    Node node;
    node.type = "P";
    frame->ops.emplace_back(OpenNode{std::move(node), false});
    for (const SetLine& line : paragraph.set(room.width, context)) {
      if (y + style.leading > room.height) {
        set.fits = false;
        break;
      }
      frame->ops.emplace_back(Stand{{{}, y}, line.frame});
      y += style.leading;
    }
    frame->ops.emplace_back(CloseNode{});
    if (!set.fits && !cut) return set;
  }
  set.height = y;
  frame->size = {room.width, y};
  set.frame = std::move(frame);
  return set;
}

SetLabel set_label(const guide::Labels::Label& label, Size room, Context& context) {
  for (const bool may_turn : {false, true})
    for (const int percent : percents) {
      SetLabel set = set_at(label, room, percent, may_turn, false, context);
      if (set.fits) return set;
    }
  context.place = label.place;
  context.tell(Severity::Warning, "label-overfull",
               fmt::format("the label of {} has more to say than it has room for",
                           label.lines.empty() ? std::string("nobody") : label.lines.front()),
               "lines that fit at a legible size", "shorten it, or use larger labels");
  return set_at(label, room, percents.back(), true, true, context);
}

} // namespace

std::vector<FramePtr> label_sheets(const guide::Labels& labels, Context& context) {
  std::vector<FramePtr> sheets;
  if (labels.boxes.empty()) return sheets;
  const Place outer = context.place;
  std::shared_ptr<Frame> sheet;
  auto at = static_cast<std::size_t>(std::max(labels.first, 0)) % labels.boxes.size();
  for (std::size_t i = 0; i < labels.labels.size(); ++i) {
    if (!sheet) {
      sheet = std::make_shared<Frame>();
      sheet->size = labels.paper;
    }
    const Rect box = labels.boxes[at];
    // Printers miss by a millimetre or so: nothing stands nearer to the edge than a sixteenth of
    // the label's width, 1.5 mm at least and 4 mm at most.
    const Length margin = std::clamp(box.size.width / 16, micrometres(1500), millimetres(4));
    const Size room{box.size.width - margin * 2, box.size.height - margin};
    const SetLabel set = set_label(labels.labels[i], room, context);
    sheet->ops.emplace_back(DrawItem{Mark{"label", fmt::format("{}", i + 1), box, box.size}});
    if (set.frame)
      sheet->ops.emplace_back(
          Stand{box.origin + Point{margin, (box.size.height - set.height) / 2}, set.frame});
    if (++at == labels.boxes.size()) {
      sheets.push_back(std::move(sheet));
      sheet.reset();
      at = 0;
    }
  }
  if (sheet) sheets.push_back(std::move(sheet));
  context.place = outer;
  return sheets;
}

} // namespace leafwright::page
