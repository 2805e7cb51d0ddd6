#pragma once

#include "app/verbs/internal/remeasure_report.h"

#include <string>
#include <vector>

namespace leafwright::app {

// What the new edition buys more of than the old one, why, and which value a mark shorter would
// avoid it: found by trying. `bytes` is the old file, `path` its name.
std::vector<DearerPurchase> dearer_purchases(const TwoSystems& both, const std::string& bytes,
                                             const std::string& path);

} // namespace leafwright::app
