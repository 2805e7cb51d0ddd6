#pragma once

#include "model/project.h"
#include "plan/supply/buying.h"
#include "plan/supply/kits.h"
#include "plan/tier/value.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

// The money of a run, in whole minor units: every total is the sum of the lines above it.

namespace leafwright::tiers {

// Orders that are alike to the till.
struct Sale {
  int tier = -1;
  int kits = 1; // in one order
  Money top_up; // of one order, all its kits: what its swaps cost beyond the credit
  std::int64_t orders = 0;
  std::optional<Mass> kit_mass =
      std::nullopt;     // of one kit that its buyers changed; else as the tier says
  std::int64_t off = 0; // minor units off the price of one order, for things that its buyer owns
  bool open = false;    // not paid yet
  // How it comes: in the parcel of another order, which pays for both; alone or with what others
  // weigh; or not at all, since she comes for it.
  bool in_another = false, picked_up = false;
  Mass along{};
};
// Those of the run, tier after tier; before there is an order that counts, the kits it expects, one
// to an order.
std::vector<Sale> sales_of(const Project& project);
// The same, order by order. A parcel of several is paid for by the one whose shipping is dearest.
std::vector<Sale> sales_by_order(const Project& project);

// What one order brings, and what it costs beside the goods.
struct OrderTerms {
  Money price;   // of the kits, with the top-up and less what comes off
  Money charged; // for postage, once an order; "at cost" is what the postage costs
  Money fees;    // on both, the share to the nearest minor unit, halves up
  Money postage; // by the mass of the parcel
  Money packing;
  Mass mass;                        // of the parcel
  std::vector<ItemRef> unweighed;   // whose mass is not known
  bool envelopes_unweighed = false; // nor that of lettered envelopes
  bool postage_known = true;        // a step of postage serves this mass
  Money brought() const { return price + charged - fees - postage - packing; }
};
OrderTerms terms_of(const Project& project, const Sale& sale);
// What is kept back of one payment.
Money fees_on(const Project& project, const Money& paid);
OrderTerms terms_of(const Project& project, int tier, int kits = 1);

struct TierAccount {
  int tier = -1; // -1: all tiers
  std::int64_t orders = 0, kits = 0;
  Money price, charged; // brought in
  Money goods, fees, postage, packing;
  Money margin; // brought in less the four
};
struct Account {
  std::vector<TierAccount> tiers; // those that sold something
  TierAccount all;
  Money outlays; // paid once
  Money result;  // all.margin - outlays
  std::int64_t orders_open = 0;
  Money open; // of what is brought in, what those orders have not paid yet
  // Of `all.goods`, what lies unused at the end: whole sheets, unopened spools, loose pieces, rests
  // of ribbon and tape that are told in the buying list; offcuts are not valued.
  Money stranded;
  std::vector<ItemRef> unpriced;   // bought, but without a price
  std::vector<int> tiers_unpriced; // sold, but without a price
  bool postage_known = true;
};
// What each purchase cost falls on the tiers in proportion to how much of it their kits take; the
// largest remainders get the spare minor units.
Account account_of(const Project& project, std::span<const Sale> sales,
                   std::span<const supply::KitKind> kinds, const supply::Buying& buying);

// What one tier adds over another.

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
// Points into the values' project.
TierDifference difference_of(TierValues& values, int from, int to);

// Each tier beside the next dearer one that anyone may take, cheapest first.
std::vector<TierDifference> ladder_of(TierValues& values);

} // namespace leafwright::tiers
