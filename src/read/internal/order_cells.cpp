#include "read/order_cells.h"

#include "measure/letters.h"
#include "read/document.h"
#include "read/internal/elements.h"
#include "read/internal/order_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace leafwright::reading {
namespace {

constexpr std::size_t most_listed = 100; // things one buyer owns or takes

constexpr std::string_view blanks = " \t\r\n";

// Line ends as LF, no control characters, no blank lines; one line when `lines` is false.
std::string cleaned(std::string_view text, bool lines) {
  std::string out;
  for (const char c : trimmed(text)) {
    const bool line_end = c == '\n' || c == '\r';
    if (line_end && lines) {
      while (!out.empty() && out.back() == ' ') out.pop_back();
      if (!out.empty() && out.back() != '\n') out += '\n';
    } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) {
      if (!out.empty() && out.back() != ' ' && out.back() != '\n') out += ' ';
    } else {
      out += c;
    }
  }
  return out;
}

struct StatusWord {
  std::string_view word;
  OrderStatus status;
};
// Ours, in the order in which they are offered, and what other lists write for them.
constexpr std::array our_status_words{
    StatusWord{"open", OrderStatus::Open},           StatusWord{"paid", OrderStatus::Paid},
    StatusWord{"cancelled", OrderStatus::Cancelled}, StatusWord{"refunded", OrderStatus::Refunded},
    StatusWord{"test", OrderStatus::Test},
};
constexpr std::array other_status_words{
    StatusWord{"unpaid", OrderStatus::Open},
    StatusWord{"pending", OrderStatus::Open},
    StatusWord{"canceled", OrderStatus::Cancelled},
};

std::optional<bool> yes_or_no(std::string_view text) {
  const std::string word = folded(text);
  if (word == "yes" || word == "x" || word == "true") return true;
  if (word == "no" || word == "false") return false;
  return std::nullopt;
}

class Reader {
 public:
  Reader(const OrderCells& cells, const Project& project, const OrderNames& names)
      : cells_(cells), project_(project), names_(names) {}

  OrderReading read() {
    using enum OrderField;
    order_.place = cells_.place;
    order_.swaps_place = cells_[Swaps].place;
    order_.id = cleaned(cells_[Id].text, false);
    order_.name = cleaned(cells_[Name].text, false);
    order_.address = cleaned(cells_[Address].text, true);
    order_.region = cleaned(names_.meaning(Region, cells_[Region].text), false);
    order_.note = cleaned(cells_[Note].text, true);
    if (order_.name.empty())
      fail("order-no-name", cells_[Name], "nothing", "the buyer's name, or a number",
           "fill it in: a parcel needs one");
    order_.email = cleaned(cells_[Email].text, false);
    order_.sent = cleaned(cells_[Sent].text, false);
    order_.parcel = cleaned(cells_[Parcel].text, false);
    read_status();
    read_payment();
    read_picked_up();
    std::vector<WantedKits> wanted{{-1, 1}};
    if (counts(order_.status)) wanted = read_what_is_ordered();
    if (!has_errors(reading_.findings))
      for (const WantedKits& kits : wanted) {
        reading_.orders.push_back(order_);
        reading_.orders.back().tier = kits.tier;
        reading_.orders.back().quantity = kits.kits;
        order_.paid.reset(); // the row's, and the first order has it
        order_.refunded.reset();
      }
    return std::move(reading_);
  }

 private:
  void tell(Severity severity, std::string code, const OrderCell& cell, std::string found,
            std::string expected, std::string fix) {
    reading_.findings.push_back({severity,
                                 std::move(code),
                                 cell.place,
                                 std::move(found),
                                 std::move(expected),
                                 std::move(fix),
                                 {}});
  }
  void fail(std::string code, const OrderCell& cell, std::string found, std::string expected,
            std::string fix) {
    tell(Severity::Error, std::move(code), cell, std::move(found), std::move(expected),
         std::move(fix));
  }
  void warn(std::string code, const OrderCell& cell, std::string found, std::string expected,
            std::string fix) {
    tell(Severity::Warning, std::move(code), cell, std::move(found), std::move(expected),
         std::move(fix));
  }
  // The next finding is of a word that the maker may give a meaning.
  void unknown(OrderField field, std::string_view text) {
    reading_.unknown.push_back({reading_.findings.size(), field, std::string(text)});
  }

