#include "plan/cut/internal/closing.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <random>

using namespace leafwright::cut;

namespace {

using Vector = std::vector<std::int64_t>;

// By Cramer: the determinant with vector `at` of the basis replaced.
std::int64_t determinant(std::vector<Vector> basis, std::size_t at, const Vector& instead) {
  basis[at] = instead;
  const Vector& a = basis[0];
  const Vector& b = basis[1];
  const Vector& c = basis[2];
  return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) +
         a[2] * (b[0] * c[1] - b[1] * c[0]);
}

bool whole_combination(const std::vector<Vector>& basis, const Vector& vector) {
  const std::int64_t order = determinant(basis, 0, basis[0]);
  for (std::size_t k = 0; k < 3; ++k) {
    if (determinant(basis, k, vector) % order != 0) return false;
  }
  return true;
}

} // namespace

TEST_CASE("vectors share a key exactly when they differ by whole amounts of the basis") {
  int told_apart = 0;
  int alike = 0;
  for (std::uint64_t number = 1; number <= 40; ++number) {
    std::mt19937_64 random(number);
    std::vector<Vector> basis(3, Vector(3));
    for (Vector& vector : basis) {
      for (std::int64_t& entry : vector) entry = static_cast<std::int64_t>(random() % 7) - 1;
    }
    const std::optional<Residues> residues = Residues::of(basis);
    const std::int64_t order = std::abs(determinant(basis, 0, basis[0]));
    CAPTURE(number);
    REQUIRE(residues.has_value() == (order != 0));
    if (!residues) continue;
    CHECK(residues->order() == static_cast<double>(order));
    for (int k = 0; k < 200; ++k) {
      Vector a(3);
      Vector b(3);
      Vector between(3);
      for (std::size_t t = 0; t < 3; ++t) {
        a[t] = static_cast<std::int64_t>(random() % 30);
        b[t] = static_cast<std::int64_t>(random() % 30);
        between[t] = a[t] - b[t];
      }
      const bool same = whole_combination(basis, between);
      CHECK((residues->key(a) == residues->key(b)) == same);
      CHECK(residues->difference(residues->key(a), residues->key(b)) == residues->key(between));
      CHECK(residues->sum(residues->key(b), residues->key(between)) == residues->key(a));
      ++(same ? alike : told_apart);
    }
  }
  CHECK(told_apart > 1000);
  CHECK(alike > 100);
}

TEST_CASE("a group that no single number generates is told apart as well") {
  // Nine residues, of which none is of order nine.
  const std::optional<Residues> residues = Residues::of({{3, 0}, {0, 3}});
  REQUIRE(residues);
  std::vector<Residues::Key> keys;
  for (std::int64_t x = 0; x < 3; ++x) {
    for (std::int64_t y = 0; y < 3; ++y) keys.push_back(residues->key(Vector{x, y}));
  }
  for (std::size_t a = 0; a < keys.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) CHECK(keys[a] != keys[b]);
  }
}

TEST_CASE("a basis with more residues than a key holds is refused") {
  CHECK_FALSE(Residues::of({{std::int64_t{1} << 40, 0}, {0, std::int64_t{1} << 40}}));
}
