#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace leafwright::cut {

/// Whole-number vectors seen modulo a square basis: two share a key exactly when they differ by a
/// whole-number combination of the basis' vectors. With the patterns of an optimal vertex as the
/// basis that is the group of Gomory (Proceedings of the National Academy of Sciences 53 (1965)
/// 260-265; Linear Algebra and its Applications 2 (1969) 451-558; from memory).
class Residues {
 public:
  /// Sums of the vector's entries modulo divisors of the order, one bit field each.
  using Key = std::uint64_t;

  /// `basis[k]` is one vector; as many vectors as entries. None: the basis is singular, or has more
  /// residues than a key can tell apart.
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
  /// How many residues there are: the basis' determinant.
  double order() const { return order_; }

 private:
  struct Field {
    Key modulus = 1, mask = 0;
    int shift = 0;
    std::vector<Key> weights; ///< of the vector's entries
  };
  std::vector<Field> fields_;
  double order_ = 1;
};

} // namespace leafwright::cut
