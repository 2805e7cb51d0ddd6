#include "app/verbs/internal/remeasure_cost.h"

#include "language/english.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace leafwright::app {

namespace {

constexpr std::size_t most_trials = 24;

const supply::Purchase* same_purchase(const supply::Buying& buying, const supply::Purchase& of) {
  const auto found = std::ranges::find_if(buying.purchases, [&](const supply::Purchase& one) {
    return one.item == of.item && one.offer == of.offer;
  });
  return found == buying.purchases.end() ? nullptr : &*found;
}

std::int64_t packs_of(const supply::Buying& buying, const supply::Purchase& of) {
  const supply::Purchase* same = same_purchase(buying, of);
  return same == nullptr ? 0 : same->packs;
}

// Values of the new edition that say more than the old one, all that moved alike together, and what
// they would say a mark below the old length.
struct Shorter {
  std::vector<const edit::Chosen*> values;
  Length before, after, instead;
};

std::vector<Shorter> shorter_values(const edit::Remeasuring& made) {
  std::vector<Shorter> all;
  for (const edit::Chosen& one : made.chosen) {
    if (one.measures.size() != 1) continue;
    const Length before = one.measures.front().before, after = one.measures.front().after;
    const Length instead{before.nm - before.nm % made.mark.nm};
    if (after <= before || instead >= after || instead.nm <= 0) continue;
    auto alike = std::ranges::find_if(
        all, [&](const Shorter& other) { return other.before == before && other.after == after; });
    if (alike == all.end()) alike = all.insert(all.end(), {{}, before, after, instead});
    alike->values.push_back(&one);
  }
  return all;
}

std::string with_unit(Length length, const edit::Remeasuring& made) {
  return length_text(length, {made.unit, made.mark, made.mark});
}

// What the run would buy with those values in the file; nothing when it cannot be read.
std::optional<supply::Buying> tried(const Shorter& shorter, const TwoSystems& both,
                                    const std::string& bytes, const std::string& path) {
  std::vector<edit::Edit> edits = both.made.edits;
  for (const edit::Chosen* value : shorter.values) {
    const auto at = std::ranges::find(edits, value->at, &edit::Edit::at);
    if (at == edits.end()) return std::nullopt;
    at->bytes = with_unit(shorter.instead, both.made);
  }
  PlannedProject planned;
  planned.reading = read_project(edit::applied(bytes, edits), path);
  if (!planned.reading.ok()) return std::nullopt;
  take_orders(planned);
  cut::Effort brief;
  brief.work = 20'000'000; // a few hundredths of a second for each stock
  return supply::buying_for(planned.reading.project, planned.packing.value().parcels.kinds, brief);
}

const supply::BuyingLine* ribbon_line(const supply::Buying& buying, ItemRef item) {
  const auto line = std::ranges::find(buying.lines, item, &supply::BuyingLine::item);
  return line == buying.lines.end() || !line->spools ? nullptr : &*line;
}

std::vector<Length> cut_lengths(const supply::BuyingLine& line) {
  std::vector<Length> lengths;
  for (const spool::Reel& reel : line.spools->reels)
    for (const spool::Cut& cut : reel.cuts) lengths.push_back(cut.length);
  std::ranges::sort(lengths);
  const auto again = std::unique(lengths.begin(), lengths.end());
  lengths.erase(again, lengths.end());
  return lengths;
}

// "Cuts of 24 in are 610 mm now: a spool of 360 in gives 14 of them, not 15."
std::string ribbon_words(const TwoSystems& both, ItemRef item) {
  const supply::BuyingLine* before = ribbon_line(*both.before.buying, item);
  const supply::BuyingLine* after = ribbon_line(*both.after.buying, item);
  if (before == nullptr || after == nullptr) return {};
  const std::vector<Length> was = cut_lengths(*before), is = cut_lengths(*after);
  if (was.size() != is.size()) return {};
  const Printing& old_way = both.before.reading.project.printing;
  const Printing& new_way = both.after.reading.project.printing;
  const Length spool = at(both.after.reading.project.ribbons, item.index).spool;
  std::string words;
  for (std::size_t i = 0; i < is.size(); ++i) {
    if (is[i] <= was[i]) continue;
    words += fmt::format("{}Cuts of {} are {} now", words.empty() ? "" : " ",
                         length_text(was[i], old_way), length_text(is[i], new_way));
    const std::int64_t gave = spool.nm / was[i].nm, gives = spool.nm / is[i].nm;
    if (gives < gave)
      words += fmt::format(": a {} gives {} of them, not {}",
                           words::terms(both.after.reading.project.language).spool, gives, gave);
    words += ".";
  }
  return words;
}

std::string why(const TwoSystems& both, const supply::Purchase& bought) {
  if (bought.item.kind == ItemKind::Ribbon) return ribbon_words(both, bought.item);
  const auto needed = [&](const supply::Buying& buying) {
    const auto line = std::ranges::find(buying.lines, bought.item, &supply::BuyingLine::item);
    return line == buying.lines.end() ? std::int64_t{0} : line->needed;
  };
  const std::int64_t before = needed(*both.before.buying), after = needed(*both.after.buying);
  if (before == after) return {};
  return fmt::format("It takes {} where it took {}.", after, before);
}

} // namespace

std::vector<DearerPurchase> dearer_purchases(const TwoSystems& both, const std::string& bytes,
                                             const std::string& path) {
  std::vector<DearerPurchase> all;
  if (!both.before.buying || !both.after.buying) return all;
  const std::vector<Shorter> values = shorter_values(both.made);
  std::size_t trials = 0;
  for (const supply::Purchase& bought : both.after.buying->purchases) {
    DearerPurchase one;
    one.item = bought.item;
    one.before = packs_of(*both.before.buying, bought);
    one.after = bought.packs;
    if (one.after <= one.before) continue;
    one.more = bought.price.value_or(Money{0, bought.cost.currency}) * (one.after - one.before);
    one.why = why(both, bought);
    for (const Shorter& shorter : values) {
      if (!one.instead.empty() || trials == most_trials) break;
      ++trials;
      const std::optional<supply::Buying> then = tried(shorter, both, bytes, path);
      if (!then || packs_of(*then, bought) > one.before) continue;
      one.instead = with_unit(shorter.instead, both.made);
      for (const edit::Chosen* value : shorter.values) one.where.push_back(value->where);
      one.now = with_unit(shorter.after, both.made);
    }
    all.push_back(std::move(one));
  }
  return all;
}

} // namespace leafwright::app
