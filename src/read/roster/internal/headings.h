#pragma once

#include "model/project.h"
#include "read/csv/csv.h"

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

// What the columns of a table mean: by what the maker says, else by everyday words.

namespace leafwright::detail {

struct FieldWords {
  OrderField field;
  std::array<std::string_view, 7> words; // the first is ours; empty ones end the list
  std::string_view joint;                // between the cells of several columns of it
};
std::span<const FieldWords> field_words();
std::string_view word_of(OrderField field);
std::string_view joint_of(OrderField field);

// What the maker keeps of an order beside what was ordered: read, and shown as it stands as well.
bool is_bookkeeping(OrderField field);

struct ColumnMeaning {
  OrderField field = OrderField::Kept;
  int tier = -1;                        // of a quantity
  const RosterColumn* mapped = nullptr; // nothing where its name says it
};
struct Headings {
  std::vector<std::optional<ColumnMeaning>> columns; // nothing: kept, and nobody said so
  Findings findings;                                 // with an error no row can be read
};
Headings headings_of(const csv::Table& table, const Project& project, std::int32_t file);

// `<column heading="Your kit" means="tier"/>`: for the maker to paste.
std::string mapping_text(std::string_view heading, OrderField field, int tier,
                         const Project& project);

} // namespace leafwright::detail
