#pragma once

#include "output/internal/pdf/haru.h"
#include "output/internal/pdf/tags.h"
#include "page/laid.h"

#include <span>
#include <string>
#include <vector>

// What a reader fills in (ISO 32000-1, 12.7): a field and its widget in one object.

namespace leafwright::pdf {

struct AddedFields {
  std::vector<LinkObject> widgets; // beside the links: `before` of them come first
  std::string catalogue;           // entries for the catalogue; nothing where there are no fields
};
AddedFields add_fields(Haru& haru, const page::Laid& laid, std::span<const Ref> pages,
                       std::size_t before);

} // namespace leafwright::pdf
