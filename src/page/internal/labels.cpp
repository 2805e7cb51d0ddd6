#include "page/internal/labels.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "page/internal/blocks.h"
#include "page/internal/furniture.h"
#include "page/internal/paragraph.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright::page {

namespace {

// Of the styles' sizes: large labels are read from further away.
constexpr std::array<int, 9> percents = {160, 140, 120, 100, 92, 84, 76, 68, 60};

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
      frame->ops.emplace_back(Inset{{{}, y}, line.frame});
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

// The largest size at which no line turns over; the smallest when there is none.
int natural_percent(const guide::Labels::Label& label, Size room, Context& context) {
  for (const int percent : percents)
    if (set_at(label, room, percent, false, false, context).fits) return percent;
  return percents.back();
}

SetLabel set_label(const guide::Labels::Label& label, Size room, int most, Context& context) {
  constexpr int least_unturned = 84; // a line turned over reads better than one yet smaller
  for (const bool may_turn : {false, true})
    for (const int percent : percents) {
      if (percent > most || (!may_turn && percent < std::min(most, least_unturned))) continue;
      SetLabel set = set_at(label, room, percent, may_turn, false, context);
      if (set.fits) return set;
    }
  context.tell(Severity::Warning, "label-overfull",
               fmt::format("the label of {} has more to say than it has room for",
                           detail::shown(label.lines.empty() ? "nobody" : label.lines.front())),
               "lines that fit at a legible size", "shorten it, or use larger labels");
  return set_at(label, room, percents.back(), true, true, context);
}

// Printers miss by a millimetre or so: nothing stands nearer to the edge than a sixteenth of the
// label's width, 1.5 mm at least and 4 mm at most.
Length margin_of(Rect box) {
  return std::clamp(box.size.width / 16, micrometres(1500), millimetres(4));
}
Size room_of(Rect box) {
  const Length margin = margin_of(box);
  return {box.size.width - margin * 2, box.size.height - margin};
}

// One size for all but the few that have much to say: that which four of five can take.
int common_percent(const guide::Labels& labels, Context& context) {
  std::vector<int> natural;
  for (const guide::Labels::Label& label : labels.labels) {
    context.place = label.place;
    natural.push_back(natural_percent(label, room_of(labels.boxes.front()), context));
  }
  if (natural.empty()) return percents.front();
  const auto fifth = natural.begin() + static_cast<std::ptrdiff_t>(natural.size() / 5);
  std::nth_element(natural.begin(), fifth, natural.end());
  return *fifth;
}

} // namespace

std::vector<FramePtr> label_sheets(const guide::Labels& labels, bool draft, Context& context) {
  std::vector<FramePtr> sheets;
  if (labels.boxes.empty()) return sheets;
  const Place outer = context.place;
  std::shared_ptr<Frame> sheet;
  const int common = common_percent(labels, context);
  auto at = as_index(std::max(labels.first, 0)) % labels.boxes.size();
  for (std::size_t i = 0; i < labels.labels.size(); ++i) {
    if (!sheet) {
      sheet = std::make_shared<Frame>();
      sheet->size = labels.paper;
    }
    const Rect box = labels.boxes[at];
    const Length margin = margin_of(box);
    context.place = labels.labels[i].place;
    const SetLabel set = set_label(labels.labels[i], room_of(box), common, context);
    sheet->ops.emplace_back(DrawItem{Mark{"label", fmt::format("{}", i + 1), box, box.size}});
    if (draft) {
      const Length size = std::min(box.size.width / 4, box.size.height / 2);
      sheet->ops.emplace_back(Furniture{true});
      sheet->ops.emplace_back(draft_word(box.centre(), size, {}, context));
      sheet->ops.emplace_back(Furniture{false});
    }
    if (set.frame)
      sheet->ops.emplace_back(
          Inset{box.origin + Point{margin, (box.size.height - set.height) / 2}, set.frame});
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
