#pragma once

#include "plan/supply/needs.h"
#include "plan/supply/takings.h"

#include <span>

namespace leafwright::supply {

// What the things handed over weigh: paper by area and grammage, ribbon and tape by their share of
// a spool or roll, the rest piece by piece. Things without a mass of one (`each`) are named in
// `unknown`, once each; a tutorial weighs nothing.
KitMass mass_of_takings(const Project& project, std::span<const Taking> takings);

} // namespace leafwright::supply
