#include "read/roster/internal/unknown_words.h"

#include "language/lists.h"
#include "measure/letters.h"
#include "read/edit/elements.h"
#include "read/read.h"
#include "read/roster/internal/headings.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::detail {

namespace {

constexpr std::size_t most_words = 20, most_places = 100;

// How dates are written that are not in ISO 8601, as far as the numbers show it.
std::string_view days_of(const std::vector<std::string>& texts, const Project& project) {
  using enum RosterColumn::Days;
  const auto fits = [&](RosterColumn::Days days) {
    return std::ranges::all_of(
        texts, [&](const std::string& text) { return !!reading::day_of(text, days); });
  };
  const bool month = fits(MonthFirst), day = fits(DayFirst);
  if (!month && !day) return {};
  const bool american = project.language == "en-US";
  return month && (!day || american) ? "month-first" : "day-first";
}

std::vector<std::string_view> meanings_of(OrderField field, const reading::OrderNames& names) {
  switch (field) {
  case OrderField::Tier: return names.tier_ids();
  case OrderField::Status: return {"open", "paid", "cancelled", "refunded", "test"};
  case OrderField::PickedUp: return {"yes", "no"};
  default: return names.item_ids();
  }
}

// What is to be pasted into <run>; where no word of ours is near, the maker chooses.
std::string mapping_of(OrderField field, const std::string& heading,
                       const std::vector<std::string>& texts, const Project& project) {
  if (field == OrderField::Day || field == OrderField::PaidOn) {
    const std::string_view days = days_of(texts, project);
    return days.empty() ? std::string()
                        : edit::written_element("column", {{"heading", heading},
                                                           {"means", std::string(word_of(field))},
                                                           {"days", std::string(days)}});
  }
  const reading::OrderNames names(project);
  const std::vector<std::string_view> meanings = meanings_of(field, names);
  std::string values;
  for (std::size_t i = 0; i < std::min(texts.size(), most_words); ++i) {
    const std::string_view near = reading::nearest_name(texts[i], meanings);
    values += edit::written_element(
        "value", {{"text", texts[i]}, {"means", near.empty() ? "…" : std::string(near)}});
  }
  const std::string column = edit::written_element(
      "column", {{"heading", heading}, {"means", std::string(word_of(field))}});
  return column.substr(0, column.size() - 2) + ">" + values + "</column>";
}

} // namespace

void UnknownWords::take(reading::OrderReading& reading, std::size_t told) {
  std::vector<std::size_t> again;
  for (const reading::OrderReading::Unknown& one : reading.unknown) {
    const auto [at, fresh] = told_.try_emplace(one.field);
    Told& all = at->second;
    if (fresh)
      all.finding = told + one.finding - again.size();
    else
      again.push_back(one.finding);
    if (!fresh && all.again.size() < most_places)
      all.again.push_back(reading.findings.at(one.finding).place);
    ++all.cells;
    if (all.times[one.text]++ == 0) all.texts.push_back(one.text);
  }
  for (auto at = again.rbegin(); at != again.rend(); ++at)
    reading.findings.erase(reading.findings.begin() + static_cast<std::ptrdiff_t>(*at));
}

void UnknownWords::tell(Findings& findings, const Project& project,
                        const std::map<OrderField, std::string>& headings) const {
  for (const auto& [field, told] : told_) {
    if (told.finding >= findings.size()) continue; // too many others came first
    Finding& finding = findings[told.finding];
    const auto heading = headings.find(field);
    const std::string mapping = heading == headings.end()
                                    ? std::string()
                                    : mapping_of(field, heading->second, told.texts, project);
    if (told.cells > 1) {
      std::vector<std::string> found;
      for (std::size_t i = 0; i < std::min(told.texts.size(), most_words); ++i)
        found.push_back(
            fmt::format("{} ({}\u00A0×)", shown(told.texts[i]), told.times.at(told.texts[i])));
      finding.found = words::series(found) + (told.texts.size() > most_words ? ", …" : "");
      for (const Place& place : told.again) finding.trace.push_back({place, "and here"});
    }
    if (!mapping.empty()) finding.fix += "; or say in <run> what it means: " + mapping;
  }
}

} // namespace leafwright::detail
