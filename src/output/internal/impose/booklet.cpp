#include "output/booklet.h"
#include "output/internal/impose/marks.h"

#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace leafwright::impose {
namespace {

constexpr int pages_a_sheet = 4;

int whole_sheets(int pages) { return (pages + pages_a_sheet - 1) / pages_a_sheet * pages_a_sheet; }

} // namespace

std::vector<int> filled_up(int page_count, const Binding& binding) {
  std::vector<int> pages;
  for (int page = 0; page < page_count; ++page) pages.push_back(page);
  const int signature = whole_sheets(std::max(binding.signature, 0));
  const int unit = binding.full_signatures && signature > 0 ? signature : pages_a_sheet;
  int missing = (unit - page_count % unit) % unit;
  // Inside the front cover: with one blank there, what follows moves to the other side.
  const bool in_front = missing > (binding.back_cover ? 1 : 2) && !binding.sided && page_count > 1;
  if (in_front) {
    pages.insert(pages.begin() + 1, blank);
    --missing;
  }
  const auto end = binding.back_cover && page_count > 1 ? pages.end() - 1 : pages.end();
  pages.insert(end, as_index(missing), blank);
  return pages;
}

std::vector<Side> sides(const std::vector<int>& pages, const Binding& binding) {
  const int count = static_cast<int>(pages.size());
  const int signature = binding.signature > 0 ? whole_sheets(binding.signature) : count;
  std::vector<Side> all;
  for (int begin = 0, number = 0; begin < count; begin += signature, ++number) {
    const int end = std::min(count, begin + signature);
    const auto page = [&pages, begin](int i) { return pages[as_index(begin + i)]; };
    const int in_it = end - begin;
    const int sheets = in_it / pages_a_sheet;
    // The pages of a pair sum to one more than all pages, counted from 1.
    for (int sheet = 0; sheet < sheets; ++sheet) {
      const int low = 2 * sheet;
      all.push_back({page(in_it - 1 - low), page(low), number, sheet, sheets, false});
      all.push_back({page(low + 1), page(in_it - 2 - low), number, sheet, sheets, true});
    }
  }
  return all;
}

namespace {

Length scaled(Length a, double by) { return {std::llround(static_cast<double>(a.nm) * by)}; }
Size scaled(Size size, double by) { return {scaled(size.width, by), scaled(size.height, by)}; }

double scale_to_fit(Size page, Size room) {
  if (page.width.nm <= 0 || page.height.nm <= 0) return 1.0;
  const auto ratio = [](Length a, Length b) {
    return static_cast<double>(a.nm) / static_cast<double>(b.nm);
  };
  return std::min({1.0, ratio(room.width, page.width), ratio(room.height, page.height)});
}

// What stands beside the pages where the sheet is larger than they are.
constexpr Length slug_for_words = millimetres(8);

class Folder {
 public:
  Folder(std::span<const page::LaidPage> pages, const BookletOptions& options,
         const text::Fonts& fonts)
      : pages_(pages), options_(options), fonts_(fonts), page_(pages.front().size) {
    const auto room = [this](Size sheet) {
      return scale_to_fit(page_, {sheet.width / 2 - options_.spine, sheet.height});
    };
    sheet_ =
        room(options.sheet.turned()) > room(options.sheet) ? options.sheet.turned() : options.sheet;
    // Where both ways hold the pages, the one with more room around them for crop marks.
    const auto margin = [this](Size sheet) {
      return std::min(sheet.width / 2 - options_.spine - page_.width,
                      (sheet.height - page_.height) / 2);
    };
    if (room(sheet_) >= 1.0 && room(sheet_.turned()) >= 1.0 &&
        margin(sheet_.turned()) > margin(sheet_))
      sheet_ = sheet_.turned();
    result_.scale = room(sheet_);
    shown_ = scaled(page_, result_.scale);
    top_ = (sheet_.height - shown_.height) / 2;
  }

  Imposition take() {
    const std::vector<int> filled = filled_up(static_cast<int>(pages_.size()), options_.binding);
    result_.blanks = static_cast<int>(std::count(filled.begin(), filled.end(), blank));
    const std::vector<Side> all = sides(filled, options_.binding);
    signatures_ = all.empty() ? 0 : all.back().signature + 1;
    for (const Side& side : all) add(side);
    result_.paper_sheets = static_cast<int>(result_.sheets.size() / 2);
    return std::move(result_);
  }

