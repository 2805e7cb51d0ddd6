#include "plan/supply/sheets.h"

#include "measure/index.h"

#include <algorithm>
#include <utility>

namespace leafwright::supply {

const Tool* trimmer_of(const Project& project) {
  const auto found = std::find_if(project.tools.begin(), project.tools.end(),
                                  [](const Tool& tool) { return tool.cut_length > Length{}; });
  return found == project.tools.end() ? nullptr : &*found;
}

cut::Rules cutting_rules() { return {}; }

namespace {

using Move = SheetLayout::Move;

// A part of one sheet that is cut up in one direction.
struct Part {
  Rect box;
  int depth = 0; // cutting directions before it
  Round round;   // of this part alone
};

// Whether `move` goes on with what `before` has left over.
bool goes_on(const Move& before, const Move& move) {
  if (before.across != move.across) return false;
  const Rect &a = before.from, &b = move.from;
  return before.across ? b.left() == a.left() && b.size.width == a.size.width &&
                             b.bottom() == a.bottom() && b.top() > a.top()
                       : b.top() == a.top() && b.size.height == a.size.height &&
                             b.right() == a.right() && b.left() > a.left();
}

std::vector<Part> parts_of(const SheetLayout& layout) {
  std::vector<Part> parts;
  const Move* before = nullptr;
  for (std::size_t m = 0; m < layout.moves.size(); ++m) {
    const Move& move = layout.moves[m];
    if (!before || !goes_on(*before, move)) {
      Part part{move.from, 0, {}};
      for (const Part& other : parts)
        if (other.box.contains(part.box)) part.depth = std::max(part.depth, other.depth + 1);
      part.round.part = move.from.size;
      part.round.across = move.across;
      parts.push_back(std::move(part));
    }
    std::vector<Setting>& settings = parts.back().round.settings;
    if (settings.empty() || settings.back().fence != move.at)
      settings.push_back({0, move.at, 0, {}, {}});
    Setting& setting = settings.back();
    setting.cuts += 1;
    setting.moves.push_back(static_cast<int>(m));
    setting.gives.insert(setting.gives.end(), move.gives.begin(), move.gives.end());
    before = &move;
  }
  return parts;
}

bool same_work(const Round& a, const Round& b) {
  return a.part == b.part && a.across == b.across &&
         std::equal(a.settings.begin(), a.settings.end(), b.settings.begin(), b.settings.end(),
                    [](const Setting& x, const Setting& y) {
                      return x.fence == y.fence && x.cuts == y.cuts;
                    });
}

template <class T>
void append(std::vector<T>& to, const std::vector<T>& from) {
  to.insert(to.end(), from.begin(), from.end());
}

} // namespace

std::int64_t stack_of(const Project& project, int stock) {
  const Tool* trimmer = trimmer_of(project);
  if (!trimmer || stock < 0 || as_index(stock) >= project.stocks.size()) return 1;
  const Length caliper = project.stocks[as_index(stock)].caliper;
  if (trimmer->stack_height <= Length{} || caliper <= Length{}) return 1;
  return std::max<std::int64_t>(1, trimmer->stack_height.nm / caliper.nm);
}

void order_cuts(SheetLayout& layout, std::int64_t stack) {
  std::vector<Part> parts = parts_of(layout);
  // A part can be cut only once all above it are: by depth, then as the planner laid them.
  std::stable_sort(parts.begin(), parts.end(),
                   [](const Part& a, const Part& b) { return a.depth < b.depth; });
  WorkOrder& order = layout.work;
  order = {};
  int depth = -1;
  std::size_t first_of_depth = 0;
  for (Part& part : parts) {
    if (part.depth != depth) {
      depth = part.depth;
      first_of_depth = order.rounds.size();
    }
    const auto from = order.rounds.begin() + static_cast<std::ptrdiff_t>(first_of_depth);
    const auto same = std::find_if(
        from, order.rounds.end(), [&](const Round& round) { return same_work(round, part.round); });
    if (same == order.rounds.end()) {
      order.rounds.push_back(std::move(part.round));
      continue;
    }
    same->parts += 1;
    for (std::size_t i = 0; i < same->settings.size(); ++i) {
      append(same->settings[i].moves, part.round.settings[i].moves);
      append(same->settings[i].gives, part.round.settings[i].gives);
    }
  }
  for (Round& round : order.rounds) {
    round.parts *= std::max(layout.times, 1);
    round.stack = std::min(std::max<std::int64_t>(stack, 1), round.parts);
    round.stacks = (round.parts + round.stack - 1) / round.stack;
    for (Setting& setting : round.settings) {
      setting.number = ++order.settings;
      for (const int move : setting.moves) layout.moves.at(as_index(move)).number = setting.number;
    }
    order.strokes += round.strokes();
  }
}

} // namespace leafwright::supply
