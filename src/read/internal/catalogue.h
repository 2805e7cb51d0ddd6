#pragma once

#include "model/supply.h"
#include "read/document.h"
#include "read/read.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::reading {

// A supply or a stamp image by its id.
struct Supply {
  enum class Kind { Item, Image };
  Kind kind = Kind::Item;
  ItemRef item; // of an image: its stamp set
  int set = -1, image = -1;
  Place place;
};

// Every id of <supplies>. Ids of supplies and images are unique together.
class Catalogue {
 public:
  // Notes an id that is already taken and one that no XML editor would take as an id.
  void add(Context& context, const Element& element, Supply supply);
  const Supply* find(std::string_view id) const;
  std::vector<std::string_view> ids() const;                 // in order of id
  std::vector<std::string_view> ids_of(ItemKind kind) const; // of that kind only
  std::vector<std::string_view> image_ids() const;

  // The index of the thing of `kind` that an attribute names; -1 and a finding when there is none,
  // -1 alone when the attribute is missing.
  int index_of(Context& context, const Element& element, std::string_view attribute,
               ItemKind kind) const;
  int index_of(Context& context, const Value& value, std::string_view id, std::size_t at,
               ItemKind kind) const;
  // Any supply, or "tutorial" or "parts" where those are meant too.
  std::optional<ItemRef> item_of(Context& context, const Value& value, std::string_view id,
                                 std::size_t at, bool tier_words) const;
  // The things of `uses`: what is at hand without being counted piece by piece. Papers and ribbon
  // have elements of their own and are a finding.
  std::vector<ItemRef> used_in(Context& context, const Element& element) const;

 private:
  std::map<std::string, Supply, std::less<>> supplies_;
};

// Fills the project's lists from <supplies>.
Catalogue read_supplies(Context& context, const Element& supplies);
// An id as written; a finding when it is empty or not a name.
std::string id_of(Context& context, const Element& element, std::string_view fallback = {});
// A name in a sentence made of an id: "left-leaf" reads "left leaf".
std::string name_from_id(std::string_view id);

} // namespace leafwright::reading
