#include "read/roster/internal/headings.h"

#include "language/agreement.h"
#include "language/lists.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "model/run.h"
#include "read/edit/elements.h"
#include "read/order_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

namespace leafwright::detail {

namespace {

constexpr std::size_t most_offered = 20; // columns whose mapping a finding offers

using enum OrderField;
constexpr std::array all_words = {
    FieldWords{
        Number, {number_columns[0], number_columns[1], number_columns[2], number_columns[3]}, " "},
    FieldWords{Name, {"name", "buyer", "ordered by", "customer", "full name", "your name"}, " "},
    FieldWords{Tier, {"tier", "kit", "option", "kit option", "your kit", "your option"}, "; "},
    FieldWords{
        Quantity, {"quantity", "qty", "kits", "how many", "number of kits", "how many kits"}, " "},
    FieldWords{
        Owned, {"owned", "owns", "i own", "owned items", "already owned", "what i own"}, "; "},
    FieldWords{Swaps, {"swaps", "swap", "instead", "swapped for", "swap for"}, "; "},
    FieldWords{Region, {"region", "shipping region", "country", "shipping"}, ", "},
    FieldWords{
        Note, {"note", "notes", "remark", "remarks", "comment", "comments", "message"}, "\n"},
    FieldWords{Day, {"date", "ordered", "order date", "timestamp", "ordered on", "submitted"}, " "},
    FieldWords{
        Address,
        {"address", "postal address", "post to", "send to", "mailing address", "shipping address"},
        "\n"},
    FieldWords{Status, {"status", "order status", "payment status"}, " "},
    FieldWords{Email, {"email", "e-mail", "email address", "e-mail address", "mail"}, ", "},
    FieldWords{Paid, {"paid", "amount paid", "paid amount"}, " "},
    FieldWords{PaidOn, {"paid on", "payment date", "date paid"}, " "},
    FieldWords{Refunded, {"refunded", "amount refunded", "refund"}, " "},
    FieldWords{Sent, {"sent", "tracking number", "shipped"}, " "},
    FieldWords{PickedUp, {"picked up", "pick up", "pickup"}, " "},
    FieldWords{Parcel, {"parcel", "parcel with", "send with"}, " "},
    FieldWords{Id, {"row id", "entry id", "response id", "submission id"}, " "},
};

bool stands_in(std::string_view text, std::string_view phrase) {
  const auto joins = [](char c) { return is_letter(c) || leafwright::is_digit(c); };
  for (std::size_t at = text.find(phrase); at != std::string_view::npos;
       at = text.find(phrase, at + 1)) {
    const std::size_t end = at + phrase.size();
    if ((at == 0 || !joins(text[at - 1])) && (end == text.size() || !joins(text[end]))) return true;
  }
  return false;
}

class HeadingReader {
 public:
  HeadingReader(const csv::Table& table, const Project& project, std::int32_t file)
      : table_(table), project_(project), file_(file) {
    for (const csv::Cell& cell : table.header.cells) names_.push_back(reading::folded(cell.text));
  }

  Headings read() {
    out_.columns.assign(names_.size(), std::nullopt);
    take_mapped();
    for (const FieldWords& one : all_words) take_named(one);
    if (!said(Name))
      for (auto& column : out_.columns)
        if (column && column->field == Number) column->field = Name;
    if (!said(Name) || (!said(Tier) && project_.tiers.size() != 1 && !any_of_tier()))
      tell_missing();
    else
      tell_unknown();
    return std::move(out_);
  }

 private:
  bool said(OrderField field) const {
    return std::ranges::any_of(out_.columns,
                               [&](const auto& one) { return one && one->field == field; });
  }
  bool any_of_tier() const {
    return std::ranges::any_of(out_.columns, [](const auto& one) { return one && one->tier >= 0; });
  }
  Place place(const csv::Cell& cell) const {
    return {file_, cell.place.line, cell.place.column, 1};
  }

  // A heading that stands twice is meant both times.
  void take_mapped() {
    for (const RosterColumn& column : project_.run.columns) {
      bool there = false;
      for (std::size_t i = 0; i < names_.size(); ++i)
        if (names_[i] == reading::folded(column.heading)) {
          out_.columns[i] = {column.field, column.tier, &column};
          there = true;
        }
      if (!there)
        out_.findings.push_back(
            {Severity::Warning,
             "roster-no-heading",
             column.place,
             fmt::format("no column of the roster is called {}", shown(column.heading)),
             "a heading of its first line",
             "write it as it stands there, or take this column away",
             {}});
    }
  }

  void take_named(const FieldWords& one) {
    if (said(one.field)) return;
    for (const std::string_view word : one.words) {
      const auto at = word.empty() ? names_.end() : std::ranges::find(names_, word);
      if (at == names_.end()) continue;
      const std::size_t column = as_index(at - names_.begin());
      if (out_.columns[column]) continue;
      out_.columns[column] = {one.field, -1, nullptr};
      return;
    }
  }

