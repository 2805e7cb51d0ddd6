#pragma once

#include "plan/cut/residue.h"
#include "plan/cut/search.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace leafwright::cut {

/// A pattern in the pool (>= 0), or a piece too many of type t (-1 - t).
using Activity = int;

std::vector<std::int64_t> vector_of(const Search& search, Activity activity);

/// A plan in fractions that costs as little as the relaxation, well away from its edges, seen from
/// a basis: the loose activities stand at whole amounts, and whole amounts of the basis make up any
/// rest whose residue is nought.
class Face {
 public:
  /// `vertex`: the relaxation's basis; `others`: more that give nothing away. The basis is the one
  /// of the largest amounts; where its order is above `most_order`, one with fewer residues, whose
  /// amounts however change in larger steps. None: too many residues all the same.
  static std::optional<Face> of(const Search& search, const std::vector<Activity>& vertex,
                                const std::vector<Activity>& others, double most_order);

  const Residues& residues() const { return residues_; }
  /// Activities beside the basis that may change freely, and the amounts they stand at.
  std::span<const Activity> loose() const { return loose_; }
  std::span<const std::int64_t> amounts() const { return amounts_; }
  /// What the amounts of the loose ones leave of the demand.
  const std::vector<std::int64_t>& rest() const { return rest_; }

  /// Whole amounts of the basis that yield `rest`; none where one would be negative.
  std::optional<Sheets> sheets_for(std::span<const std::int64_t> rest) const;

 private:
  explicit Face(Residues residues) : residues_(std::move(residues)) {}

  Residues residues_;
  std::vector<Activity> basis_;
  std::vector<double> inverse_;
  std::vector<Activity> loose_;
  std::vector<std::int64_t> amounts_;
  std::vector<std::int64_t> rest_;
};

} // namespace leafwright::cut
