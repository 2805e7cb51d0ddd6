#pragma once

#include "plan/cut/internal/lister.h"
#include "plan/cut/internal/search.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace leafwright::cut {

// Whole-number vectors seen modulo a square basis: two share a key exactly when they differ by a
// whole-number combination of the basis' vectors. With the patterns of an optimal vertex as the
// basis that is the group of Gomory (Proceedings of the National Academy of Sciences 53 (1965)
// 260-265; Linear Algebra and its Applications 2 (1969) 451-558; from memory).
class Residues {
 public:
  // Sums of the vector's entries modulo divisors of the order, one bit field each.
  using Key = std::uint64_t;

  // `basis[k]` is one vector; as many vectors as entries. None: the basis is singular, or has more
  // residues than a key can tell apart.
  static std::optional<Residues> of(const std::vector<std::vector<std::int64_t>>& basis);

  Key key(std::span<const std::int64_t> vector) const;
  Key sum(Key a, Key b) const {
    Key result = 0;
    for (const Field& f : fields_) {
      const Key part = ((a >> f.shift) & f.mask) + ((b >> f.shift) & f.mask);
      result |= (part >= f.modulus ? part - f.modulus : part) << f.shift;
    }
    return result;
  }
  Key difference(Key a, Key b) const {
    Key result = 0;
    for (const Field& f : fields_) {
      const Key x = (a >> f.shift) & f.mask;
      const Key y = (b >> f.shift) & f.mask;
      result |= (x >= y ? x - y : x + f.modulus - y) << f.shift;
    }
    return result;
  }
  // How many residues there are: the basis' determinant.
  double order() const { return order_; }

 private:
  struct Field {
    Key modulus = 1, mask = 0;
    int shift = 0;
    std::vector<Key> weights; // of the vector's entries
  };
  std::vector<Field> fields_;
  double order_ = 1;
};

// A pattern in the pool (>= 0), or a piece too many of type t (-1 - t).
using Activity = int;

std::vector<std::int64_t> vector_of(const Search& search, Activity activity);

// A plan in fractions that costs as little as the relaxation, well away from its edges, seen from
// a basis: the loose activities stand at whole amounts, and whole amounts of the basis make up any
// rest whose residue is nought.
class OptimalFace {
 public:
  // `vertex`: the relaxation's basis; `others`: more that give nothing away. The basis is the one
  // of the largest amounts; where its order is above `most_order`, one with fewer residues, whose
  // amounts however change in larger steps. None: too many residues all the same.
  static std::optional<OptimalFace> of(const Search& search, const std::vector<Activity>& vertex,
                                       const std::vector<Activity>& others, double most_order);

  const Residues& residues() const { return residues_; }
  // Activities beside the basis that may change freely, and the amounts they stand at.
  std::span<const Activity> loose() const { return loose_; }
  std::span<const std::int64_t> amounts() const { return amounts_; }
  // What the amounts of the loose ones leave of the demand.
  const std::vector<std::int64_t>& rest() const { return rest_; }

  // Whole amounts of the basis that yield `rest`; none where one would be negative.
  std::optional<Sheets> sheets_for(std::span<const std::int64_t> rest) const;

 private:
  explicit OptimalFace(Residues residues) : residues_(std::move(residues)) {}

  Residues residues_;
  std::vector<Activity> basis_;
  std::vector<double> inverse_;
  std::vector<Activity> loose_;
  std::vector<std::int64_t> amounts_;
  std::vector<std::int64_t> rest_;
};

struct ClosingEffort {
  ProofEffort list;              // entries and columns of it
  std::uint32_t stored = 60'000; // sums of patterns held in the table
  std::int64_t tries = 600'000;  // sums of patterns looked up in it
};

// Looks for a plan that costs exactly the bound, where copies are many. Such a plan is one of the
// relaxation's with a few other patterns in it, which together give away the gap, no more and no
// less. The relaxation's own patterns can make up the rest in whole sheets just when the others
// leave the residue of the demand (residue.cpp), so handfuls of patterns are drawn and two are
// sought that meet in it. Whether all amounts stay positive is then checked; they are large where
// copies are many. True: found, or the bound rose to the best plan.
bool close_gap(Search& search, Relaxation& relaxation, std::uint64_t number,
               const ClosingEffort& effort);

} // namespace leafwright::cut
