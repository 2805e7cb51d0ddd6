#pragma once

#include "plan/cut/internal/enumerate.h"
#include "plan/cut/internal/relax.h"

#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::cut {

// How much an exact attempt may cost.
struct ProofEffort {
  std::int64_t entries = 20'000; // of the list of partial patterns
  std::size_t columns = 8'000;   // of patterns, for the programmes
  int nodes = 2000;
  std::int64_t steps = 300'000'000; // of the solver, in the budget's unit
};

enum class Answer { Yes, No, Unknown };

// One question: can `demand` be met at `cost` or less?
struct Question {
  std::span<const std::int64_t> demand;
  std::int64_t cost = 0;
  bool whole = false; // the demand is the job's: what is shown raises the bound
};

// Whole values of the types, and the scale in which one unit of price is worth
// unit_value / unit_price.
struct Scale {
  std::vector<Value> values;
  std::vector<std::int64_t> most; // per stock, over all patterns considered
  std::int64_t unit_value = 0;
  std::int64_t unit_price = 1;
};

// What becomes of types that the prices value at nothing.
enum class Worthless { Listed, LeftOut };

// Values from prices; those listed get one of at least 1.
Scale scale_of(const Search& search, std::span<const double> prices,
               Worthless worthless = Worthless::Listed);
// Chooses the unit at which the bound is best: one stock just pays for its best pattern.
bool choose_unit(const Search& search, Scale& scale);
// Least cost that the values show for the question's demand.
std::int64_t shown_bound(const Search& search, const Question& question, const Scale& scale);
std::int64_t value_of(const Column& column, const Scale& scale);
// How much value (times unit_price) plans of cost `cost` can give away in all.
Wide slack(std::span<const std::int64_t> demand, const Scale& scale, std::int64_t cost);
// What one pattern of the stock gives away (times unit_price).
Wide given_away(const Search& search, const Scale& scale, int stock, std::int64_t value);

// The tables of one question; lists of patterns are drawn from them.
class Lister {
 public:
  Lister(Search& search, const Question& question, std::span<const double> prices,
         Worthless worthless = Worthless::Listed)
      : search_(search), question_(question), scale_(scale_of(search, prices, worthless)),
        all_types_(worthless == Worthless::Listed) {}

  // No: the values alone show that nothing costs so little. Yes: lists can be drawn.
  Answer prepare();
  // All patterns that give away at most `share` of the gap, but those inside another. False: too
  // many.
  bool list(double share, const ProofEffort& effort, std::vector<Column>& columns);
  // Whether the last list lacks nothing: with very many copies of a type in one pattern it may.
  bool exhaustive() const { return exhaustive_; }
  const Scale& scale() const { return scale_; }

 private:
  Search& search_;
  Question question_;
  Scale scale_;
  bool all_types_;
  bool exhaustive_ = false;
  std::vector<Inside> insides_;
  std::vector<Outside> outsides_;
};

// Settles whether any plan is cheaper than the best: every pattern such a plan could use is listed
// (its reduced cost is at most the gap), then the programme over these patterns is solved. Either
// the best plan improves, or the bound rises to it, or (too much work) nothing happens: false.
// `relaxation` must have been solved for the whole demand.
bool prove(Search& search, Relaxation& relaxation, const ProofEffort& effort);

// Whether the lists apply at all: the argument by reduced costs is made for unlimited stocks, the
// list for patterns that may be pushed together.
bool out_of_scope(const Search& search);

// The whole parts of the relaxation's amounts, less some, drawn by `number` when not 0.
Sheets floors_of(const Relaxation& relaxation, std::uint64_t number);

// The same for what whole sheets of the relaxation leave: takes the whole parts of its amounts
// (less some, drawn by `number` when not 0) and completes them below the best cost. True:
// improved.
bool complete_floors(Search& search, Relaxation& relaxation, std::uint64_t number,
                     const ProofEffort& effort);

// Whether the rest after `taken` can be completed below the best cost; Yes: it was, and is
// offered. `relaxation` must have been solved for the rest.
Answer complete_rest(Search& search, const Relaxation& relaxation, const Sheets& taken,
                     const ProofEffort& effort);

} // namespace leafwright::cut
