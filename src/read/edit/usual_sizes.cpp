#include "read/edit/usual_sizes.h"

#include "measure/paper_sizes.h"
#include "measure/text_cursor.h"

#include <array>
#include <span>

namespace leafwright::edit {
namespace {

using Names = MeasuredAttribute::Names;

struct Pair {
  std::string_view inch, metric;
  bool both_ways = true;
};
// Common practice: what stands on the shelf of a shop in its place.
constexpr std::array sheets = {Pair{"letter", "A4"}, Pair{"half-letter", "A5"},
                               Pair{"tabloid", "A3"}, Pair{"legal", "A4", false}};
constexpr std::array cards = {Pair{"A2", "C6"}, Pair{"A9", "C5"}, Pair{"slimline", "DL"},
                              Pair{"square-5", "square-135"}, Pair{"square-6", "square-150"}};
constexpr std::array envelopes = {Pair{"A2", "C6"}, Pair{"A9", "C5"}, Pair{"slimline", "DL"},
                                  Pair{"square-5", "square-140"}, Pair{"square-6", "square-155"}};

std::span<const Pair> pairs(Names among) {
  switch (among) {
  case Names::Sheets: return sheets;
  case Names::Cards: return cards;
  case Names::Envelopes: return envelopes;
  case Names::None: break;
  }
  return {};
}

} // namespace

std::optional<std::string_view> usual_counterpart(Names among, std::string_view name, Unit to) {
  for (const Pair& pair : pairs(among)) {
    const bool metric = to == Unit::Millimetre;
    if (!metric && !pair.both_ways) continue;
    if (detail::same_ignoring_case(name, metric ? pair.inch : pair.metric))
      return metric ? pair.metric : pair.inch;
  }
  return std::nullopt;
}

std::optional<Size> named_size(Names among, std::string_view name) {
  switch (among) {
  case Names::Sheets: return find_size(sheet_sizes(), name);
  case Names::Cards: return find_size(card_sizes(), name);
  case Names::Envelopes: return find_size(envelope_sizes(), name);
  case Names::None: break;
  }
  return std::nullopt;
}

} // namespace leafwright::edit
