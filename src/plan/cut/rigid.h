#pragma once

#include "plan/cut/search.h"

#include <cstdint>
#include <optional>

namespace leafwright::cut {

/// The slice laid out on its stock with every piece of waste told, so that the smallest strip and
/// the stages of `normal` are kept; nothing when no arrangement of its waste does that.
std::optional<Slice> made_rigid(const Normal& normal, int stock, const Slice& slice);

/// For few pieces under rules: packs them without the rules, keeps the sheets that obey them as new
/// patterns, and offers a plan when all do. Some walks of the local search, beginning with
/// `number`.
void propose_rigid(Search& search, std::uint64_t number);

} // namespace leafwright::cut
