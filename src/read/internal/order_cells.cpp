#include "read/order_cells.h"

#include "measure/letters.h"
#include "model/item.h"
#include "read/document.h"
#include "read/internal/elements.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

namespace leafwright::reading {
namespace {

constexpr int most_kits = 10'000;
constexpr std::size_t most_listed = 100; // things one buyer owns or takes

constexpr std::string_view blanks = " \t\r\n";

// Lower case (ASCII), runs of blanks as one.
std::string folded(std::string_view text) {
  std::string out;
  for (const char c : trimmed(text)) {
    if (blanks.find(c) != std::string_view::npos) {
      if (out.back() != ' ') out += ' ';
      continue;
    }
    out += small_letter(c);
  }
  return out;
}

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

Finding finding_at(Severity severity, std::string code, const OrderCell& cell, std::string found,
                   std::string expected, std::string fix) {
  return {
      severity, std::move(code), cell.place, std::move(found), std::move(expected), std::move(fix),
      {}};
}

class Reader {
 public:
  Reader(const OrderCells& cells, const Project& project, const OrderNames& names)
      : cells_(cells), project_(project), names_(names) {}

  OrderReading read() {
    order_.place = cells_.place;
    order_.swaps_place = cells_.swaps.place;
    order_.name = cleaned(cells_.name.text, false);
    order_.address = cleaned(cells_.address.text, true);
    order_.region = cleaned(cells_.region.text, false);
    order_.note = cleaned(cells_.note.text, true);
    if (order_.name.empty())
      fail("order-no-name", cells_.name, "nothing", "the buyer's name, or a number",
           "fill it in: a parcel needs one");
    read_status();
    if (counts(order_.status)) read_what_is_ordered();
    OrderReading reading;
    const bool counts = !has_errors(findings_);
    reading.findings = std::move(findings_);
    if (counts) reading.order = std::move(order_);
    return reading;
  }

 private:
  void fail(std::string code, const OrderCell& cell, std::string found, std::string expected,
            std::string fix) {
    findings_.push_back(finding_at(Severity::Error, std::move(code), cell, std::move(found),
                                   std::move(expected), std::move(fix)));
  }
  void warn(std::string code, const OrderCell& cell, std::string found, std::string expected,
            std::string fix) {
    findings_.push_back(finding_at(Severity::Warning, std::move(code), cell, std::move(found),
                                   std::move(expected), std::move(fix)));
  }

  // A word that is not known may mean that she wants nothing any more: such a row does not count.
  void read_status() {
    const std::string word = folded(cells_.status.text);
    if (word.empty()) return;
    const auto take = [&](const auto& list) {
      const auto known = std::ranges::find(list, word, &StatusWord::word);
      if (known != list.end()) order_.status = known->status;
      return known != list.end();
    };
    if (take(our_status_words) || take(other_status_words)) return;
    std::vector<std::string_view> words;
    for (const StatusWord& one : our_status_words) words.push_back(one.word);
    fail("order-status", cells_.status, detail::shown(trimmed(cells_.status.text)),
         "what the order is: open, paid, cancelled, refunded or test", did_you_mean(word, words));
  }

  void read_what_is_ordered() {
    read_tier();
    read_quantity();
    read_owned();
    read_swaps();
    read_date();
  }

  void read_tier() {
    const std::string_view word = trimmed(cells_.tier.text);
    if (word.empty() && project_.tiers.size() == 1) {
      order_.tier = 0;
      return;
    }
    if (const int* tier = names_.tier(word)) {
      order_.tier = *tier;
      return;
    }
    fail("order-unknown-tier", cells_.tier, detail::shown(word), "the id or the name of a tier",
         did_you_mean(word, names_.tier_ids()));
  }

