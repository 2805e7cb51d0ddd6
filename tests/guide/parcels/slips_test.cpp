#include "../orchard.h"

#include "guide/block.h"
#include "guide/parcels/parcel_documents.h"
#include "guide/prose.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

// What a slip tells the one who packs.

using namespace leafwright;
using namespace leafwright::guide;

using leafwright::test::orchard_gate;

namespace {

const PackingList& orchard_list() {
  static const PackingList list = packing_list(orchard_gate(), orders::parcels_of(orchard_gate()));
  return list;
}

} // namespace

TEST_CASE("the pieces of a slip stand card by card, each with its box") {
  const Document document = packing_slips(orchard_gate(), orchard_list());
  const auto* slips = std::get_if<Slips>(&document.sections.front().blocks.front().what);
  REQUIRE(slips != nullptr);
  std::vector<std::string> names;
  std::size_t pieces = 0;
  for (const Block& block : slips->slips.front().blocks)
    if (const auto* ticks = std::get_if<Ticks>(&block.what); ticks && !ticks->name.empty()) {
      names.push_back(ticks->name);
      pieces += ticks->items.size();
    }
  CHECK(names == std::vector<std::string>{"Card\u00A01", "Card\u00A02", "Card\u00A03", "Shares"});
  const std::size_t kind = 0;
  CHECK(pieces == orchard_list().contents.at(kind).parts.size());
}
