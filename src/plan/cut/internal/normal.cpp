#include "plan/cut/internal/normal.h"

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <tuple>

namespace leafwright::cut {

namespace {

// Sums of two lengths must not overflow, nor areas in 128 bits.
constexpr Length longest = Length{1} << 56;
// More small units than this across a sheet are too many for the grids; sizes are then rounded.
constexpr Length widest_grid = 16384;

bool in_range(Length value, Length least) { return value >= least && value <= longest; }

void check_numbers(const Job& job, std::vector<JobFault>& findings) {
  using enum JobFault::Number;
  const auto bad = [&](int piece, int sheet, JobFault::Number number) {
    JobFault finding;
    finding.piece = piece;
    finding.sheet = sheet;
    finding.number = number;
    findings.push_back(finding);
  };
  for (std::size_t i = 0; i < job.pieces.size(); ++i) {
    const PieceType& p = job.pieces[i];
    const auto index = static_cast<int>(i);
    if (!in_range(p.width, 1) || !in_range(p.height, 1)) bad(index, -1, Size);
    if (p.copies < 0 || p.copies > most_copies) bad(index, -1, Copies);
  }
  for (std::size_t i = 0; i < job.sheets.size(); ++i) {
    const SheetType& s = job.sheets[i];
    const auto index = static_cast<int>(i);
    if (!in_range(s.width, 1) || !in_range(s.height, 1)) bad(-1, index, Size);
    if (s.price < 0 || s.price > highest_price) bad(-1, index, Price);
    if (s.limit && *s.limit < 0) bad(-1, index, Limit);
  }
  const Rules& r = job.rules;
  for (Length value :
       {r.blade, r.smallest_strip, r.trim.left, r.trim.right, r.trim.bottom, r.trim.top}) {
    if (!in_range(value, 0)) {
      bad(-1, -1, Margin);
      break;
    }
  }
  if (r.stages < 0) bad(-1, -1, Stages);
}

struct Usable {
  Length width = 0, height = 0;
};

// Trimming an edge needs a cut; the blade runs inside the margin when the margin is wide enough.
Length margin(Length trim, Length blade) { return trim > 0 ? std::max(trim, blade) : 0; }

Usable usable(const SheetType& sheet, const Rules& rules) {
  return {
      sheet.width - margin(rules.trim.left, rules.blade) - margin(rules.trim.right, rules.blade),
      sheet.height - margin(rules.trim.bottom, rules.blade) - margin(rules.trim.top, rules.blade)};
}

bool rest_allowed(Length rest, Length blade, Length strip) {
  return rest == 0 || rest >= blade + strip;
}

bool fits(Length w, Length h, const Usable& u, const Rules& rules) {
  return w <= u.width && h <= u.height &&
         (rules.smallest_strip == 0 ||
          (rest_allowed(u.width - w, rules.blade, rules.smallest_strip) &&
           rest_allowed(u.height - h, rules.blade, rules.smallest_strip)));
}

void find_misfits(const Job& job, std::vector<JobFault>& findings) {
  const Rules& r = job.rules;
  for (std::size_t i = 0; i < job.pieces.size(); ++i) {
    const PieceType& p = job.pieces[i];
    if (p.copies == 0) continue;
    bool found = false;
    for (const SheetType& s : job.sheets) {
      const Usable u = usable(s, r);
      const bool turn = p.may_turn && s.pieces_may_turn;
      found = found || fits(p.width, p.height, u, r) || (turn && fits(p.height, p.width, u, r));
    }
    if (found) continue;
    JobFault finding;
    finding.kind = FindingKind::PieceFitsNoSheet;
    finding.piece = static_cast<int>(i);
    finding.needs_width = p.width + margin(r.trim.left, r.blade) + margin(r.trim.right, r.blade);
    finding.needs_height = p.height + margin(r.trim.bottom, r.blade) + margin(r.trim.top, r.blade);
    findings.push_back(finding);
  }
}

struct Common {
  Length x = 0, y = 0;
};

int rounded_up(Length length, Length unit) { return static_cast<int>((length + unit - 1) / unit); }

Common divisors(const Job& job, bool any_turn) {
  Common g;
  const Length k = job.rules.blade;
  for (const PieceType& p : job.pieces) {
    if (p.copies == 0) continue;
    g.x = std::gcd(g.x, p.width + k);
    g.y = std::gcd(g.y, p.height + k);
  }
  if (job.rules.smallest_strip > 0 || job.rules.stages > 0) {
    // Waste is measured then, so the sheets count too.
    const Length strip = job.rules.smallest_strip > 0 ? job.rules.smallest_strip + k : 0;
    g.x = std::gcd(g.x, strip);
    g.y = std::gcd(g.y, strip);
    for (const SheetType& s : job.sheets) {
      const Usable u = usable(s, job.rules);
      g.x = std::gcd(g.x, std::max<Length>(0, u.width) + k);
      g.y = std::gcd(g.y, std::max<Length>(0, u.height) + k);
    }
  }
  if (any_turn) g.x = g.y = std::gcd(g.x, g.y);
  g.x = std::max<Length>(1, g.x);
  g.y = std::max<Length>(1, g.y);
  return g;
}

// Whether turning a piece makes a difference.
struct Turning {
  bool stock_turns = false;
  bool all_stocks_turn = true;
  bool any_turn = false;
};
Turning turning_of(const Job& job) {
  Turning turning;
  for (const SheetType& s : job.sheets) {
    turning.stock_turns = turning.stock_turns || s.pieces_may_turn;
    turning.all_stocks_turn = turning.all_stocks_turn && s.pieces_may_turn;
  }
  turning.any_turn = std::any_of(job.pieces.begin(), job.pieces.end(), [&](const PieceType& p) {
    return p.may_turn && turning.stock_turns && p.width != p.height && p.copies > 0;
  });
  return turning;
}

void choose_units(const Job& job, bool any_turn, Normal& n) {
  const Length k = job.rules.blade;
  Length most_x = 0;
  Length most_y = 0;
  for (const SheetType& s : job.sheets) {
    const Usable u = usable(s, job.rules);
    most_x = std::max(most_x, u.width + k);
    most_y = std::max(most_y, u.height + k);
  }
  Common g = divisors(job, any_turn);
  if (most_x / g.x > widest_grid || most_y / g.y > widest_grid) {
    n.coarse = true;
    g.x = std::max(g.x, most_x / widest_grid + 1);
    g.y = std::max(g.y, most_y / widest_grid + 1);
    if (any_turn) g.x = g.y = std::max(g.x, g.y);
  }
  n.unit_x = g.x;
  n.unit_y = g.y;
  n.blade = k;
  n.stages = job.rules.stages;
  if (job.rules.smallest_strip > 0) {
    n.strip_x = rounded_up(job.rules.smallest_strip + k, g.x);
    n.strip_y = rounded_up(job.rules.smallest_strip + k, g.y);
  }
}

void add_types(const Job& job, const Turning& turning, Normal& n) {
  std::map<std::tuple<Length, Length, bool>, std::size_t> seen;
  for (std::size_t i = 0; i < job.pieces.size(); ++i) {
    const PieceType& p = job.pieces[i];
    if (p.copies == 0) continue;
    Length w = p.width + n.blade;
    Length h = p.height + n.blade;
    const bool turn = p.may_turn && turning.stock_turns && w != h;
    // Where every stock lets pieces turn, a x b and b x a are the same piece.
    if (turn && turning.all_stocks_turn && w < h) std::swap(w, h);
    const auto [at, fresh] = seen.try_emplace(std::make_tuple(w, h, turn), n.types.size());
    if (fresh) {
      Type type;
      type.real_width = w;
      type.real_height = h;
      // Exact unless coarse.
      type.width = rounded_up(w, n.unit_x);
      type.height = rounded_up(h, n.unit_y);
      type.may_turn = turn;
      n.types.push_back(type);
    }
    Type& type = n.types[at->second];
    type.demand += p.copies;
    type.pieces.emplace_back(static_cast<int>(i), p.copies);
  }
  std::stable_sort(n.types.begin(), n.types.end(), [](const Type& a, const Type& b) {
    return std::int64_t{a.width} * a.height > std::int64_t{b.width} * b.height;
  });
}

// How the types may lie on a stock.
std::vector<OrientedType> shapes_on(const StockSize& stock, const Usable& u, const Job& job,
                                    const Normal& n) {
  std::vector<OrientedType> shapes;
  const auto add = [&](int type, Length w, Length h, bool turned) {
    if (!fits(w - n.blade, h - n.blade, u, job.rules)) return;
    // A piece as wide as the sheet may have been rounded beyond it; nothing lies beside it then.
    shapes.push_back({std::min(rounded_up(w, n.unit_x), stock.width),
                      std::min(rounded_up(h, n.unit_y), stock.height), type, turned});
  };
  for (std::size_t t = 0; t < n.types.size(); ++t) {
    const Type& type = n.types[t];
    add(static_cast<int>(t), type.real_width, type.real_height, false);
    if (type.may_turn && stock.may_turn)
      add(static_cast<int>(t), type.real_height, type.real_width, true);
  }
  return shapes;
}

void add_stocks(const Job& job, Normal& n) {
  for (std::size_t i = 0; i < job.sheets.size(); ++i) {
    const SheetType& s = job.sheets[i];
    const Usable u = usable(s, job.rules);
    if (u.width <= 0 || u.height <= 0 || s.limit == 0) continue;
    StockSize stock;
    stock.width = static_cast<int>((u.width + n.blade) / n.unit_x);
    stock.height = static_cast<int>((u.height + n.blade) / n.unit_y);
    stock.price = s.price;
    stock.limit = s.limit.value_or(-1);
    stock.may_turn = s.pieces_may_turn;
    stock.sheet = static_cast<int>(i);
    std::vector<OrientedType> shapes = shapes_on(stock, u, job, n);
    if (shapes.empty()) continue;
    n.stocks.push_back(stock);
    n.shapes.push_back(std::move(shapes));
  }
}

} // namespace

Normal normalise(const Job& job) {
  Normal n;
  check_numbers(job, n.findings);
  if (n.findings.empty()) find_misfits(job, n.findings);
  if (!n.findings.empty()) return n;
  const Turning turning = turning_of(job);
  choose_units(job, turning.any_turn, n);
  add_types(job, turning, n);
  add_stocks(job, n);
  return n;
}

} // namespace leafwright::cut
