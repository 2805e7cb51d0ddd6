#pragma once

#include "model/project.h"

#include <optional>
#include <vector>

// What one tier adds over another.

namespace leafwright::tiers {

struct Difference {
  enum class Kind {
    Added,     // only the dearer holds it
    More,      // both hold it, the dearer more
    Otherwise, // both hold it in other ways that cannot be compared: parts cut or uncut
    Less,
    Missing, // only the cheaper holds it
  };
  Kind kind = Kind::Added;
  ItemRef item;
  const Inclusion* from = nullptr; // in the cheaper tier; nullptr when it holds none
  const Inclusion* to = nullptr;   // in the dearer
  std::optional<Money> value;      // of what is added, negative for less; nothing without a price
};

struct TierDifference {
  int from = -1, to = -1;                // into Project::tiers
  std::vector<Difference> lines;         // added first, in the order of the dearer tier's list
  std::vector<const Requirement*> freed; // the cheaper asks for it, the dearer does not
  std::vector<const Requirement*> asked; // the other way about
  std::optional<Money> price;            // how much dearer
  Money value;                           // of all lines that have one
};
// Points into `project`.
TierDifference difference_of(const Project& project, int from, int to);

// Each tier beside the next dearer one that anyone may take, cheapest first.
std::vector<TierDifference> ladder_of(const Project& project);

} // namespace leafwright::tiers
