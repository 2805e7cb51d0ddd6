#include "plan/cut/internal/closing.h"

#include <algorithm>
#include <cmath>
#include <coin/ClpSimplex.hpp>
#include <numeric>
#include <utility>

namespace leafwright::cut {

namespace {

using Vector = std::vector<std::int64_t>;
using Real = std::vector<double>;

// An amount from which steps of a few sheets either way are likely to stay positive.
constexpr double ample = 6;

// Amounts of the activities that meet the demand, as many of them ample as can be.
Real inner_point(const std::vector<Vector>& vectors, std::span<const std::int64_t> demand) {
  ClpSimplex clp;
  clp.setLogLevel(0);
  for (const std::int64_t d : demand) {
    clp.addRow(0, nullptr, nullptr, static_cast<double>(d), static_cast<double>(d));
  }
  for (const bool first : {true, false}) {
    for (const Vector& vector : vectors) {
      std::vector<int> rows;
      Real elements;
      for (std::size_t t = 0; t < vector.size(); ++t) {
        if (vector[t] == 0) continue;
        rows.push_back(static_cast<int>(t));
        elements.push_back(static_cast<double>(vector[t]));
      }
      clp.addColumn(static_cast<int>(rows.size()), rows.data(), elements.data(), 0,
                    first ? ample : COIN_DBL_MAX, first ? -1 : 0);
    }
  }
  clp.primal();
  Real amounts(vectors.size(), 0);
  if (!clp.isProvenOptimal()) return {};
  const double* x = clp.primalColumnSolution();
  for (std::size_t k = 0; k < vectors.size(); ++k) amounts[k] = x[k] + x[vectors.size() + k];
  return amounts;
}

struct Inverse {
  Real rows;        // row k times a vector of types: the amount of the k-th basis vector in it
  double order = 1; // size of the determinant
};

// By Gauss and Jordan; no rows: singular.
Inverse inverse_of(const std::vector<Vector>& basis) {
  const std::size_t n = basis.size();
  std::vector<Real> rows(n, Real(2 * n, 0.0));
  for (std::size_t t = 0; t < n; ++t) {
    for (std::size_t k = 0; k < n; ++k) rows[t][k] = static_cast<double>(basis[k][t]);
    rows[t][n + t] = 1;
  }
  Inverse inverse;
  for (std::size_t c = 0; c < n; ++c) {
    std::size_t p = c;
    for (std::size_t i = c; i < n; ++i) {
      if (std::fabs(rows[i][c]) > std::fabs(rows[p][c])) p = i;
    }
    if (std::fabs(rows[p][c]) < 1e-9) return {};
    std::swap(rows[p], rows[c]);
    inverse.order *= std::fabs(rows[c][c]);
    const double over = 1 / rows[c][c];
    for (double& value : rows[c]) value *= over;
    for (std::size_t i = 0; i < n; ++i) {
      const double share = rows[i][c];
      if (i == c || share == 0) continue;
      for (std::size_t k = c; k < 2 * n; ++k) rows[i][k] -= share * rows[c][k];
    }
  }
  inverse.rows.resize(n * n);
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t t = 0; t < n; ++t) inverse.rows[k * n + t] = rows[k][n + t];
  }
  return inverse;
}

Real amounts_in(const Real& inverse, std::span<const std::int64_t> vector) {
  const std::size_t n = vector.size();
  Real amounts(n, 0);
  for (std::size_t t = 0; t < n; ++t) {
    if (vector[t] == 0) continue;
    for (std::size_t k = 0; k < n; ++k) {
      amounts[k] += inverse[k * n + t] * static_cast<double>(vector[t]);
    }
  }
  return amounts;
}

// The first independent ones in the given order.
std::vector<std::size_t> independent(const std::vector<Vector>& vectors,
                                     const std::vector<std::size_t>& order, std::size_t n) {
  std::vector<Real> rows; // each with its pivot, in the order of pivots
  std::vector<std::size_t> pivots;
  std::vector<std::size_t> found;
  for (const std::size_t at : order) {
    Real vector(vectors[at].begin(), vectors[at].end());
    for (std::size_t r = 0; r < rows.size(); ++r) {
      const double share = vector[pivots[r]] / rows[r][pivots[r]];
      if (share == 0) continue;
      for (std::size_t t = 0; t < n; ++t) vector[t] -= share * rows[r][t];
      vector[pivots[r]] = 0;
    }
    std::size_t pivot = 0;
    for (std::size_t t = 1; t < n; ++t) {
      if (std::fabs(vector[t]) > std::fabs(vector[pivot])) pivot = t;
    }
    if (std::fabs(vector[pivot]) < 1e-6) continue;
    rows.push_back(std::move(vector));
    pivots.push_back(pivot);
    found.push_back(at);
    if (found.size() == n) break;
  }
  return found;
}