 private:
  void add(const Side& side) {
    Sheet sheet;
    sheet.size = sheet_;
    sheet.turned = side.inside && options_.flip == Flip::LongEdge;
    const Length fold = sheet_.width / 2;
    const Length pushed = options_.caliper * side.sheet;
    result_.push_out = std::max(result_.push_out, pushed);
    const Length from_fold = options_.spine - pushed;
    const auto put = [&](int page, Length x, Rect half) {
      if (page != blank) sheet.pages.push_back({page, {x, top_}, result_.scale, half});
    };
    put(side.left, fold - from_fold - shown_.width, {{}, {fold, sheet_.height}});
    put(side.right, fold + from_fold, {{fold, {}}, {fold, sheet_.height}});
    result_.sheets.push_back(std::move(sheet));

    page::LaidPage marks;
    marks.size = sheet_;
    marks.scaled = true;
    marks.label =
        fmt::format("{}{}", (result_.sheets.size() + 1) / 2, side.inside ? " inside" : " outside");
    draw(side, marks.items);
    result_.marks.pages.push_back(std::move(marks));
  }

  void draw(const Side& side, std::vector<DrawItem>& items) const {
    const Length fold = sheet_.width / 2;
    const Length bottom = top_ + shown_.height;
    if (!side.inside && side.sheet == 0) {
      add_fold(items, fold, {}, sheet_.height);
      if (options_.staples) add_staples(items, fold, top_, bottom);
      if (!options_.staples && signatures_ > 1)
        add_gathering_mark(items, fold, top_, bottom, side.signature);
    }
    const Rect pair{{fold - options_.spine - shown_.width, top_},
                    {(options_.spine + shown_.width) * 2, shown_.height}};
    const Rect whole{{}, sheet_};
    if (pair == whole) return;
    add_crop_marks(items, pair, whole);
    if (top_ < slug_for_words) return;
    std::string words = fmt::format("sheet {} of {}, {}", side.sheet + 1, side.sheets,
                                    side.inside ? "inside" : "outside");
    if (signatures_ > 1)
      words = fmt::format("signature {} of {}, {}", side.signature + 1, signatures_, words);
    if (result_.scale < 1.0)
      words +=
          fmt::format(" · shrunk to {:.0f} %: measure nothing on these pages", result_.scale * 100);
    add_words(items, fonts_, words, fold, bottom + millimetres(6));
  }

  std::span<const page::LaidPage> pages_;
  const BookletOptions& options_;
  const text::Fonts& fonts_;
  Size page_, sheet_, shown_;
  Length top_{};
  int signatures_ = 0;
  Imposition result_;
};

} // namespace

Imposition booklet(std::span<const page::LaidPage> pages, const BookletOptions& options,
                   const text::Fonts& fonts) {
  return pages.empty() ? Imposition{} : Folder(pages, options, fonts).take();
}

Imposition proof(std::span<const page::LaidPage> pages, Size sheet, int per_side,
                 const text::Fonts& fonts) {
  constexpr Length margin = millimetres(9), gap = millimetres(5), words = millimetres(5);
  Imposition result;
  if (pages.empty() || per_side < 1) return result;
  const Size page = pages.front().size;
  // The grid, and the way the sheet lies, that show the pages largest.
  struct Grid {
    Size sheet;
    int across = 1, down = 1;
    double scale = 0;
  } best;
  for (const Size lie : {sheet, sheet.turned()})
    for (int across = 1; across <= per_side; ++across) {
      const int down = (per_side + across - 1) / across;
      const Size cell{(lie.width - margin * 2 + gap) / across - gap,
                      (lie.height - margin * 2 + gap) / down - gap - words};
      const double scale = scale_to_fit(page, cell);
      if (scale > best.scale) best = {lie, across, down, scale};
    }
  result.scale = best.scale;
  const Size shown = scaled(page, best.scale);
  const Length step_x = (best.sheet.width - margin * 2 + gap) / best.across;
  const Length step_y = (best.sheet.height - margin * 2 + gap) / best.down;
  for (std::size_t begin = 0; begin < pages.size(); begin += as_index(per_side)) {
    Sheet side;
    side.size = best.sheet;
    page::LaidPage marks;
    marks.size = best.sheet;
    marks.label = fmt::format("{}", result.sheets.size() + 1);
    const std::size_t end = std::min(pages.size(), begin + as_index(per_side));
    for (std::size_t i = begin; i < end; ++i) {
      const int cell = static_cast<int>(i - begin);
      const Point at{margin + step_x * (cell % best.across) + (step_x - gap - shown.width) / 2,
                     margin + step_y * (cell / best.across)};
      const Rect frame{at, shown};
      side.pages.push_back({static_cast<int>(i), at, best.scale, frame});
      Stroke edge;
      edge.path = outline(frame);
      edge.colour = {0x6c, 0x66, 0x5f};
      marks.items.emplace_back(std::move(edge));
      const std::string& label = pages[i].label;
      add_words(marks.items, fonts,
                label.empty() ? fmt::format("sheet {}", i + 1) : fmt::format("page {}", label),
                frame.centre().x, frame.bottom() + millimetres(4));
    }
    result.sheets.push_back(std::move(side));
    result.marks.pages.push_back(std::move(marks));
  }
  result.paper_sheets = static_cast<int>(result.sheets.size());
  return result;
}

} // namespace leafwright::impose
