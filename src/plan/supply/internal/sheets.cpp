#include "plan/supply/sheets.h"

#include "measure/index.h"
#include "plan/supply/internal/unfold.h"
#include "plan/supply/needs.h"
#include "plan/supply/work_order.h"

#include <algorithm>
#include <utility>

namespace leafwright::supply {

SheetOrientation wished_orientation(const Stock& stock, const Piece& piece) {
  if (stock.upright) return SheetOrientation::Upright;
  if (stock.grain == Stock::Grain::Unknown || piece.scores.empty()) return SheetOrientation::Either;
  const bool vertical = piece.scores.front().vertical;
  const bool one_way =
      std::all_of(piece.scores.begin(), piece.scores.end(),
                  [vertical](const Score& score) { return score.vertical == vertical; });
  if (!one_way) return SheetOrientation::Either;
  const bool along_height = stock.grain == Stock::Grain::AlongHeight;
  return vertical == along_height ? SheetOrientation::Upright : SheetOrientation::Turned;
}

bool fits_a_sheet(const Stock& stock, Size rectangle, SheetOrientation orientation) {
  return std::any_of(stock.sheets.begin(), stock.sheets.end(), [&](const SheetOffer& offer) {
    return (orientation != SheetOrientation::Turned && fits(rectangle, offer.size)) ||
           (orientation != SheetOrientation::Upright && fits(rectangle.turned(), offer.size));
  });
}

SheetOrientation sheet_orientation(const Stock& stock, const Piece& piece) {
  const SheetOrientation wished = wished_orientation(stock, piece);
  if (stock.upright || fits_a_sheet(stock, rectangle_of(piece), wished)) return wished;
  return SheetOrientation::Either;
}

Size rectangle_of(const Piece& piece) {
  return piece.cut_from == Size{} ? piece.size : piece.cut_from;
}

namespace {

// Lines of one size that may lie alike are one piece to the planner, and are dealt out afterwards.
struct Type {
  Size size; // as it lies upright on the sheet
  bool may_turn = true;
  bool swapped = false; // laid by a quarter turn before the planner sees it
  struct Share {
    int line = -1;
    std::int64_t left = 0;
  };
  std::vector<Share> shares;
};

Fingerprint fingerprint_of(const cut::Job& job) {
  Fingerprinter print;
  print.put(job.pieces.size());
  for (const cut::PieceType& one : job.pieces)
    print.put(one.id, one.width, one.height, one.copies, one.may_turn);
  print.put(job.sheets.size());
  for (const cut::SheetType& one : job.sheets)
    print.put(one.id, one.width, one.height, one.price, one.limit, one.pieces_may_turn);
  const cut::Rules& rules = job.rules;
  print.put(rules.blade, rules.trim.left, rules.trim.right, rules.trim.bottom, rules.trim.top,
            rules.smallest_strip, rules.stages);
  return print.result();
}

class StockPlan {
 public:
  StockPlan(const Project& project, const std::vector<CutLine>& lines, int stock, int kits)
      : stock_(project.stocks.at(as_index(stock))) {
    result_.stock = stock;
    for (std::size_t i = 0; i < lines.size(); ++i)
      if (lines[i].stock == stock && lines[i].per_kit > 0)
        add(static_cast<int>(i), lines[i],
            sheet_orientation(stock_, piece_of(project, lines[i].piece)), kits);
  }

  bool empty() const { return types_.empty(); }

  StockSheets solve(bool one_kit, PlanCache* kept) {
    const cut::Job job = make_job();
    const cut::Plan plan = one_kit ? plan_of_kit(job, kept) : cut::plan(job);
    result_.sheets = static_cast<int>(plan.sheets);
    for (const cut::Pattern& pattern : plan.patterns) deal(pattern);
    for (const SheetLayout& layout : result_.layouts) {
      result_.waste += area(layout.sheet) * layout.times;
      for (const Placed& placed : layout.pieces)
        result_.used += area(placed.box.size) * layout.times;
    }
    result_.waste = result_.waste - result_.used;
    result_.at_least = static_cast<int>(std::max(plan.bound_sheets, bound_by_area()));
    return std::move(result_);
  }

