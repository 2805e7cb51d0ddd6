#pragma once

#include "measure/length.h"
#include "measure/money.h"

#include <string>

// Numbers as a record holds them: a point for decimals, no sign of a unit.

namespace leafwright::records {

// Exact: "107.95". At most six decimals.
std::string millimetre_text(Length length);

// "-12.50": with the decimals of its currency.
std::string amount_text(const Money& money);

} // namespace leafwright::records
