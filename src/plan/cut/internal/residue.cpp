#include "plan/cut/internal/closing.h"

#include "plan/cut/internal/search.h"

#include <bit>
#include <cmath>
#include <numeric>
#include <utility>

namespace leafwright::cut {

namespace {

using Row = std::vector<std::uint64_t>;
__extension__ using WideUnsigned = unsigned __int128;

std::uint64_t times(std::uint64_t a, std::uint64_t b, std::uint64_t modulus) {
  return static_cast<std::uint64_t>(WideUnsigned{a} * b % modulus);
}

std::uint64_t positive(std::int64_t value, std::uint64_t modulus) {
  const std::uint64_t size = static_cast<std::uint64_t>(value < 0 ? -value : value) % modulus;
  return value >= 0 || size == 0 ? size : modulus - size;
}

// 1 / a modulo m, for a prime to m.
std::uint64_t inverse(std::uint64_t a, std::uint64_t m) {
  Wide x = 1;
  Wide y = 0;
  std::uint64_t r = m;
  while (a > 1 && r > 0) {
    const std::uint64_t q = a / r;
    a = std::exchange(r, a - q * r);
    x = std::exchange(y, x - Wide{q} * y);
  }
  const Wide wide = m;
  return static_cast<std::uint64_t>((x % wide + wide) % wide);
}

std::vector<Row> rows_of(const std::vector<std::vector<std::int64_t>>& basis,
                         std::uint64_t modulus) {
  const std::size_t n = basis.size();
  std::vector<Row> rows(n, Row(n, 0));
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t t = 0; t < n; ++t) rows[t][j] = positive(basis[j][t], modulus);
  }
  return rows;
}

// The determinant by its size in floating point and its value modulo a large prime; 0: singular, or
// too large to be sure.
std::uint64_t determinant(const std::vector<std::vector<std::int64_t>>& basis) {
  constexpr std::uint64_t prime = (std::uint64_t{1} << 61) - 1;
  const std::size_t n = basis.size();
  std::vector<std::vector<double>> real(n, std::vector<double>(n));
  for (std::size_t j = 0; j < n; ++j) {
    for (std::size_t t = 0; t < n; ++t) real[t][j] = static_cast<double>(basis[j][t]);
  }
  std::vector<Row> rows = rows_of(basis, prime);
  double size = 0;
  std::uint64_t product = 1;
  for (std::size_t c = 0; c < n; ++c) {
    std::size_t p = c;
    for (std::size_t i = c; i < n; ++i) {
      if (std::fabs(real[i][c]) > std::fabs(real[p][c])) p = i;
    }
    if (rows[p][c] == 0 || std::fabs(real[p][c]) < 1e-9) return 0;
    std::swap(real[p], real[c]);
    std::swap(rows[p], rows[c]);
    size += std::log2(std::fabs(real[c][c]));
    product = times(product, rows[c][c], prime);
    const std::uint64_t over = inverse(rows[c][c], prime);
    for (std::size_t i = c + 1; i < n; ++i) {
      if (rows[i][c] == 0) continue;
      const double share = real[i][c] / real[c][c];
      const std::uint64_t part = prime - times(rows[i][c], over, prime);
      for (std::size_t k = c; k < n; ++k) {
        if (rows[c][k] == 0) continue;
        real[i][k] -= share * real[c][k];
        rows[i][k] = (rows[i][k] + times(part, rows[c][k], prime)) % prime;
      }
    }
  }
  if (size > 56) return 0;
  return std::min(product, prime - product);
}

// Diagonal form modulo `order` by whole-number steps on rows and columns (Smith); the steps on rows
// are repeated on the unit matrix, whose rows then tell residues apart.
class Diagonal {
 public:
  Diagonal(std::vector<Row> rows, std::uint64_t order)
      : rows_(std::move(rows)), order_(order), steps_(rows_.size(), Row(rows_.size(), 0)) {
    for (std::size_t k = 0; k < rows_.size(); ++k) steps_[k][k] = 1 % order;
    for (std::size_t k = 0; k < rows_.size(); ++k) {
      while (!settle(k)) {
      }
    }
  }

  std::uint64_t divisor(std::size_t k) const { return std::gcd(rows_[k][k], order_); }
  const Row& weights(std::size_t k) const { return steps_[k]; }

