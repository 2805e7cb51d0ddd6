#pragma once

#include "guide/parcels/parcel_documents.h"

#include <string>
#include <vector>

// What each buyer is told when her order has come in.

namespace leafwright::guide {

struct Confirmation {
  std::vector<int> orders; // of one row of the roster, into Run::orders
  std::string name, mail;  // as she wrote them; the address may be none
  std::string subject, text;
  std::vector<int> tutorials; // tiers whose edition goes with it: those of hers that hold one, once
                              // nothing is owed
};

// One for each purchase: what she ordered, swapped and owes, and when it comes.
std::vector<Confirmation> confirmations(const Project& project, const PackingList& list);

} // namespace leafwright::guide
