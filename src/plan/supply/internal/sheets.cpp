#include "plan/supply/sheets.h"

#include "language/agreement.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "plan/supply/internal/fine_units.h"
#include "plan/supply/internal/sheet_price.h"
#include "plan/supply/internal/unfold.h"
#include "plan/supply/kits.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

namespace leafwright::supply {

namespace {

Fingerprint fingerprint_of(const cut::Job& job) {
  Fingerprinter print;
  print.put(job.objective);
  print.put(job.pieces.size());
  for (const cut::PieceType& one : job.pieces)
    print.put(one.id, one.width, one.height, one.copies, one.may_turn);
  print.put(job.sheets.size());
  for (const cut::SheetType& one : job.sheets)
    print.put(one.id, one.width, one.height, one.price, one.limit, one.pieces_may_turn, one.pack);
  const cut::Rules& rules = job.rules;
  print.put(rules.blade, rules.trim.left, rules.trim.right, rules.trim.bottom, rules.trim.top,
            rules.smallest_strip, rules.stages);
  return print.result();
}

std::string said(std::int64_t n, std::string_view noun) {
  return fmt::format("{} {}", n, words::noun_for(n, noun));
}

// Whether some tier hands this stock over by the sheet, or pieces of sheets, for its buyer to cut:
// then every sheet counts, not only every pack.
bool handed_over_by_the_sheet(const Project& project, int stock) {
  const auto by_the_sheet = [&](const Tier& tier, const Inclusion& one) {
    const Amount::Kind kind = one.amount.kind;
    const bool as_needed = kind == Amount::Kind::AsNeeded || kind == Amount::Kind::Length;
    switch (one.item.kind) {
    case ItemKind::Parts: return !tier.parts_cut;
    case ItemKind::Stock:
      return one.item.index == stock && kind != Amount::Kind::Whole &&
             !(as_needed && tier.parts_cut);
    case ItemKind::Pack: {
      const Pack* pack = find_at(project.packs, one.item.index);
      return pack != nullptr && kind != Amount::Kind::Whole && kind != Amount::Kind::Count &&
             !(as_needed && tier.parts_cut) &&
             std::any_of(pack->lines.begin(), pack->lines.end(),
                         [&](const Pack::Line& line) { return line.stock == stock; });
    }
    default: return false;
    }
  };
  return std::any_of(project.tiers.begin(), project.tiers.end(), [&](const Tier& tier) {
    return std::any_of(tier.includes.begin(), tier.includes.end(),
                       [&](const Inclusion& one) { return by_the_sheet(tier, one); });
  });
}

// The planner's numbers for one sheet size or offcut.
struct Source {
  int offer = -1; // -1: an offcut
  bool in_hand = false;
};

class StockPlanner {
 public:
  StockPlanner(CuttingPlan& plan, const Project& project, int stock, const CutOptions& options)
      : plan_(plan), project_(project), options_(options),
        stock_(project.stocks.at(as_index(stock))) {
    result_.stock = stock;
    for (std::size_t i = 0; i < plan.pieces.size(); ++i)
      if (plan.pieces[i].stock == stock) add_piece(static_cast<int>(i));
    if (job_.pieces.empty()) return;
    job_.rules = cutting_rules();
    job_.objective = options.objective;
    // Plans of one cost may take other sizes of sheet: then their number is the plan's own.
    if (job_.objective == cut::Objective::SheetCount && sheet_sizes_of(stock_).size() > 1)
      job_.objective = cut::Objective::FewestSheets;
    by_the_pack_ = options.objective == cut::Objective::LeastHandling &&
                   !handed_over_by_the_sheet(project, stock);
    add_sheets();
    if (options.in_hand) add_offcuts();
    fine_ = refine(job_);
  }

  bool empty() const { return job_.pieces.empty() || job_.sheets.empty(); }

  StockSheets solve() {
    const cut::Plan plan = plan_of_job();
    for (const cut::Pattern& pattern : plan.patterns) add_pattern(pattern);
    std::stable_sort(
        result_.layouts.begin(), result_.layouts.end(),
        [](const SheetLayout& a, const SheetLayout& b) { return a.offcut() < b.offcut(); });
    result_.proven = plan.proven;
    result_.waste = result_.waste - result_.used;
    if (one_size_) result_.at_least = plan.proven ? result_.sheets : plan.bound_cost;
    result_.words = words(plan) + hurry_in_words(plan);
    return std::move(result_);
  }