 private:
  void add(std::size_t to, std::size_t from, std::uint64_t factor) {
    if (factor == 0) return;
    for (auto* table : {&rows_, &steps_}) {
      for (std::size_t k = 0; k < rows_.size(); ++k) {
        const std::uint64_t value = (*table)[from][k];
        if (value == 0) continue;
        std::uint64_t& sum = (*table)[to][k];
        sum += times(value, factor, order_);
        if (sum >= order_) sum -= order_;
      }
    }
  }
  std::uint64_t minus(std::uint64_t value) const { return value == 0 ? 0 : order_ - value; }

  // Brings the entry with the fewest factors in common with the order to (k, k).
  void choose(std::size_t k) {
    std::size_t row = k;
    std::size_t column = k;
    std::uint64_t least = order_;
    for (std::size_t i = k; i < rows_.size() && least > 1; ++i) {
      for (std::size_t j = k; j < rows_.size() && least > 1; ++j) {
        const std::uint64_t common = std::gcd(rows_[i][j], order_);
        if (common < least) {
          least = common;
          row = i;
          column = j;
        }
      }
    }
    std::swap(rows_[row], rows_[k]);
    std::swap(steps_[row], steps_[k]);
    for (Row& r : rows_) std::swap(r[column], r[k]);
  }

  // Makes the pivot the divisor itself.
  void scale(std::size_t k) {
    const std::uint64_t pivot = rows_[k][k];
    const std::uint64_t common = std::gcd(pivot, order_);
    if (common == order_ || pivot == common) return;
    const std::uint64_t step = order_ / common;
    std::uint64_t factor = inverse(pivot / common % step, step);
    while (std::gcd(factor, order_) != 1) factor += step;
    for (auto* table : {&rows_, &steps_}) {
      for (std::uint64_t& value : (*table)[k]) value = times(value, factor, order_);
    }
  }

  // Clears row and column k. False: a smaller divisor came up, so k must be chosen anew.
  bool settle(std::size_t k) {
    choose(k);
    scale(k);
    const std::uint64_t pivot = rows_[k][k];
    if (pivot == 0) return true; // then all that is left is 0
    bool clear = true;
    for (std::size_t i = k + 1; i < rows_.size(); ++i) {
      add(i, k, minus(rows_[i][k] / pivot));
      clear = clear && rows_[i][k] == 0;
    }
    if (!clear) return false;
    for (std::size_t j = k + 1; j < rows_.size(); ++j) {
      rows_[k][j] %= pivot; // a step on columns; below the pivot there are zeros
      clear = clear && rows_[k][j] == 0;
    }
    return clear;
  }

  std::vector<Row> rows_;
  std::uint64_t order_;
  std::vector<Row> steps_;
};

} // namespace

std::optional<Residues> Residues::of(const std::vector<std::vector<std::int64_t>>& basis) {
  const std::uint64_t order = determinant(basis);
  if (order == 0) return std::nullopt;
  Residues result;
  result.order_ = static_cast<double>(order);
  const Diagonal diagonal(rows_of(basis, order), order);
  int shift = 0;
  WideUnsigned product = 1;
  for (std::size_t k = 0; k < basis.size(); ++k) {
    const std::uint64_t modulus = diagonal.divisor(k);
    product *= modulus;
    if (product > order) return std::nullopt;
    if (modulus == 1) continue;
    Field field;
    field.modulus = modulus;
    const auto bits = static_cast<int>(std::bit_width(modulus - 1));
    field.mask = (Key{1} << bits) - 1;
    field.shift = shift;
    shift += bits;
    for (const std::uint64_t weight : diagonal.weights(k))
      field.weights.push_back(weight % modulus);
    result.fields_.push_back(std::move(field));
  }
  if (product != order || shift > 64) return std::nullopt;
  // The arithmetic above is trusted for nothing: a key must not see the basis.
  for (const std::vector<std::int64_t>& vector : basis) {
    if (result.key(vector) != 0) return std::nullopt;
  }
  return result;
}

Residues::Key Residues::key(std::span<const std::int64_t> vector) const {
  Key result = 0;
  for (const Field& f : fields_) {
    Key sum = 0;
    for (std::size_t t = 0; t < vector.size(); ++t) {
      if (vector[t] == 0) continue;
      sum += times(f.weights[t], positive(vector[t], f.modulus), f.modulus);
      if (sum >= f.modulus) sum -= f.modulus;
    }
    result |= sum << f.shift;
  }
  return result;
}

} // namespace leafwright::cut
