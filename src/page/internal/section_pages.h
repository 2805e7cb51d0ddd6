#pragma once

#include "guide/block.h"
#include "page/context.h"
#include "page/laid.h"

#include <cstddef>
#include <span>
#include <vector>

// The pages of a document's sections, one after the other, as the template has them.

namespace leafwright::page {

// The sections that the template takes, in its order.
struct Chosen {
  const guide::Section* section;
  const SectionRule* rule;
};
std::vector<Chosen> chosen_sections(const guide::Document& document, const Template& look);

int columns_of(const SectionRule& rule, const Template& look);
// The sections right after the first of these that stand below it wherever that is.
std::span<const Chosen> followers(std::span<const Chosen> all, const Template& look);
Length column_width(Length width, int columns, const Template& look);
// In a section of several columns, how many blocks stand above them: its title and the words below
// it.
std::size_t opening_of(const guide::Section& section, int columns);

// One pass over the document with the page numbers known so far.
Laid laid_sections(const guide::Document& document, Context& context, std::size_t pages_before);

bool holds_full_size(const guide::Section& section);
bool shows_swatches(const guide::Block& block);
// Of a section that holds nothing else.
const guide::Slips* slips_of(const guide::Section& section);

} // namespace leafwright::page
