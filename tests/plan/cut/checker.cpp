#include "checker.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::cut::check {

std::vector<Rectangle> placed(const Pattern& pattern) {
  std::vector<Rectangle> result;
  for (const Part& part : pattern.parts) {
    if (part.kind == PartKind::Piece) {
      result.push_back({part.x, part.y, part.width, part.height, part.piece});
    }
  }
  return result;
}

namespace {

void mirror(std::vector<Rectangle>& rectangles) {
  for (Rectangle& r : rectangles) {
    std::swap(r.x, r.y);
    std::swap(r.width, r.height);
  }
}

// Parts the set at the first gap an upright cut can run through; empty second set: none.
std::vector<Rectangle> split_off(std::vector<Rectangle>& rectangles, Length blade) {
  std::sort(rectangles.begin(), rectangles.end(),
            [](const Rectangle& a, const Rectangle& b) { return a.x < b.x; });
  Length reach = rectangles.front().x + rectangles.front().width;
  for (std::size_t i = 1; i < rectangles.size(); ++i) {
    if (rectangles[i].x >= reach + blade) {
      const auto at = rectangles.begin() + static_cast<std::ptrdiff_t>(i);
      std::vector<Rectangle> rest(at, rectangles.end());
      rectangles.erase(at, rectangles.end());
      return rest;
    }
    reach = std::max(reach, rectangles[i].x + rectangles[i].width);
  }
  return {};
}

} // namespace

bool separable(std::vector<Rectangle> rectangles, Length blade) {
  if (rectangles.size() <= 1) return true;
  for (int direction = 0; direction < 2; ++direction) {
    std::vector<Rectangle> rest = split_off(rectangles, blade);
    if (!rest.empty()) {
      // Any cut that crosses nothing may be made first: it never spoils a later one.
      return separable(std::move(rectangles), blade) && separable(std::move(rest), blade);
    }
    mirror(rectangles);
  }
  return false;
}

namespace {

bool apart(const Rectangle& a, const Rectangle& b, Length blade) {
  return a.x + a.width + blade <= b.x || b.x + b.width + blade <= a.x ||
         a.y + a.height + blade <= b.y || b.y + b.height + blade <= a.y;
}

void check_place(const Job& job, const Pattern& pattern, std::vector<std::string>& faults) {
  const SheetType& sheet = job.sheets[static_cast<std::size_t>(pattern.sheet)];
  const Rules& rules = job.rules;
  const std::vector<Rectangle> rectangles = placed(pattern);
  for (const Part& part : pattern.parts) {
    if (part.kind != PartKind::Piece) continue;
    const PieceType& piece = job.pieces[static_cast<std::size_t>(part.piece)];
    const bool turned = part.turned;
    if (turned && (!piece.may_turn || !sheet.pieces_may_turn)) {
      faults.push_back(fmt::format("piece {} is turned", piece.id));
    }
    if (part.width != (turned ? piece.height : piece.width) ||
        part.height != (turned ? piece.width : piece.height)) {
      faults.push_back(fmt::format("piece {} has a wrong size", piece.id));
    }
    if (part.x < rules.trim.left || part.y < rules.trim.bottom ||
        part.x + part.width > sheet.width - rules.trim.right ||
        part.y + part.height > sheet.height - rules.trim.top) {
      faults.push_back(fmt::format("piece {} lies outside the sheet", piece.id));
    }
  }
  for (std::size_t i = 0; i < rectangles.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (!apart(rectangles[i], rectangles[j], rules.blade)) {
        faults.push_back(
            fmt::format("two pieces overlap at {}, {}", rectangles[i].x, rectangles[i].y));
      }
    }
  }
  if (!separable(rectangles, rules.blade)) faults.emplace_back("a pattern is not straight-cut");
}

// Margins are the caller's own wish, however narrow.
bool margin_cut(const Job& job, const Part& p) {
  const Trim& trim = job.rules.trim;
  const SheetType& sheet = job.sheets.front();
  const bool whole_width = p.width >= sheet.width - trim.left - trim.right;
  const bool whole_height = p.height >= sheet.height - trim.bottom - trim.top;
  return (trim.left + trim.right + trim.bottom + trim.top > 0) &&
         (p.direction == Direction::Upright ? whole_height && p.x < trim.left + 1
                                            : whole_width && p.y < trim.bottom + 1);
}