// Exchanges basis vectors for others until the determinant is small enough: each exchange
// multiplies it by the amount of the leaving vector in the entering one. `place` has the basis
// first.
void shrink_order(const std::vector<Vector>& vectors, const Inverse& inverse, const Real& amounts,
                  double most_order, std::vector<std::size_t>& place, std::size_t n) {
  std::vector<Real> parts;
  for (std::size_t j = n; j < place.size(); ++j) {
    parts.push_back(amounts_in(inverse.rows, vectors[place[j]]));
  }
  constexpr int most_exchanges = 200;
  constexpr double nought = 1e-6;
  double order = inverse.order;
  for (int exchange = 0; exchange < most_exchanges && order > most_order; ++exchange) {
    double least = 1 - nought;
    std::size_t row = n;
    std::size_t enters = 0;
    for (std::size_t j = 0; j < parts.size(); ++j) {
      if (amounts[place[n + j]] < ample / 6) continue; // would soon be negative
      for (std::size_t k = 0; k < n; ++k) {
        const double part = std::fabs(parts[j][k]);
        if (part > nought && part < least) {
          least = part;
          row = k;
          enters = j;
        }
      }
    }
    if (row == n) break;
    order *= least;
    const Real pivot = parts[enters];
    for (std::size_t j = 0; j < parts.size(); ++j) {
      const double share = j == enters ? 1 / pivot[row] : parts[j][row] / pivot[row];
      if (j == enters) std::fill(parts[j].begin(), parts[j].end(), 0.0);
      for (std::size_t k = 0; k < n; ++k) parts[j][k] -= share * pivot[k];
      parts[j][row] = share;
    }
    std::swap(place[row], place[n + enters]);
  }
}

// Those with the largest amounts, as far as they are independent; then all others. Empty: the
// vectors do not span everything.
std::vector<std::size_t> first_basis(const std::vector<Vector>& vectors, const Real& amounts,
                                     std::size_t n) {
  std::vector<std::size_t> order(vectors.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return amounts[a] > amounts[b]; });
  std::vector<std::size_t> place = independent(vectors, order, n);
  if (place.size() != n) return {};
  std::vector<char> taken(vectors.size(), 0);
  for (const std::size_t at : place) taken[at] = 1;
  for (std::size_t k = 0; k < vectors.size(); ++k) {
    if (taken[k] == 0) place.push_back(k);
  }
  return place;
}

} // namespace

std::vector<std::int64_t> vector_of(const Search& search, Activity activity) {
  Vector vector(search.demand.size(), 0);
  if (activity < 0) {
    vector[static_cast<std::size_t>(-1 - activity)] = -1;
    return vector;
  }
  for (const auto& [type, copies] : search.pool[activity].counts) {
    vector[static_cast<std::size_t>(type)] = copies;
  }
  return vector;
}

std::optional<OptimalFace> OptimalFace::of(const Search& search,
                                           const std::vector<Activity>& vertex,
                                           const std::vector<Activity>& others, double most_order) {
  const std::size_t n = search.demand.size();
  if (vertex.size() != n) return std::nullopt;
  std::vector<Activity> activities = vertex;
  for (const Activity other : others) {
    if (std::find(vertex.begin(), vertex.end(), other) == vertex.end()) activities.push_back(other);
  }
  std::vector<Vector> vectors;
  vectors.reserve(activities.size());
  for (const Activity activity : activities) vectors.push_back(vector_of(search, activity));
  const Real amounts = inner_point(vectors, search.demand);
  if (amounts.empty()) return std::nullopt;
  const auto basis_of = [&](const std::vector<std::size_t>& place) {
    std::vector<Vector> basis;
    for (std::size_t k = 0; k < n; ++k) basis.push_back(vectors[place[k]]);
    return basis;
  };
  std::vector<std::size_t> place = first_basis(vectors, amounts, n);
  if (place.empty()) return std::nullopt;
  const Inverse first = inverse_of(basis_of(place));
  if (first.rows.empty()) return std::nullopt;
  shrink_order(vectors, first, amounts, most_order, place, n);
  const std::vector<Vector> basis = basis_of(place);
  std::optional<Residues> residues = Residues::of(basis);
  if (!residues) return std::nullopt;
  OptimalFace face(std::move(*residues));
  face.inverse_ = inverse_of(basis).rows;
  if (face.inverse_.empty()) return std::nullopt;
  face.rest_ = search.demand;
  for (std::size_t k = 0; k < place.size(); ++k) {
    const Activity activity = activities[place[k]];
    if (k < n) {
      face.basis_.push_back(activity);
      continue;
    }
    const std::int64_t amount = std::max<std::int64_t>(0, std::llround(amounts[place[k]]));
    face.loose_.push_back(activity);
    face.amounts_.push_back(amount);
    for (std::size_t t = 0; t < n; ++t) face.rest_[t] -= amount * vectors[place[k]][t];
  }
  return face;
}

std::optional<Sheets> OptimalFace::sheets_for(std::span<const std::int64_t> rest) const {
  const Real amounts = amounts_in(inverse_, rest);
  Sheets sheets;
  for (std::size_t k = 0; k < basis_.size(); ++k) {
    const std::int64_t count = std::llround(amounts[k]);
    if (count < 0) return std::nullopt;
    if (count > 0 && basis_[k] >= 0) sheets.emplace_back(basis_[k], count);
  }
  return sheets;
}

} // namespace leafwright::cut