 private:
  static cut::Plan plan_of_kit(const cut::Job& job, PlanCache* kept) {
    if (kept == nullptr) return cut::plan_kit(job);
    const Fingerprint print = fingerprint_of(job);
    if (const cut::Plan* known = kept->find(print)) return *known;
    cut::Plan plan = cut::plan_kit(job);
    kept->keep(print, plan);
    return plan;
  }

  void add(int index, const CutLine& line, SheetOrientation orientation, int kits) {
    if (!fits_a_sheet(stock_, line.rectangle, orientation)) return; // said by pieces_without_sheet
    const bool swapped = orientation == SheetOrientation::Turned;
    const Size size = swapped ? line.rectangle.turned() : line.rectangle;
    const bool may_turn = orientation == SheetOrientation::Either;
    auto same = std::find_if(types_.begin(), types_.end(), [&](const Type& type) {
      return type.size == size && type.may_turn == may_turn && type.swapped == swapped;
    });
    if (same == types_.end()) same = types_.insert(types_.end(), {size, may_turn, swapped, {}});
    same->shares.push_back({index, std::int64_t{line.per_kit} * std::max(kits, 0)});
  }

  cut::Job make_job() const {
    cut::Job job;
    job.rules = rules_;
    for (const Type& type : types_) {
      std::int64_t copies = 0;
      for (const Type::Share& share : type.shares) copies += share.left;
      job.pieces.push_back({std::to_string(job.pieces.size()), type.size.width.nm,
                            type.size.height.nm, copies, type.may_turn});
    }
    const bool priced = std::all_of(stock_.sheets.begin(), stock_.sheets.end(), [](const auto& o) {
      return o.sold.price && o.sold.price->minor > 0;
    });
    for (const SheetOffer& offer : stock_.sheets) {
      cut::SheetType sheet;
      sheet.id = std::to_string(job.sheets.size());
      sheet.width = offer.size.width.nm;
      sheet.height = offer.size.height.nm;
      if (stock_.sheets.size() > 1) sheet.price = priced ? price_of_one(offer) : area_price(offer);
      job.sheets.push_back(std::move(sheet));
    }
    return job;
  }

  static std::int64_t price_of_one(const SheetOffer& offer) {
    constexpr std::int64_t finer_price = 1000; // a sheet of a pack rarely costs whole minor units
    return std::max<std::int64_t>(1, offer.sold.price->minor * finer_price /
                                         std::max(1, offer.sold.count));
  }
  // Without prices the larger sheet is the dearer one, to the square millimetre.
  static std::int64_t area_price(const SheetOffer& offer) {
    return std::max<std::int64_t>(1, area(offer.size).um2 / 1'000'000);
  }

  // Half a square micrometre of each piece may be lost in rounding its area.
  std::int64_t bound_by_area() const {
    std::int64_t wanted = 0, largest = 1;
    for (const SheetLayout& layout : result_.layouts)
      for (const Placed& placed : layout.pieces)
        wanted += std::max<std::int64_t>(area(placed.box.size).um2 - 1, 0) * layout.times;
    for (const SheetOffer& offer : stock_.sheets)
      largest = std::max(largest, area(offer.size).um2 + 1);
    return (wanted + largest - 1) / largest;
  }

