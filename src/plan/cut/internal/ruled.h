#pragma once

#include "plan/cut/internal/inside.h"
#include "plan/cut/internal/search.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace leafwright::cut {

// The guillotine knapsack with a smallest strip or a limit on stages. Every part has its exact
// size here, waste included, because waste too narrow to cut off makes a pattern impossible; so
// the patterns are rigid: waste is a leaf of type -1, and the tree fills the sheet.
class Ruled {
 public:
  // `strip_*`: least size (blade included) on either side of a cut; `stages` 0: free.
  Ruled(int width, int height, std::span<const OrientedType> shapes, std::span<const Value> value,
        int strip_x, int strip_y, int stages);

  Value best() const;
  bool exact() const { return exact_; }
  std::int64_t work() const { return work_; }
  Slice pattern() const;

 private:
  struct State {
    int level, direction, i, j;
  };
  Value& at(int level, int direction, int i, int j);
  Value at(int level, int direction, int i, int j) const;
  Value piece(int i, int j) const;
  void fill_free();
  void fill_staged();
  int trace(State state, Slice& slice) const;
  int leaf(int i, int j, Slice& slice) const;
  bool trace_along(State state, int direction, int first_level, int first_direction, Slice& slice,
                   int& node) const;

  int strip_x_, strip_y_, stages_;
  std::vector<int> x_, y_;             // sizes a part may have, ascending, first 0
  std::vector<int> x_index_, y_index_; // by size, -1: not among them
  std::vector<OrientedType> shapes_;
  std::vector<int> shape_at_; // per (i, j): the most valuable shape of exactly that size, or -1
  std::vector<Value> worth_;
  std::vector<std::vector<Value>> tables_;
  bool exact_ = true;
  std::int64_t work_ = 0;
};

// The slice laid out on its stock with every piece of waste told, so that the smallest strip and
// the stages of `normal` are kept; nothing when no arrangement of its waste does that.
std::optional<Slice> made_rigid(const Normal& normal, int stock, const Slice& slice);

// For few pieces under rules: packs them without the rules, keeps the sheets that obey them as new
// patterns, and offers a plan when all do. Some walks of the local search, beginning with
// `number`.
void propose_rigid(Search& search, std::uint64_t number);

} // namespace leafwright::cut