void check_tree(const Job& job, const Pattern& pattern, std::vector<std::string>& faults) {
  const Length k = job.rules.blade;
  const Length strip = job.rules.smallest_strip;
  const auto fault = [&](const char* text) { faults.emplace_back(text); };
  if (pattern.parts.empty()) return fault("a pattern has no parts");
  std::vector<int> parents(pattern.parts.size(), 0);
  for (std::size_t i = 0; i < pattern.parts.size(); ++i) {
    const Part& p = pattern.parts[i];
    if (p.width <= 0 || p.height <= 0) fault("a part is empty");
    if (p.kind != PartKind::Cut) continue;
    const bool upright = p.direction == Direction::Upright;
    const Length whole = upright ? p.width : p.height;
    const Length rest = whole - p.position - k;
    if (p.position < 0 || p.position >= whole) fault("a cut misses its part");
    if ((p.first >= 0) != (p.position > 0)) fault("a first part is missing or too much");
    if ((p.second >= 0) != (rest > 0)) fault("a second part is missing or too much");
    if (strip > 0 && !margin_cut(job, p) && (p.position < strip || rest < strip)) {
      fault("a strip is too narrow to hold");
    }
    for (const int child : {p.first, p.second}) {
      if (child < 0) continue;
      if (child <= static_cast<int>(i)) {
        fault("a child stands before its parent");
        continue;
      }
      ++parents[static_cast<std::size_t>(child)];
      const Part& c = pattern.parts[static_cast<std::size_t>(child)];
      const bool second = child == p.second;
      const Length shift = second ? p.position + k : 0;
      const Length size = second ? rest : p.position;
      const bool right =
          upright ? c.x == p.x + shift && c.y == p.y && c.width == size && c.height == p.height
                  : c.y == p.y + shift && c.x == p.x && c.height == size && c.width == p.width;
      if (!right) fault("a part does not follow from its cut");
    }
  }
  for (std::size_t i = 1; i < parents.size(); ++i) {
    if (parents[i] != 1) fault("a part is not reached by exactly one cut");
  }
  const SheetType& sheet = job.sheets[static_cast<std::size_t>(pattern.sheet)];
  const Part& root = pattern.parts.front();
  if (root.x != 0 || root.y != 0 || root.width != sheet.width || root.height != sheet.height) {
    fault("the first part is not the sheet");
  }
}

int turns_below(const Pattern& pattern, int index, int coming_from) {
  if (index < 0) return 0;
  const Part& p = pattern.parts[static_cast<std::size_t>(index)];
  if (p.kind != PartKind::Cut) return 0;
  const int direction = static_cast<int>(p.direction);
  const int here = direction == coming_from ? 0 : 1;
  return here + std::max(turns_below(pattern, p.first, direction),
                         turns_below(pattern, p.second, direction));
}

// The part that is left when the edges have been trimmed.
int first_inside_margins(const Job& job, const Pattern& pattern) {
  const Trim& trim = job.rules.trim;
  int at = 0;
  const auto part = [&]() -> const Part& { return pattern.parts[static_cast<std::size_t>(at)]; };
  if (trim.left > 0) at = part().second;
  if (trim.right > 0) at = part().first;
  if (trim.bottom > 0) at = part().second;
  if (trim.top > 0) at = part().first;
  return at;
}

} // namespace

std::vector<std::string> faults(const Job& job, const Plan& plan) {
  std::vector<std::string> result;
  std::vector<std::int64_t> count(job.pieces.size(), 0);
  std::vector<std::int64_t> used(job.sheets.size(), 0);
  std::int64_t sheets = 0;
  std::int64_t cost = 0;
  for (const Pattern& pattern : plan.patterns) {
    if (pattern.count <= 0) result.emplace_back("a pattern is used no time");
    sheets += pattern.count;
    used[static_cast<std::size_t>(pattern.sheet)] += pattern.count;
    cost += pattern.count * job.sheets[static_cast<std::size_t>(pattern.sheet)].price;
    for (const Rectangle& r : placed(pattern)) {
      count[static_cast<std::size_t>(r.piece)] += pattern.count;
    }
    check_place(job, pattern, result);
    check_tree(job, pattern, result);
    if (job.rules.stages > 0 &&
        turns_below(pattern, first_inside_margins(job, pattern), -1) > job.rules.stages) {
      result.emplace_back("too many stages");
    }
  }
  for (std::size_t i = 0; i < count.size(); ++i) {
    if (count[i] != job.pieces[i].copies) {
      result.push_back(fmt::format("piece {} is cut {} times instead of {}", job.pieces[i].id,
                                   count[i], job.pieces[i].copies));
    }
  }
  for (std::size_t s = 0; s < used.size(); ++s) {
    if (job.sheets[s].limit && used[s] > *job.sheets[s].limit) {
      result.push_back(fmt::format("sheet {} is used {} times", job.sheets[s].id, used[s]));
    }
  }
  if (sheets != plan.sheets || cost != plan.cost) result.emplace_back("sheets or cost are wrong");
  if (plan.bound_cost > plan.cost) result.emplace_back("the bound is above the cost");
  if (plan.proven != (plan.bound_cost == plan.cost)) result.emplace_back("proven is wrong");
  return result;
}

} // namespace leafwright::cut::check
