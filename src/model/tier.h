#pragma once

#include "measure/date.h"
#include "model/supply.h"

#include <optional>
#include <string>
#include <vector>

namespace leafwright {

struct Amount {
  enum class Kind {
    AsNeeded, // what one kit takes, computed
    Whole,    // `count` whole packs, spools or things
    Share,    // `numerator/denominator` of a pack
    Length,   // ribbon by `length`
    Count,    // `count` single pieces
    Sheets,   // `count` pieces of `piece` size cut from the sheets
  };
  Kind kind = Kind::AsNeeded;
  int count = 1;
  int numerator = 1, denominator = 1;
  Length length{};
  Size piece{};
};

struct Inclusion {
  ItemRef item;
  Amount amount;
  bool gift = false; // value shown, price nil
  std::vector<int> cards; // Parts: of these cards only; empty = all
  Place place;
};

// What a buyer must own: each group is satisfied by any one of its items; all groups must be.
struct Requirement {
  std::vector<ItemRef> any_of;
  Place place;
};

struct SubstitutionRule {
  bool allowed = false;
  bool top_up = false;        // the buyer may pay a difference
  std::optional<Money> items_over; // only items dearer than this give credit
  int most_swaps = 0;         // 0 = any number
  Money round_down_to{};      // credit is rounded down to a multiple; 0 = not rounded
};

struct Tier {
  enum class Audience { Anyone, Team };
  enum class Open { UntilReplyBy, Always };
  enum class Shipping { Charged, Included, None }; // None: nothing is posted
  std::string id, name, blurb;
  Place place;
  std::optional<Money> price;
  std::vector<Inclusion> includes;
  std::vector<Requirement> requires_owned;
  Audience audience = Audience::Anyone;
  Open open = Open::UntilReplyBy;
  Shipping shipping = Shipping::Charged;
  std::optional<Money> shipping_charge;
  bool parts_cut = false; // its parts come cut, in lettered envelopes
  SubstitutionRule substitution;
};

struct StockInHand {
  ItemRef item;
  int count = 0;     // sheets, pieces, spools
  Size offcut{};     // a piece of a sheet, or 0 for whole
  Length length{};   // of ribbon
  Place place;
};

struct TierCount {
  int tier = -1;
  int kits = 0;
  Place place;
};

struct Run {
  int of_each = 2; // cards of each design in one kit
  // Pieces cut beyond what is promised, against miscuts: so many of a hundred, rounded up, and so
  // many more of each piece.
  int spare_percent = 0, spare_pieces = 0;
  std::optional<StatedDate> reply_by, ship_by;
  Place reply_by_place, ship_by_place;
  std::vector<TierCount> planned; // kits expected in each tier, before orders are in
  std::vector<StockInHand> in_hand;
  std::string roster; // CSV beside the project; empty = none
  Place place;
};

} // namespace leafwright
