#pragma once

#include "guide/business/business.h"

namespace leafwright::guide {

// What the batch earns if more or fewer sign up; without blocks when no kits are planned.
Section outlook_section(const Project& project, const MoneyBook& book);

} // namespace leafwright::guide