  void read_quantity() {
    std::string_view text = trimmed(cells_.quantity.text);
    if (text.empty()) return;
    int number = 0;
    const auto [stop, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = fault == std::errc{} && stop == text.data() + text.size();
    if (whole && number >= 1 && number <= most_kits) {
      order_.quantity = number;
      return;
    }
    fail("order-quantity", cells_.quantity, detail::shown(text),
         fmt::format("how many kits, a whole number from 1 to {}", most_kits),
         whole && number == 0 ? "take the row out if nothing is ordered" : "write digits only");
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
      for (const std::string_view smaller : split(part, ",")) {
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

  void unknown(const OrderCell& cell, std::string_view part, std::string_view then) {
    const std::string near = did_you_mean(part, names_.item_ids());
    warn("order-unknown-item", cell, detail::shown(part), "the id or the name of a thing",
         near + (near.empty() ? "" : "; ") + std::string(then));
  }

  void read_owned() {
    each_thing(cells_.owned, [&](std::string_view part) {
      if (const ItemRef* item = names_.item(part))
        order_.owned.push_back(*item);
      else
        unknown(cells_.owned, part, "the order counts as if it were not there");
    });
  }

  void read_swaps() {
    each_thing(cells_.swaps, [&](std::string_view part) {
      Swap swap;
      const std::size_t sign = part.rfind(':');
      std::string_view name = part, amount;
      if (!names_.item(part) && sign != std::string_view::npos) {
        name = trimmed(part.substr(0, sign));
        amount = trimmed(part.substr(sign + 1));
      }
      const ItemRef* item = names_.item(name);
      if (!item) {
        unknown(cells_.swaps, name, "it is not put into the parcel");
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
          warn("order-amount", cells_.swaps, parsed.parse_error().found,
               parsed.parse_error().expected, "one whole is taken");
        }
      }
      order_.swaps.push_back(swap);
    });
  }

  // The day alone matters: forms add the time of day behind it.
  void read_date() {
    std::string_view text = trimmed(cells_.date.text);
    if (text.empty()) return;
    Parsed<StatedDate> date = parse_date(text);
    constexpr std::size_t iso_length = 10;
    if (!date && text.size() > iso_length && (text[iso_length] == 'T' || text[iso_length] == ' '))
      date = parse_date(text.substr(0, iso_length));
    if (date)
      order_.date = (*date).date;
    else
      warn("order-date", cells_.date, detail::shown(text), "a date such as 2027-03-16",
           "write year, month, day; the order counts without its date");
  }

  const OrderCells& cells_;
  const Project& project_;
  const OrderNames& names_;
  Order order_;
  Findings findings_;
};

} // namespace

OrderNames::OrderNames(const Project& project) : project_(project) {
  // Ids come first: a name that is another thing's id means that thing.
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    tiers_.emplace(folded(project.tiers[i].id), static_cast<int>(i));
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    tiers_.emplace(folded(project.tiers[i].name), static_cast<int>(i));
  std::vector<ItemRef> all;
  for_each_list(project, [&](ItemKind kind, const auto& list) {
    for (std::size_t i = 0; i < list.size(); ++i) all.push_back({kind, static_cast<int>(i)});
  });
  for (const ItemRef item : all) {
    ids_.push_back(item_id(project, item));
    items_.emplace(folded(ids_.back()), item);
  }
  for (const ItemRef item : all) items_.emplace(folded(item_name(project, item)), item);
}

const int* OrderNames::tier(std::string_view word) const {
  const auto found = tiers_.find(folded(word));
  return found == tiers_.end() ? nullptr : &found->second;
}

const ItemRef* OrderNames::item(std::string_view word) const {
  const auto found = items_.find(folded(word));
  return found == items_.end() ? nullptr : &found->second;
}

std::vector<std::string_view> OrderNames::tier_ids() const {
  std::vector<std::string_view> ids;
  for (const Tier& tier : project_.tiers) ids.emplace_back(tier.id);
  return ids;
}

std::vector<std::string_view> OrderNames::item_ids() const { return {ids_.begin(), ids_.end()}; }

OrderReading read_order(const OrderCells& cells, const Project& project, const OrderNames& names) {
  return Reader(cells, project, names).read();
}

} // namespace leafwright::reading