  // A word that is not known may mean that she wants nothing any more: such a row does not count.
  void read_status() {
    const OrderCell& cell = cells_[OrderField::Status];
    const std::string word = folded(names_.meaning(OrderField::Status, cell.text));
    if (word.empty()) return;
    const auto take = [&](const auto& list) {
      const auto known = std::ranges::find(list, word, &StatusWord::word);
      if (known != list.end()) order_.status = known->status;
      return known != list.end();
    };
    if (take(our_status_words) || take(other_status_words)) return;
    std::vector<std::string_view> words;
    for (const StatusWord& one : our_status_words) words.push_back(one.word);
    unknown(OrderField::Status, trimmed(cell.text));
    fail("order-status", cell, detail::shown(trimmed(cell.text)),
         "what the order is: open, paid, cancelled, refunded or test", did_you_mean(word, words));
  }

  // Half a sum is worse than none: what cannot be read counts as not said.
  std::optional<Money> amount(OrderField field) {
    const OrderCell& cell = cells_[field];
    if (trimmed(cell.text).empty()) return std::nullopt;
    const std::optional<Money> money = amount_of(cell.text, project_.currency);
    if (!money)
      warn("order-money", cell, detail::shown(trimmed(cell.text)),
           fmt::format("an amount such as 12{}50 in {}", project_.currency.exponent == 2 ? "." : "",
                       project_.currency.code),
           "write it without words; it counts as not said");
    return money;
  }

  // Some lists say only whether it came in.
  void read_payment() {
    const std::optional<bool> said = yes_or_no(cells_[OrderField::Paid].text);
    if (said && order_.status == OrderStatus::Unsaid)
      order_.status = *said ? OrderStatus::Paid : OrderStatus::Open;
    if (!said) order_.paid = amount(OrderField::Paid);
    order_.refunded = amount(OrderField::Refunded);
    const OrderCell& day = cells_[OrderField::PaidOn];
    if (trimmed(day.text).empty()) return;
    order_.paid_on = day_of(trimmed(day.text), day.days);
    if (order_.paid_on) return;
    unknown(OrderField::PaidOn, trimmed(day.text));
    warn("order-date", day, detail::shown(trimmed(day.text)), "a date such as 2027-03-16",
         "write year, month, day; the payment counts without its date");
  }

  void read_picked_up() {
    const OrderCell& cell = cells_[OrderField::PickedUp];
    const std::string_view text = names_.meaning(OrderField::PickedUp, cell.text);
    const std::optional<bool> said = yes_or_no(text);
    order_.picked_up = said.value_or(false);
    if (said || trimmed(text).empty()) return;
    unknown(OrderField::PickedUp, trimmed(cell.text));
    warn("order-status", cell, detail::shown(trimmed(cell.text)), "yes or no",
         "write yes where she comes for it; until then a parcel is made");
  }

  std::vector<WantedKits> read_what_is_ordered() {
    WantedReading wanted = read_wanted(cells_, project_, names_);
    for (OrderReading::Unknown& one : wanted.unknown) {
      one.finding += reading_.findings.size();
      reading_.unknown.push_back(std::move(one));
    }
    for (Finding& one : wanted.findings) reading_.findings.push_back(std::move(one));
    read_owned();
    if (wanted.kits.size() > 1 && !trimmed(cells_[OrderField::Swaps].text).empty())
      warn("order-whose-swaps", cells_[OrderField::Swaps],
           fmt::format("{} kits in one row, and swaps", wanted.kits.size()),
           "swaps beside the one kit that they are for",
           "give each kit a row of its own; until then nothing is swapped");
    else
      read_swaps();
    read_date();
    return std::move(wanted.kits);
  }

