#include "plan/orders/rules.h"

#include <array>

namespace leafwright::orders {

namespace {

using enum Severity;

constexpr std::array all{
    fit::Rule{"order-no-name", Warning, "an order without a name or a number"},
    fit::Rule{"order-unknown-tier", Warning, "an order of a tier that there is not"},
    fit::Rule{"order-quantity", Warning, "an order for no whole number of kits"},
    fit::Rule{"order-unknown-item", Warning, "a buyer owns or takes a thing that there is not"},
    fit::Rule{"order-amount", Warning, "a swap whose amount cannot be read"},
    fit::Rule{"order-date", Warning, "an order whose date cannot be read"},
    fit::Rule{"order-late", Warning, "an order after the reply-by date"},
    fit::Rule{"order-twice", Warning, "a name that orders a tier a second time"},
    fit::Rule{"order-no-swaps", Warning, "a swap in a tier that allows none"},
    fit::Rule{"order-no-credit", Warning, "a swap by somebody who owns nothing of the tier"},
    fit::Rule{"order-many-swaps", Warning, "more changed than the tier allows"},
    fit::Rule{"order-off-list", Warning, "a swap for something that is not on the tier's list"},
    fit::Rule{"order-over-credit", Warning, "swaps worth more than the credit, without a top-up"},
    fit::Rule{"order-top-up", Note, "swaps worth more than the credit: the rest is to be paid"},
    fit::Rule{"order-unpriced", Warning, "a swap for something that has no price"},
    fit::Rule{"order-must-own", Note, "orders that do not say what the tier asks to be owned"},
    fit::Rule{"roster-no-file", Error, "the list of orders cannot be read"},
    fit::Rule{"roster-columns", Error, "the list of orders lacks the column name or tier"},
    fit::Rule{"roster-table", Warning, "a row whose cells cannot be told apart"},
    fit::Rule{"roster-encoding", Warning, "letters in the list of orders that are not UTF-8"},
    fit::Rule{"roster-left-out", Warning, "rows of the list of orders that do not count"},
    fit::Rule{"label-off-sheet", Error, "labels that run off their paper"},
    fit::Rule{"label-overfull", Warning, "a label with more to say than it has room for"},
    fit::Rule{"date-order", Warning, "posting before the replies are in"},
    fit::Rule{"date-supplies-late", Warning, "supplies that arrive after cutting starts"},
    fit::Rule{"date-no-time", Warning, "more work than days before posting"},
    fit::Rule{"date-no-post", Warning, "posting on a day on which no parcel is taken"},
    fit::Rule{"date-weekday", Warning, "a class on another weekday than its date"},
};

} // namespace

std::span<const fit::Rule> rules() { return all; }

} // namespace leafwright::orders
