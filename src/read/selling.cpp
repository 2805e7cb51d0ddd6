#include "read/selling.h"

#include "measure/number.h"
#include "read/fields.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::reading {
namespace {

constexpr std::string_view percent_words = "a share of a hundred, such as 2.9";

// "2.9" or "2.9 %" in parts in a million, exactly.
std::int64_t percent_of(Context& context, const Element& element, std::string_view name) {
  const auto value = element.attribute(name);
  if (!value) return 0;
  std::string_view text = value->view();
  while (text.ends_with('%') || text.ends_with(' ')) text.remove_suffix(1);
  detail::TextCursor cursor(text);
  const auto number = detail::read_number(cursor, percent_words);
  std::optional<std::int64_t> ppm;
  if (number && cursor.done()) ppm = detail::times_exactly(*number, 10'000);
  if (ppm && *ppm <= 1'000'000) return *ppm;
  note(context, *value, "read-number", std::string(percent_words),
       "write a number from 0 to 100 with at most four decimals");
  return 0;
}

Money cost_of(Context& context, const Element& element) {
  return money_of(context, element, "cost").value_or(Money{0, context.project.currency});
}

void read_postage(Context& context, const Element& element, Selling& selling) {
  Selling::Postage postage{{}, cost_of(context, element), element.place()};
  if (element.has("up-to")) {
    const Mass mass = mass_of(context, element, "up-to");
    if (mass <= Mass{}) return;
    postage.up_to = mass;
  }
  const auto same = std::find_if(selling.postage.begin(), selling.postage.end(),
                                 [&](const auto& one) { return one.up_to == postage.up_to; });
  if (same != selling.postage.end()) {
    context.journal.error(
        "read-twice", element.place(),
        postage.up_to ? fmt::format("postage up to {} a second time", mass_text(*postage.up_to))
                      : std::string("postage of any mass a second time"),
        "one cost for each step of mass", "delete one of the two");
    return;
  }
  selling.postage.push_back(std::move(postage));
}

} // namespace

void read_selling(Context& context, const Element& element) {
  Selling& selling = context.project.selling;
  selling.place = element.place();
  selling.fee_fixed = {0, context.project.currency};
  if (const Element fees = element.child("fees")) {
    selling.fee_ppm = percent_of(context, fees, "percent");
    selling.fee_fixed = money_of(context, fees, "fixed").value_or(selling.fee_fixed);
  }
  for (const Element& postage : element.children("postage"))
    read_postage(context, postage, selling);
  std::sort(selling.postage.begin(), selling.postage.end(), [](const auto& a, const auto& b) {
    if (a.up_to && b.up_to) return *a.up_to < *b.up_to;
    return a.up_to.has_value() && !b.up_to.has_value();
  });
  if (const Element packing = element.child("packing")) selling.packing = cost_of(context, packing);
  for (const Element& outlay : element.children("outlay"))
    selling.outlays.push_back({outlay.prose().text(), cost_of(context, outlay), outlay.place()});
}

} // namespace leafwright::reading