 private:
  cut::Plan plan_of_job() const {
    cut::Effort effort = options_.effort;
    effort.subject = stock_.name;
    if (options_.cache == nullptr) return cut::plan(job_, effort);
    const Fingerprint print = fingerprint_of(job_);
    if (const cut::Plan* known = options_.cache->find(print)) return *known;
    cut::Plan plan = cut::plan(job_, effort);
    options_.cache->keep(print, plan);
    return plan;
  }

  void add_piece(int index) {
    const CutPiece& piece = plan_.pieces[as_index(index)];
    if (!fits_a_sheet(stock_, piece.size, piece.orientation)) {
      too_large(piece);
      return;
    }
    const Size size =
        piece.orientation == SheetOrientation::Turned ? piece.size.turned() : piece.size;
    job_.pieces.push_back({piece.letters, size.width.nm, size.height.nm, piece.wanted + piece.spare,
                           piece.orientation == SheetOrientation::Either});
    pieces_.push_back(index);
  }

  // Pieces of cards are told by pieces_without_sheet(); a promised share of a sheet is told here.
  void too_large(const CutPiece& piece) {
    for (const int line : piece.lines)
      if (plan_.lines[as_index(line)].piece.card >= 0) return;
    Finding finding;
    finding.code = "cut-share-too-large";
    finding.place = stock_.place;
    const std::string size = unrounded(piece.size, project_.printing);
    finding.found =
        fmt::format("a tier promises {} of {}, larger than its sheets", size, stock_.name);
    finding.expected = fmt::format("a piece that fits a sheet");
    finding.fix = fmt::format("promise a smaller piece, or add a sheet of at least {}", size);
    plan_.findings.push_back(std::move(finding));
  }

  void add_sheets() {
    const std::vector<int> sizes = sheet_sizes_of(stock_);
    one_size_ = sizes.size() == 1;
    priced_ = all_priced(stock_);
    for (const int offer : sizes) {
      const SheetOffer& sheet = stock_.sheets[as_index(offer)];
      const std::int64_t in_hand = offer == 0 ? left_in_hand() : 0;
      // With one size every sheet is the same sheet, wherever it comes from: the fewest are wanted.
      if (!one_size_ && in_hand > 0) add_sheet(sheet, {offer, true}, 0, in_hand);
      add_sheet(sheet, {offer, false}, one_size_ ? 1 : price_of_one(sheet.size), std::nullopt);
    }
  }

  void add_offcuts() {
    for (const StockInHand& hand : project_.run.in_hand) {
      if (hand.item != ItemRef{ItemKind::Stock, result_.stock} || hand.offcut == Size{}) continue;
      SheetOffer sheet;
      sheet.size = hand.offcut;
      add_sheet(sheet, {-1, true}, 0, std::max(hand.count, 1));
    }
  }

  void add_sheet(const SheetOffer& sheet, Source source, std::int64_t price,
                 std::optional<std::int64_t> limit) {
    cut::SheetType type;
    type.id = sheet.name;
    type.width = sheet.size.width.nm;
    type.height = sheet.size.height.nm;
    type.price = price;
    type.limit = limit;
    if (by_the_pack_) type.pack = smallest_pack(sheet.size);
    job_.sheets.push_back(std::move(type));
    sources_.push_back(source);
  }

  // Whole sheets of the first size, once those handed out as they are have gone.
  std::int64_t left_in_hand() const {
    if (!options_.in_hand) return 0;
    const std::int64_t* given = find_at(options_.given, result_.stock);
    std::int64_t sheets = given ? -*given : 0;
    for (const StockInHand& hand : project_.run.in_hand)
      if (hand.item == ItemRef{ItemKind::Stock, result_.stock} && hand.offcut == Size{})
        sheets += hand.count;
    return std::max<std::int64_t>(0, sheets);
  }

  // How many sheets must be bought at once at the least.
  std::int64_t smallest_pack(Size size) const {
    int least = 0;
    for (const SheetOffer& offer : stock_.sheets)
      if (offer.size == size)
        least = least == 0 ? offer.sold.count : std::min(least, offer.sold.count);
    return std::max(1, least);
  }

