#pragma once

#include "output/internal/pdf/content.h"
#include "output/internal/pdf/haru.h"
#include "output/internal/pdf/tags.h"
#include "page/laid.h"

#include <span>
#include <string>
#include <vector>

// Ways through a document: outline, page labels, links (ISO 32000-1, 12.3, 12.4.2 and 12.5.6.5).

namespace leafwright::pdf {

// Adds the outline and gives the catalogue's entries for it; nothing when there is none.
std::string add_outline(Haru& haru, const page::Laid& laid, std::span<const Ref> pages);

// The catalogue's PageLabels for labels such as "", "iii", "12" and "A-3": runs that count on
// become one range. Nothing when the pages are labelled 1, 2, 3 as readers do by themselves.
std::string page_labels(std::span<const page::LaidPage> pages);

// Adds every link as an annotation; one whose target no anchor has is left out.
std::vector<LinkObject> add_links(Haru& haru, const page::Laid& laid, std::span<const Ref> pages,
                                  std::span<const PageContent> contents);

} // namespace leafwright::pdf
