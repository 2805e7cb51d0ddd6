#include "read/internal/order_words.h"

#include "measure/letters.h"
#include "model/tier.h"
#include "read/document.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <optional>
#include <utility>

namespace leafwright::reading {

std::vector<std::string_view> split(std::string_view text, std::string_view at) {
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of(at), text.size());
    if (const std::string_view part = trimmed(text.substr(0, end)); !part.empty())
      parts.push_back(part);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return parts;
}

std::vector<std::string_view> comma_parts(std::string_view text,
                                          const std::function<bool(std::string_view)>& knows) {
  constexpr std::size_t most_together = 8;
  const std::vector<std::string_view> pieces = split(text, ",");
  std::vector<std::string_view> parts;
  for (std::size_t i = 0; i < pieces.size();) {
    std::size_t together = std::min(most_together, pieces.size() - i);
    const auto joined = [&] {
      const std::string_view last = pieces[i + together - 1];
      return std::string_view(
          pieces[i].data(), static_cast<std::size_t>(last.data() - pieces[i].data()) + last.size());
    };
    while (together > 1 && !knows(joined())) --together;
    parts.push_back(joined());
    i += together;
  }
  return parts;
}

namespace {

constexpr int most_kits = 10'000;

std::optional<int> whole(std::string_view digits) {
  int number = 0;
  const auto [stop, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (fault != std::errc{} || stop != digits.data() + digits.size()) return std::nullopt;
  return number;
}

constexpr std::array<std::string_view, 4> times_signs = {"x", "X", "\u00D7", "*"};

// `2 x` in front, taken off; nothing, and the text as it was, where it does not stand there.
std::optional<int> take_times_before(std::string_view& text) {
  const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
  const std::string_view rest = trimmed(text.substr(digits));
  for (const std::string_view sign : times_signs)
    if (digits > 0 && rest.starts_with(sign)) {
      const std::optional<int> number = whole(text.substr(0, digits));
      if (number) text = trimmed(rest.substr(sign.size()));
      return number;
    }
  return std::nullopt;
}
// `x 2` behind, likewise.
std::optional<int> take_times_behind(std::string_view& text) {
  const std::size_t before = text.find_last_not_of("0123456789");
  const std::size_t digits = before == std::string_view::npos ? 0 : before + 1;
  const std::string_view rest = trimmed(text.substr(0, digits));
  for (const std::string_view sign : times_signs)
    if (digits < text.size() && rest.ends_with(sign)) {
      const std::optional<int> number = whole(text.substr(digits));
      if (number) text = trimmed(rest.substr(0, rest.size() - sign.size()));
      return number;
    }
  return std::nullopt;
}

// `2`, `2x`, `x2`, and the `2,00` of a spreadsheet.
std::optional<int> kits_in(std::string_view text) {
  text = trimmed(text);
  std::string_view rest = text;
  if (const auto number = take_times_before(rest); number && rest.empty()) return number;
  rest = text;
  if (const auto number = take_times_behind(rest); number && rest.empty()) return number;
  const std::size_t mark = text.find_first_of(".,");
  const bool decimals = mark != std::string_view::npos && mark + 1 < text.size() &&
                        text.find_first_not_of('0', mark + 1) == std::string_view::npos;
  return whole(decimals ? text.substr(0, mark) : text);
}

class WantedReader {
 public:
  WantedReader(const OrderCells& cells, const Project& project, const OrderNames& names)
      : cells_(cells), project_(project), names_(names) {}

  WantedReading read() {
    for (const OrderCells::OfTier& column : cells_.of_tiers) read_column(column);
    const std::string_view text = trimmed(cells_[OrderField::Tier].text);
    if (!text.empty() || (found_.empty() && cells_.of_tiers.empty())) read_tiers(text);
    read_quantity();
    for (const Found& one : found_) out_.kits.push_back({one.tier, one.kits.value_or(1)});
    return std::move(out_);
  }

 private:
  struct Found {
    int tier = -1;
    std::optional<int> kits; // as it is said beside it
  };

  void fail(std::string code, const OrderCell& cell, std::string found, std::string expected,
            std::string fix) {
    out_.findings.push_back({Severity::Error,
                             std::move(code),
                             cell.place,
                             std::move(found),
                             std::move(expected),
                             std::move(fix),
                             {}});
  }

  static bool in_bounds(int kits) { return kits >= 1 && kits <= most_kits; }
  void no_quantity(const OrderCell& cell, std::string_view text, bool nil) {
    fail("order-quantity", cell, detail::shown(text),
         fmt::format("how many kits, a whole number from 1 to {}", most_kits),
         nil ? "take the row out if nothing is ordered" : "write digits only");
  }

  void read_column(const OrderCells::OfTier& column) {
    const std::string_view text =
        trimmed(names_.meaning(OrderField::Quantity, trimmed(column.cell.text)));
    const std::optional<int> kits = text.empty() ? 0 : kits_in(text);
    if (kits == 0) return;
    if (kits && in_bounds(*kits))
      found_.push_back({column.tier, kits});
    else
      no_quantity(column.cell, text, false);
  }

  std::optional<Found> counted(std::string_view part) const {
    if (const int* tier = names_.tier(part)) return Found{*tier, {}};
    std::optional<int> kits = take_times_before(part);
    if (!kits) kits = take_times_behind(part);
    const int* tier = kits && in_bounds(*kits) ? names_.tier(part) : nullptr;
    return tier ? std::optional(Found{*tier, kits}) : std::nullopt;
  }

  // A name may hold any of the separators itself, so the longer text is tried first.
  void read_tiers(std::string_view text) {
    if (text.empty() && project_.tiers.size() == 1) {
      found_.push_back({0, {}});
      return;
    }
    if (const auto one = counted(text)) {
      found_.push_back(*one);
      return;
    }
    std::vector<std::string_view> unknown;
    bool known = false;
    for (const std::string_view part : split(text, ";+|\r\n")) {
      if (const auto one = counted(part)) {
        found_.push_back(*one);
        known = true;
        continue;
      }
      const std::vector<std::string_view> smaller =
          comma_parts(part, [&](std::string_view words) { return counted(words).has_value(); });
      const bool any = std::ranges::any_of(
          smaller, [&](std::string_view word) { return counted(word).has_value(); });
      known = known || any;
      if (!any) unknown.push_back(part);
      for (const std::string_view word : smaller) {
        if (const auto one = counted(word))
          found_.push_back(*one);
        else if (any)
          unknown.push_back(word);
      }
    }
    if (!known) unknown = {text};
    for (const std::string_view word : unknown) {
      out_.unknown.push_back({out_.findings.size(), OrderField::Tier, std::string(word)});
      fail("order-unknown-tier", cells_[OrderField::Tier], detail::shown(word),
           "the id or the name of a tier", did_you_mean(word, names_.tier_ids()));
    }
  }

  // One number for several tiers is their sum, or the 1 that a form fills in by itself.
  void read_quantity() {
    const OrderCell& cell = cells_[OrderField::Quantity];
    const std::string_view text = trimmed(names_.meaning(OrderField::Quantity, trimmed(cell.text)));
    int sum = 0;
    for (const Found& one : found_) sum += one.kits.value_or(1);
    const bool said = std::ranges::any_of(found_, [](const Found& one) { return !!one.kits; });
    if (text.empty()) {
      if (found_.empty() && out_.findings.empty())
        fail("order-quantity", cell, "no kit of any tier", "at least one",
             "take the row out if nothing is ordered");
      return;
    }
    const std::optional<int> kits = kits_in(text);
    if (!kits || !in_bounds(*kits)) {
      no_quantity(cell, text, kits == 0);
    } else if (found_.size() == 1 && !said) {
      found_.front().kits = kits;
    } else if (*kits != sum && !(*kits == 1 && !said) && out_.findings.empty()) {
      fail("order-quantity", cell, fmt::format("{} kits, and {} beside their tiers", *kits, sum),
           "numbers that agree", "say in one place how many of each");
    }
  }

  const OrderCells& cells_;
  const Project& project_;
  const OrderNames& names_;
  std::vector<Found> found_;
  WantedReading out_;
};

} // namespace

WantedReading read_wanted(const OrderCells& cells, const Project& project,
                          const OrderNames& names) {
  return WantedReader(cells, project, names).read();
}

namespace {

// Groups of three digits behind each of these marks.
bool parts_thousands(std::string_view whole, char mark) {
  std::size_t at = whole.find(mark);
  const std::size_t first = whole.find_first_of("0123456789");
  if (at == std::string_view::npos) return true;
  if (first == std::string_view::npos || at - first > 3 || at == first) return false;
  for (; at != std::string_view::npos; at = whole.find(mark, at + 1)) {
    const std::string_view group = whole.substr(at + 1, 3);
    const bool digits = group.size() == 3 && std::ranges::all_of(group, leafwright::is_digit);
    const bool ends = at + 4 == whole.size() || whole[at + 4] == mark;
    if (!digits || !ends) return false;
  }
  return true;
}

} // namespace

std::optional<Money> amount_of(std::string_view text, const Currency& currency) {
  std::string number(trimmed(text));
  const std::size_t last = number.find_last_of(".,");
  if (last != std::string::npos) {
    const std::string_view behind = std::string_view(number).substr(last + 1);
    const std::size_t digits = std::min(behind.find_first_not_of("0123456789"), behind.size());
    const char other = number[last] == '.' ? ',' : '.';
    std::string whole = number.substr(0, last);
    const bool decimals = static_cast<int>(digits) <= currency.exponent && digits > 0 &&
                          parts_thousands(whole, other);
    if (!decimals || whole.find(number[last]) != std::string::npos) return std::nullopt;
    std::erase(whole, other);
    // Spreadsheets leave noughts at the end away.
    const std::string noughts(static_cast<std::size_t>(currency.exponent) - digits, '0');
    number = whole + "." + std::string(behind.substr(0, digits)) + noughts +
             std::string(behind.substr(digits));
  }
  const Parsed<Money> money = parse_money(number, currency);
  return money ? std::optional(*money) : std::nullopt;
}

std::optional<Date> day_of(std::string_view text, RosterColumn::Days days) {
  if (days == RosterColumn::Days::YearFirst) {
    if (const auto date = parse_date(text)) return (*date).date;
    constexpr std::size_t iso_length = 10;
    if (text.size() <= iso_length || (text[iso_length] != 'T' && text[iso_length] != ' '))
      return std::nullopt;
    const auto date = parse_date(text.substr(0, iso_length));
    return date ? std::optional((*date).date) : std::nullopt;
  }
  text = text.substr(0, text.find_first_of(" ,T"));
  const std::vector<std::string_view> parts = split(text, "/.-");
  if (parts.size() != 3 || parts[0].size() > 2 || parts[1].size() > 2) return std::nullopt;
  const bool century = parts[2].size() == 2;
  if (!century && parts[2].size() != 4) return std::nullopt;
  std::optional<int> first = whole(parts[0]), second = whole(parts[1]), year = whole(parts[2]);
  if (!first || !second || !year || *first < 1 || *second < 1 || *year < 0) return std::nullopt;
  if (days == RosterColumn::Days::DayFirst) std::swap(first, second);
  const Date date{std::chrono::year{century ? 2000 + *year : *year},
                  std::chrono::month{static_cast<unsigned>(*first)},
                  std::chrono::day{static_cast<unsigned>(*second)}};
  return date.ok() ? std::optional(date) : std::nullopt;
}

} // namespace leafwright::reading