  // The cheapest way to a sheet of that size; without prices the larger sheet is the dearer one, to
  // the square millimetre.
  std::int64_t price_of_one(Size size) const {
    if (!priced_) return std::max<std::int64_t>(1, area(size).um2 / 1'000'000);
    return price_of_sheet(stock_, size);
  }

  void add_pattern(const cut::Pattern& pattern) {
    const Source source = sources_.at(as_index(pattern.sheet));
    SheetLayout layout = unfold(pattern, Length{job_.rules.blade}, pieces_);
    layout.stock = result_.stock;
    layout.offer = source.offer;
    order_cuts(layout, stack_of(project_, result_.stock));
    coarsen(layout, fine_);
    for (Placed& placed : layout.pieces) {
      if (at(plan_.pieces, placed.piece).orientation == SheetOrientation::Turned)
        placed.turned = !placed.turned;
      result_.used += area(placed.box.size) * pattern.count;
    }
    result_.pieces += static_cast<std::int64_t>(layout.pieces.size()) * pattern.count;
    result_.waste += area(layout.sheet) * pattern.count;
    check_length(layout);
    count_sheets(source, pattern.count);
    result_.layouts.push_back(std::move(layout));
  }

  void count_sheets(Source source, std::int64_t count) {
    if (source.offer < 0) {
      result_.offcuts += count;
      return;
    }
    result_.sheets += count;
    for (StockSheets::OfSize& known : result_.by_size)
      if (known.offer == source.offer) {
        known.count += count;
        return;
      }
    result_.by_size.push_back({source.offer, count});
  }

  // No cut may be longer than the trimmer's.
  void check_length(const SheetLayout& layout) {
    const Tool* trimmer = trimmer_of(project_);
    if (!trimmer || too_long_) return;
    Length longest{};
    for (const SheetLayout::Move& move : layout.moves)
      longest = std::max(longest, move.across ? move.from.size.width : move.from.size.height);
    if (longest <= trimmer->cut_length) return;
    too_long_ = true;
    Finding finding;
    finding.severity = Severity::Warning;
    finding.code = "cut-longer-than-trimmer";
    finding.place = stock_.place;
    finding.found = fmt::format("{} is cut over {}; {} cuts {}", stock_.name,
                                unrounded(longest, project_.printing), trimmer->name,
                                unrounded(trimmer->cut_length, project_.printing));
    finding.expected = "cuts no longer than the trimmer's";
    finding.fix = fmt::format("cut with a trimmer of at least {}, or with a knife along a ruler",
                              unrounded(longest, project_.printing));
    plan_.findings.push_back(std::move(finding));
  }

  std::string words(const cut::Plan& plan) const {
    const std::string used =
        said(result_.sheets, "sheet") +
        (result_.offcuts > 0 ? " and " + said(result_.offcuts, "offcut") + " in hand" : "");
    const char* plans = "no straight-cut plan";
    if (one_size_)
      return plan.proven ? fmt::format("{}; {} can use fewer than {}", used, plans, result_.sheets)
                         : fmt::format("{}; the best possible is {} {} {}", used, result_.at_least,
                                       result_.sheets == result_.at_least + 1 ? "or" : "to",
                                       result_.sheets);
    const char* measure = priced_ ? "cost less at these sheet prices" : "use less paper";
    if (plan.proven) return fmt::format("{}; {} can {}", used, plans, measure);
    return fmt::format("{}; another plan might save paper, but no more than {}", used,
                       most_saved(plan.cost, plan.bound_cost));
  }

  CuttingPlan& plan_;
  const Project& project_;
  const CutOptions& options_;
  const Stock& stock_;
  cut::Job job_;
  std::vector<int> pieces_; // of the job, as indices into CuttingPlan::pieces
  std::vector<Source> sources_;
  std::int64_t fine_ = 1; // units of the job on a nanometre
  bool one_size_ = true, priced_ = false, by_the_pack_ = false, too_long_ = false;
  StockSheets result_;
};

} // namespace

void lay_out(CuttingPlan& plan, const Project& project, const CutOptions& options) {
  for (Finding& finding : pieces_without_sheet(project))
    plan.findings.push_back(std::move(finding));
  for (std::size_t i = 0; i < project.stocks.size(); ++i) {
    StockPlanner stock(plan, project, static_cast<int>(i), options);
    if (!stock.empty()) plan.stocks.push_back(stock.solve());
  }
}

} // namespace leafwright::supply