  // Things are parted by ; + or line ends, and by commas and blanks where that makes names of them:
  // a name may hold a comma itself.
  template <class Take>
  void each_thing(const OrderCell& cell, Take take) {
    std::size_t count = 0;
    const auto one = [&](std::string_view part) {
      if (++count <= most_listed) take(part);
    };
    for (const std::string_view part : split(cell.text, ";+\n\r|")) {
      if (knows(part)) {
        one(part);
        continue;
      }
      for (const std::string_view smaller :
           comma_parts(part, [&](std::string_view name) { return knows(name); })) {
        const std::vector<std::string_view> words = split(smaller, blanks);
        bool all = words.size() > 1 && !knows(smaller);
        for (const std::string_view word : words) all = all && names_.item(word) != nullptr;
        if (!all)
          one(smaller);
        else
          for (const std::string_view word : words) one(word);
      }
    }
    if (count > most_listed)
      warn("order-unknown-item", cell, fmt::format("{} things", count),
           fmt::format("at most {}", most_listed), "the rest is passed over");
  }

  bool knows(std::string_view part) const {
    if (names_.item(part)) return true;
    const std::size_t sign = part.rfind(':');
    return sign != std::string_view::npos && names_.item(part.substr(0, sign));
  }

  void unknown_thing(OrderField field, std::string_view part, std::string_view then) {
    const std::string near = did_you_mean(part, names_.item_ids());
    unknown(field, part);
    warn("order-unknown-item", cells_[field], detail::shown(part), "the id or the name of a thing",
         near + (near.empty() ? "" : "; ") + std::string(then));
  }

  void read_owned() {
    each_thing(cells_[OrderField::Owned], [&](std::string_view part) {
      if (const ItemRef* item = names_.item(part))
        order_.owned.push_back(*item);
      else
        unknown_thing(OrderField::Owned, part, "the order counts as if it were not there");
    });
  }

  void read_swaps() {
    each_thing(cells_[OrderField::Swaps], [&](std::string_view part) {
      Swap swap;
      const std::size_t sign = part.rfind(':');
      std::string_view name = part, amount;
      if (!names_.item(part) && sign != std::string_view::npos) {
        name = trimmed(part.substr(0, sign));
        amount = trimmed(part.substr(sign + 1));
      }
      const ItemRef* item = names_.item(name);
      if (!item) {
        unknown_thing(OrderField::Swaps, name, "it is not put into the parcel");
        return;
      }
      swap.item = *item;
      swap.amount.kind = Amount::Kind::Whole;
      if (!amount.empty()) {
        const auto parsed = parse_amount(amount, project_.printing.unit);
        if (parsed) {
          swap.amount = *parsed;
          swap.amount_said = true;
        } else {
          warn("order-amount", cells_[OrderField::Swaps], parsed.parse_error().found,
               parsed.parse_error().expected, "one whole is taken");
        }
      }
      order_.swaps.push_back(swap);
    });
  }

  void read_date() {
    const OrderCell& cell = cells_[OrderField::Day];
    const std::string_view text = trimmed(cell.text);
    if (text.empty()) return;
    order_.date = day_of(text, cell.days);
    if (order_.date) return;
    unknown(OrderField::Day, text);
    warn("order-date", cell, detail::shown(text), "a date such as 2027-03-16",
         "write year, month, day; the order counts without its date");
  }

  const OrderCells& cells_;
  const Project& project_;
  const OrderNames& names_;
  Order order_;
  OrderReading reading_;
};

} // namespace

OrderReading read_order(const OrderCells& cells, const Project& project, const OrderNames& names) {
  return Reader(cells, project, names).read();
}

} // namespace leafwright::reading