  // Gives every place of a pattern to a line that still wants pieces. All its sheets are dealt
  // alike where one line can serve them; otherwise the pattern comes apart into several layouts.
  void deal(const cut::Pattern& pattern) {
    SheetLayout layout = unfold(pattern, {rules_.blade});
    layout.stock = result_.stock;
    std::int64_t open = pattern.count;
    while (open > 0) {
      SheetLayout dealt = layout;
      std::int64_t times = open;
      std::vector<std::pair<Type::Share*, std::int64_t>> taken;
      for (Placed& placed : dealt.pieces) {
        Type& type = types_.at(as_index(placed.line));
        Type::Share* share = best_share(type, open);
        if (!share) return; // the planner placed more than was wanted: it does not
        share->left -= 1;
        times = std::min(times, room_for(taken, share));
        placed.line = share->line;
        placed.turned = placed.turned != type.swapped;
      }
      for (const auto& [share, each] : taken) share->left -= each * (times - 1);
      dealt.times = static_cast<int>(times);
      open -= times;
      result_.layouts.push_back(std::move(dealt));
    }
  }

  // The first line with enough for all sheets, or the one with most.
  static Type::Share* best_share(Type& type, std::int64_t sheets) {
    Type::Share* best = nullptr;
    for (Type::Share& share : type.shares) {
      if (share.left >= sheets) return &share;
      if (share.left > 0 && (!best || share.left > best->left)) best = &share;
    }
    return best;
  }

  // Notes one more piece per sheet from `share`, which has been charged for the first sheet, and
  // returns how many sheets it can serve in all.
  static std::int64_t room_for(std::vector<std::pair<Type::Share*, std::int64_t>>& taken,
                               Type::Share* share) {
    auto found = std::find_if(taken.begin(), taken.end(),
                              [share](const auto& entry) { return entry.first == share; });
    if (found == taken.end()) found = taken.insert(taken.end(), {share, 0});
    found->second += 1;
    return 1 + share->left / found->second;
  }

  const Stock& stock_;
  std::vector<Type> types_;
  const cut::Rules rules_ = cutting_rules();
  StockSheets result_;
};

KitSheets laid_out(const Project& project, int kits, PlanCache* kept) {
  KitSheets result;
  result.lines = cut_list(project);
  result.findings = pieces_without_sheet(project);
  for (std::size_t i = 0; i < project.stocks.size(); ++i) {
    StockPlan plan(project, result.lines, static_cast<int>(i), kits);
    if (!plan.empty()) result.stocks.push_back(plan.solve(kits <= 1, kept));
  }
  return result;
}

} // namespace

KitSheets sheets_for(const Project& project, int kits) { return laid_out(project, kits, nullptr); }
KitSheets sheets_for(const Project& project, PlanCache& kept) {
  return laid_out(project, 1, &kept);
}

bool worth_keeping(const Project& project, Size rest) {
  const Length least =
      project.printing.unit == leafwright::Unit::Inch ? inches(2) : millimetres(50);
  return rest.width >= least && rest.height >= least;
}

void add_sheets(Needs& needs, const KitSheets& layout) {
  for (Need& need : needs) {
    if (need.item.kind != ItemKind::Stock) continue;
    const auto found =
        std::find_if(layout.stocks.begin(), layout.stocks.end(),
                     [&](const StockSheets& stock) { return stock.stock == need.item.index; });
    if (found != layout.stocks.end()) need.sheets = found->sheets;
  }
}

std::vector<CutLine> cut_list(const Project& project) {
  std::vector<CutLine> lines;
  for (std::size_t c = 0; c < project.cards.size(); ++c) {
    const std::vector<Piece>& pieces = project.cards[c].pieces;
    for (std::size_t p = 0; p < pieces.size(); ++p) {
      const Piece& piece = pieces[p];
      if (piece.stock < 0 || as_index(piece.stock) >= project.stocks.size()) continue;
      const Stock& stock = project.stocks[as_index(piece.stock)];
      CutLine line;
      line.piece = {static_cast<int>(c), static_cast<int>(p)};
      line.letter = piece.letter;
      line.stock = piece.stock;
      line.rectangle = rectangle_of(piece);
      line.may_turn = sheet_orientation(stock, piece) == SheetOrientation::Either;
      line.per_card = line.per_set = std::max(piece.copies, 1);
      line.per_kit = line.per_set * std::max(project.run.of_each, 0);
      lines.push_back(std::move(line));
    }
  }
  return lines;
}

} // namespace leafwright::supply
