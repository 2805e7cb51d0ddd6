#pragma once

#include "output/internal/pdf/content.h"
#include "output/internal/pdf/haru.h"
#include "page/laid.h"

#include <span>
#include <string>
#include <vector>

namespace leafwright::pdf {

// The annotation object of a link or of a field, and the page it stands on.
struct LinkObject {
  Ref annotation;
  int page = 0;
  int node = -1;
  int marked_before = 0;
};

struct TagInput {
  std::span<const page::Node> nodes;
  std::span<const page::LaidPage> laid_pages;
  std::span<const Ref> pages;
  std::span<const PageContent> contents;
  std::span<const LinkObject> links; // in order; link i has the key pages.size() + i
};

// Adds the structure tree (ISO 32000-1, 14.7) and gives the catalogue's entries for it; nothing
// when there are no nodes. Page i's StructParents is i.
std::string add_structure(Haru& haru, const TagInput& input);

} // namespace leafwright::pdf
