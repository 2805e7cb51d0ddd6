#include "plan/supply/run_sheets.h"

#include "measure/index.h"
#include "measure/print_length.h"
#include "plan/cut/words.h"
#include "plan/supply/internal/saving.h"
#include "plan/supply/internal/unfold.h"
#include "plan/supply/sheets.h"
#include "plan/supply/work_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace leafwright::supply {

std::string most_saved(std::int64_t cost, std::int64_t bound) {
  const std::int64_t gap = cost <= bound ? 0 : ((cost - bound) * 1000 - 1) / cost + 1;
  return fmt::format("{}.{} %", gap / 10, gap % 10);
}

namespace {

constexpr std::int64_t finer = 1000; // a sheet of a pack rarely costs whole minor units

std::string counted(std::int64_t n, const char* one, const char* many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

// The planner's numbers for one sheet size or offcut.
struct Source {
  int offer = -1; // -1: an offcut
  bool in_hand = false;
};

class StockRun {
 public:
  StockRun(RunSheets& run, const Project& project, int stock, std::int64_t given)
      : run_(run), project_(project), stock_(project.stocks.at(as_index(stock))) {
    result_.stock = stock;
    for (std::size_t i = 0; i < run.pieces.size(); ++i)
      if (run.pieces[i].stock == stock) add_piece(static_cast<int>(i));
    if (job_.pieces.empty()) return;
    add_sheets(given);
    add_offcuts();
    job_.rules = cutting_rules();
  }

  bool empty() const { return job_.pieces.empty() || job_.sheets.empty(); }

  RunStock solve(cut::Effort effort) {
    effort.subject = stock_.name;
    const cut::Plan plan = cut::plan(job_, effort);
    for (const cut::Pattern& pattern : plan.patterns) add_pattern(pattern);
    std::stable_sort(result_.patterns.begin(), result_.patterns.end(),
                     [](const RunPattern& a, const RunPattern& b) { return a.offcut < b.offcut; });
    result_.proven = plan.proven;
    result_.waste = result_.waste - result_.used;
    if (one_size_) result_.at_least = plan.proven ? result_.all_sheets : plan.bound_cost;
    result_.words = words(plan) + cut::hurry_in_words(plan);
    return std::move(result_);
  }

 private:
  void add_piece(int index) {
    const RunPiece& piece = run_.pieces[as_index(index)];
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
  void too_large(const RunPiece& piece) {
    for (const int line : piece.lines)
      if (run_.lines[as_index(line)].piece.card >= 0) return;
    Finding finding;
    finding.code = "cut-share-too-large";
    finding.place = stock_.place;
    const std::string size = unrounded(piece.size, project_.printing);
    finding.found =
        fmt::format("a tier promises {} of {}, larger than its sheets", size, stock_.name);
    finding.expected = fmt::format("a piece that fits a sheet");
    finding.fix = fmt::format("promise a smaller piece, or add a sheet of at least {}", size);
    run_.findings.push_back(std::move(finding));
  }

  void add_sheets(std::int64_t given) {
    const std::vector<int> sizes = sheet_sizes_of(stock_);
    one_size_ = sizes.size() == 1;
    priced_ = std::all_of(stock_.sheets.begin(), stock_.sheets.end(), [](const SheetOffer& offer) {
      return offer.sold.price && offer.sold.price->minor > 0;
    });
    for (const int offer : sizes) {
      const SheetOffer& sheet = stock_.sheets[as_index(offer)];
      const std::int64_t in_hand = offer == 0 ? std::max<std::int64_t>(0, in_hand_() - given) : 0;
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
    job_.sheets.push_back(std::move(type));
    sources_.push_back(source);
  }

  std::int64_t in_hand_() const {
    std::int64_t sheets = 0;
    for (const StockInHand& hand : project_.run.in_hand)
      if (hand.item == ItemRef{ItemKind::Stock, result_.stock} && hand.offcut == Size{})
        sheets += hand.count;
    return sheets;
  }

  // The cheapest way to a sheet of that size; without prices the larger sheet is the dearer one, to
  // the square millimetre.
  std::int64_t price_of_one(Size size) const {
    std::optional<std::int64_t> best;
    if (!priced_) return std::max<std::int64_t>(1, area(size).um2 / 1'000'000);
    for (const SheetOffer& offer : stock_.sheets) {
      if (offer.size != size) continue;
      const std::int64_t price = std::max<std::int64_t>(1, offer.sold.price->minor * finer /
                                                               std::max(1, offer.sold.count));
      best = best ? std::min(*best, price) : price;
    }
    return best.value_or(1);
  }

  void add_pattern(const cut::Pattern& pattern) {
    RunPattern out;
    const Source source = sources_.at(as_index(pattern.sheet));
    out.layout = unfold(pattern, Length{job_.rules.blade});
    out.layout.stock = result_.stock;
    out.layout.offer = source.offer;
    out.offcut = source.offer < 0;
    for (Placed& placed : out.layout.pieces) {
      placed.line = pieces_.at(as_index(placed.line));
      const bool swapped =
          run_.pieces[as_index(placed.line)].orientation == SheetOrientation::Turned;
      placed.turned = placed.turned != swapped;
      result_.used += area(placed.box.size) * pattern.count;
    }
    result_.pieces += static_cast<std::int64_t>(out.layout.pieces.size()) * pattern.count;
    result_.waste += area(out.layout.sheet) * pattern.count;
    out.work = work_order(out.layout, stack_of(project_, result_.stock));
    check_length(out.layout);
    count_sheets(source, pattern.count);
    result_.patterns.push_back(std::move(out));
  }

  void count_sheets(Source source, std::int64_t count) {
    if (source.offer < 0) {
      result_.offcuts += count;
      return;
    }
    result_.all_sheets += count;
    for (RunStock::Sheets& known : result_.sheets)
      if (known.offer == source.offer) {
        known.count += count;
        return;
      }
    result_.sheets.push_back({source.offer, count});
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
    run_.findings.push_back(std::move(finding));
  }

  std::string words(const cut::Plan& plan) const {
    const std::string used =
        counted(result_.all_sheets, "sheet", "sheets") +
        (result_.offcuts > 0
             ? " and " + counted(result_.offcuts, "offcut in hand", "offcuts in hand")
             : "");
    const char* plans = "no straight-cut plan";
    if (one_size_)
      return plan.proven
                 ? fmt::format("{}; {} can use fewer than {}", used, plans, result_.all_sheets)
                 : fmt::format("{}; the best possible is {} {} {}", used, result_.at_least,
                               result_.all_sheets == result_.at_least + 1 ? "or" : "to",
                               result_.all_sheets);
    const char* measure = priced_ ? "cost less at these sheet prices" : "use less paper";
    if (plan.proven) return fmt::format("{}; {} can {}", used, plans, measure);
    return fmt::format("{}; another plan might save paper, but no more than {}", used,
                       most_saved(plan.cost, plan.bound_cost));
  }

  RunSheets& run_;
  const Project& project_;
  const Stock& stock_;
  cut::Job job_;
  std::vector<int> pieces_; // of the job, as indices into RunSheets::pieces
  std::vector<Source> sources_;
  bool one_size_ = true, priced_ = false, too_long_ = false;
  RunStock result_;
};

} // namespace

void lay_out(RunSheets& run, const Project& project, const std::vector<std::int64_t>& given,
             const cut::Effort& effort) {
  for (Finding& finding : pieces_without_sheet(project)) run.findings.push_back(std::move(finding));
  for (std::size_t i = 0; i < project.stocks.size(); ++i) {
    StockRun stock(run, project, static_cast<int>(i), i < given.size() ? given[i] : 0);
    if (!stock.empty()) run.stocks.push_back(stock.solve(effort));
  }
}

namespace {

std::string called(const Piece& piece) { return piece.name.empty() ? piece.id : piece.name; }

// The sheet that comes nearest: the one of largest area.
std::optional<Size> largest_sheet(const Stock& stock) {
  const auto largest = std::max_element(
      stock.sheets.begin(), stock.sheets.end(),
      [](const SheetOffer& a, const SheetOffer& b) { return area(a.size) < area(b.size); });
  return largest == stock.sheets.end() ? std::nullopt : std::optional(largest->size);
}

Finding without_sheet(const Project& project, const Card& card, const Piece& piece,
                      const Stock& stock) {
  const Size rectangle = rectangle_of(piece);
  const std::string size = unrounded(rectangle, project.printing);
  Finding finding;
  finding.code = "fit-sheet";
  finding.place = piece.size_place.line > 0 ? piece.size_place : piece.place;
  const std::optional<Size> sheet = largest_sheet(stock);
  if (!sheet) {
    finding.found = fmt::format("{} of “{}” is cut from {}, which has no sheet", called(piece),
                                card.title, stock.name);
    finding.expected = fmt::format("a sheet of at least {}", size);
    finding.fix = fmt::format("say in what sheets {} is sold", stock.name);
    return finding;
  }
  finding.found = fmt::format("{} of “{}”, {}, fits on no sheet of {}", called(piece), card.title,
                              size, stock.name);
  finding.expected =
      fmt::format("at most {}, the largest sheet{}", unrounded(*sheet, project.printing),
                  stock.upright ? ", with its pattern upright" : "");
  const bool turned_would_do = fits_a_sheet(stock, rectangle, SheetOrientation::Either);
  finding.fix =
      turned_would_do
          ? fmt::format("make it at most {} or, if its pattern has no top after all, leave out "
                        "that it is upright",
                        unrounded(*sheet, project.printing))
          : fmt::format("make it smaller, or add a sheet of at least {} to {}", size, stock.name);
  return finding;
}

} // namespace

Findings pieces_without_sheet(const Project& project) {
  Findings findings;
  for (const CutLine& line : cut_list(project)) {
    const Card& card = project.cards.at(as_index(line.piece.card));
    const Piece& piece = card.pieces.at(as_index(line.piece.piece));
    const Stock& stock = project.stocks.at(as_index(line.stock));
    if (!fits_a_sheet(stock, line.rectangle, sheet_orientation(stock, piece)))
      findings.push_back(without_sheet(project, card, piece, stock));
  }
  return findings;
}

} // namespace leafwright::supply
