#pragma once

#include "plan/cut/internal/finish.h"
#include "plan/cut/internal/inside.h"
#include "plan/cut/internal/normal.h"
#include "plan/cut/internal/search.h"

#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::cut {

// Of many plans with the same sheets, free ones and ones in strips, the one that gives a person
// least trouble: the fewest settings of the fence, then few cuts, then a large offcut. For a few
// pieces that lie on one stock; otherwise `batches` come back. Where a pack of sheets is opened
// anyway, its other sheets are used if that saves more settings than it takes sheets, or as many
// and some cuts.
std::vector<Batch> least_handling(const Job& job, Search& search, std::vector<Batch> batches);

// What lies beside one another: anything; on each sheet strips of one width; and in each of these
// one size.
enum class Strip { Any, Alike, OfOnePiece };

// Pieces put into strips across the sheet as a person would: pieces of one size side by side in
// strips of their own height, what is left of a strip filled with pieces of the same height, then
// lower ones in stacks; strips one above the other. `draw` varies the order, the direction of the
// strips and how each size lies. At most `sheets` sheets of the stock; empty: these were too few.
std::vector<Slice> in_strips(const Normal& normal, int stock, std::span<const std::int64_t> demand,
                             std::size_t sheets, Draw& draw, Strip kind = Strip::Any);

} // namespace leafwright::cut
