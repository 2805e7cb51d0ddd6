#pragma once

#include "measure/money.h"
#include "model/project.h"

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

// A project taken apart into facts: everything the model says, each under the name of the thing it
// is about. Two projects are the same when their facts are; what differs between two editions is
// what differs between their facts. Places in the file are no facts.

namespace leafwright::change {

// What is compared but not printed: an outline, the bytes of a picture.
struct Drawn {
  std::string exact;
  friend bool operator==(const Drawn&, const Drawn&) = default;
};
using Worth = std::variant<std::string, std::int64_t, Length, Size, Point, Money, Drawn>;

struct Fact {
  std::string name; // "size", "place", "stamp 1 inks", "price"
  Worth worth;
  friend bool operator==(const Fact&, const Fact&) = default;
};

// In the order in which a report tells them.
enum class Kind { Project, Card, Piece, Ribbon, Embellishment, Step, Supply, Tier, Run };

struct Thing {
  Kind kind = Kind::Project;
  std::string key;  // "trees/mat", "stock kraft", "tier full": the same in every edition
  std::string name; // "dotted mat", "Kraft"
  int card = -1;    // of things of a card
  int piece = -1;   // index among its pieces; a base or panel
  Place place;
  std::vector<Fact> facts; // no name twice

  const Worth* find(std::string_view fact) const;
};

// Cards in order, each followed by what it holds in the order of the file; then supplies, tiers and
// the run.
std::vector<Thing> facts_of(const Project& project);

} // namespace leafwright::change
