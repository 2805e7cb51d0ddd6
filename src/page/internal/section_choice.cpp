#include "measure/index.h"
#include "page/internal/section_pages.h"

#include <algorithm>
#include <variant>

// Which sections a template takes, and how each is set.

namespace leafwright::page {

namespace {

bool takes(const SectionRule& rule, const guide::Section& section) {
  if (rule.name == "cards") return section.name.starts_with("card-");
  return rule.name == section.name;
}

} // namespace

std::vector<Chosen> chosen_sections(const guide::Document& document, const Template& look) {
  std::vector<Chosen> chosen;
  for (const SectionRule& rule : look.sections)
    for (const guide::Section& section : document.sections)
      if (takes(rule, section)) chosen.push_back({&section, &rule});
  return chosen;
}

int columns_of(const SectionRule& rule, const Template& look) {
  return std::max(rule.columns > 0 ? rule.columns : look.columns, 1);
}

std::span<const Chosen> followers(std::span<const Chosen> all, const Template& look) {
  if (all.empty() || columns_of(*all.front().rule, look) != 1) return {};
  const std::span<const Chosen> rest = all.subspan(1);
  const auto end = std::ranges::find_if_not(rest, [&](const Chosen& next) {
    return next.rule->start == SectionRule::Start::Follow &&
           next.rule->foot == all.front().rule->foot && columns_of(*next.rule, look) == 1;
  });
  return rest.first(as_index(end - rest.begin()));
}

Length column_width(Length width, int columns, const Template& look) {
  return (width - look.gutter * (columns - 1)) / columns;
}

std::size_t opening_of(const guide::Section& section, int columns) {
  if (columns < 2) return 0;
  const auto first = std::ranges::find_if(section.blocks, [](const guide::Block& block) {
    const auto* heading = std::get_if<guide::Heading>(&block.what);
    if (heading != nullptr) return heading->level > 1;
    return !std::holds_alternative<guide::Paragraph>(block.what) &&
           !std::holds_alternative<guide::FigureRow>(block.what) &&
           !std::holds_alternative<guide::Notice>(block.what);
  });
  return first == section.blocks.end() ? 0 : as_index(first - section.blocks.begin());
}

bool holds_full_size(const guide::Section& section) {
  return std::ranges::any_of(section.blocks, [](const guide::Block& block) {
    return std::holds_alternative<guide::FullSize>(block.what);
  });
}

bool shows_swatches(const guide::Block& block) {
  const auto* row = std::get_if<guide::FigureRow>(&block.what);
  return row != nullptr && row->swatches;
}

const guide::Slips* slips_of(const guide::Section& section) {
  return section.blocks.size() == 1 ? std::get_if<guide::Slips>(&section.blocks.front().what)
                                    : nullptr;
}

} // namespace leafwright::page