  // What a heading may be meant to say: the longest phrase of ours in it. An offer, no reading.
  std::string offer(std::size_t column) const {
    OrderField field = Kept;
    int tier = -1;
    std::size_t longest = 0;
    const auto try_phrase = [&](std::string_view phrase, OrderField meant, int of) {
      if (phrase.size() <= longest || !stands_in(names_[column], phrase)) return;
      longest = phrase.size();
      field = meant;
      tier = of;
    };
    for (std::size_t i = 0; i < project_.tiers.size(); ++i)
      try_phrase(reading::folded(project_.tiers[i].name), Quantity, static_cast<int>(i));
    for (const FieldWords& one : all_words)
      for (const std::string_view word : one.words)
        if (!word.empty() && !said(one.field)) try_phrase(word, one.field, -1);
    return mapping_text(trimmed(table_.header.cells[column].text), field, tier, project_);
  }

  std::vector<std::size_t> unknown() const {
    std::vector<std::size_t> columns;
    for (std::size_t i = 0; i < names_.size(); ++i)
      if (!out_.columns[i] && !names_[i].empty()) columns.push_back(i);
    return columns;
  }
  std::string offers() const {
    std::string all;
    const std::vector<std::size_t> columns = unknown();
    for (std::size_t i = 0; i < std::min(columns.size(), most_offered); ++i)
      all += (all.empty() ? "" : " ") + offer(columns[i]);
    return columns.size() > most_offered ? all + " …" : all;
  }

  void tell_missing() {
    std::vector<std::string> found;
    for (const csv::Cell& cell : table_.header.cells) found.push_back(shown(trimmed(cell.text)));
    std::string fix = "name it in the first line";
    if (const int line = line_of_headings(); line > 0)
      fix = fmt::format("take away what stands above line {}, where the columns are named", line);
    else if (!unknown().empty())
      fix += ", or say in <run> what each column means: " + offers();
    out_.findings.push_back({Severity::Error,
                             "roster-columns",
                             {file_, table_.header.place.line, table_.header.place.column, 1},
                             "the columns " + words::series(found),
                             said(Name) ? "a column tier" : "a column name or number",
                             std::move(fix),
                             {}});
  }

  // A title or an empty table may stand above the names of the columns.
  int line_of_headings() const {
    constexpr std::size_t most_above = 10;
    for (std::size_t i = 0; i < std::min(table_.rows.size(), most_above); ++i) {
      int known = 0;
      for (const csv::Cell& cell : table_.rows[i].cells)
        for (const FieldWords& one : all_words)
          if (!trimmed(cell.text).empty() &&
              std::ranges::find(one.words, reading::folded(cell.text)) != one.words.end())
            ++known;
      if (known >= 2) return table_.rows[i].place.line;
    }
    return 0;
  }

  void tell_unknown() {
    const std::vector<std::size_t> columns = unknown();
    if (columns.empty()) return;
    std::vector<std::string> found;
    for (const std::size_t column : columns)
      found.push_back(shown(trimmed(table_.header.cells[column].text)));
    const auto count = std::ssize(columns);
    out_.findings.push_back(
        {Severity::Note,
         "roster-headings",
         place(table_.header.cells[columns.front()]),
         fmt::format("{} of the roster that {} nothing here: {}", words::noun_for(count, "column"),
                     words::agreed("mean", count), words::series(found)),
         "columns with a meaning",
         fmt::format("leave it so, and what stands there is printed on the slips; or say in <run> "
                     "what is meant: {}",
                     offers()),
         {}});
  }

  const csv::Table& table_;
  const Project& project_;
  std::int32_t file_;
  std::vector<std::string> names_; // of the columns, folded
  Headings out_;
};

} // namespace

std::span<const FieldWords> field_words() { return all_words; }

std::string_view word_of(OrderField field) {
  const auto found = std::ranges::find(all_words, field, &FieldWords::field);
  if (found == all_words.end()) return "kept";
  switch (field) {
  case Id: return "id";
  case PaidOn: return "paid-on";
  case PickedUp: return "picked-up";
  default: return found->words.front();
  }
}

bool is_bookkeeping(OrderField field) {
  constexpr std::array all = {Email, Paid, PaidOn, Refunded, Sent, PickedUp, Parcel};
  return std::ranges::find(all, field) != all.end();
}

std::string_view joint_of(OrderField field) {
  const auto found = std::ranges::find(all_words, field, &FieldWords::field);
  return found == all_words.end() ? " " : found->joint;
}

Headings headings_of(const csv::Table& table, const Project& project, std::int32_t file) {
  return HeadingReader(table, project, file).read();
}

std::string mapping_text(std::string_view heading, OrderField field, int tier,
                         const Project& project) {
  std::vector<std::pair<std::string, std::string>> attributes{
      {"heading", std::string(heading)}, {"means", std::string(word_of(field))}};
  if (tier >= 0) attributes.emplace_back("tier", at(project.tiers, tier).id);
  return edit::written_element("column", attributes);
}

} // namespace leafwright::detail
