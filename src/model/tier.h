#pragma once

#include "measure/amounts/amounts.h"
#include "model/finding.h"
#include "model/supply.h"

#include <cstdint>
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
  friend bool operator==(const Amount&, const Amount&) = default;
};

struct Inclusion {
  ItemRef item;
  Amount amount;
  bool gift = false;      // value shown, price nil
  std::vector<int> cards; // Parts: of these cards only; empty = all
  std::optional<Money>
      value; // as the maker values it; else worked out from what it costs in a shop
  Place place;
};

// What a buyer must own: each group is satisfied by any one of its items; all groups must be.
struct Requirement {
  std::vector<ItemRef> any_of;
  Place place;
};

// Something the maker offers in place of what a buyer owns.
struct SwapChoice {
  ItemRef item;
  Amount amount;
  std::optional<Money> value; // else what the amount costs in a shop
  int most = 1;               // so often for one buyer
  Place place;
};

struct SubstitutionRule {
  bool allowed = false;
  bool top_up = false;             // the buyer may pay a difference
  std::optional<Money> items_over; // only items dearer than this give credit
  int most_swaps = 0;              // 0 = any number
  Money round_down_to{};           // credit is rounded down to a multiple; 0 = not rounded
  std::vector<SwapChoice> choices; // the maker's own list
};

struct Tier {
  // Defined in special_members.cpp.
  Tier();
  Tier(const Tier&);
  Tier(Tier&&) noexcept;
  Tier& operator=(const Tier&);
  Tier& operator=(Tier&&) noexcept;
  ~Tier();

  enum class Audience { Anyone, Team };
  enum class Open { UntilReplyBy, Anytime };
  enum class Shipping { Charged, Included, None }; // None: nothing is posted
  // What becomes of a thing of the kit that its buyer owns and takes nothing for.
  enum class IfOwned {
    Unsaid,         // she gets it all the same, and the maker is asked
    AsItIs,         // she gets it all the same
    NothingInstead, // it is left out, the price stays
    Credit,         // it is left out, and its worth by the rule for swaps comes off the price
  };
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
  bool die_cut = false;   // ... and what is die-cut comes ready
  bool stamped = false;   // ... and what is stamped
  SubstitutionRule substitution;
  IfOwned if_owned = IfOwned::Unsaid;
};

// What selling itself costs, beside the things that are sold.
struct Selling {
  // What is kept back from each payment: a share of it, and a fixed amount.
  std::int64_t fee_ppm = 0; // parts in a million: 29 000 is 2.9 %
  Money fee_fixed;
  // Postage of one parcel by its mass, lightest first; without `up_to` for any mass.
  struct Postage {
    std::optional<Mass> up_to;
    Money cost;
    Place place;
  };
  std::vector<Postage> postage;
  std::optional<Money> packing; // box, tissue and label of one parcel
  // Paid once, however many sign up: papers for the samples, a room.
  struct Outlay {
    std::string words;
    Money cost;
    Place place;
  };
  std::vector<Outlay> outlays;
  Place place;
};

} // namespace leafwright
