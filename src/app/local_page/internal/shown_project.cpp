#include "app/local_page/internal/shown_project.h"

#include "measure/index.h"
#include "read/document.h"

#include <algorithm>
#include <chrono>
#include <tuple>

namespace leafwright::local_page {

Shown::Shown(KeyedText text_, const std::string& path, supply::PlanCache* kept)
    : text(std::move(text_)), tree(text.bytes), revision(revision_of(text.bytes)) {
  const auto begun = std::chrono::steady_clock::now();
  planned = app::plan_project(read_project(text.bytes, path), kept);
  findings = planned.findings;
  std::ranges::stable_sort(findings, [](const Finding& a, const Finding& b) {
    return std::tuple(-static_cast<int>(a.severity), a.place.line, a.place.column) <
           std::tuple(-static_cast<int>(b.severity), b.place.line, b.place.column);
  });
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begun;
  milliseconds = took.count();
}

std::optional<std::size_t> Shown::byte_at(const Place& place) const {
  const Sources& sources = planned.reading.sources;
  if (place.file != 0 || place.line < 1 || sources.empty()) return std::nullopt;
  const SourceText& source = sources.front();
  const std::string_view line = source.line(place.line);
  if (line.data() == nullptr) return std::nullopt;
  return as_index(line.data() - source.text().data()) +
         source.bytes_before(place.line, std::max(place.column, 1));
}

std::optional<std::size_t> Shown::element_at(const Place& place) const {
  const auto at = byte_at(place);
  if (!at) return std::nullopt;
  std::optional<std::size_t> inner;
  for (std::size_t i = 0; i < tree.nodes.size() && tree.nodes[i].span->begin <= *at; ++i)
    if (tree.nodes[i].span->end > *at) inner = i; // later ones lie further in
  return inner;
}

std::string Shown::key_at(const Place& place) const {
  const auto element = element_at(place);
  return element && *element < text.keys.size() ? key_words(text.keys[*element]) : std::string();
}

std::string Shown::value_of(const edit::AttributeSpan& attribute) const {
  const Sources& sources = planned.reading.sources;
  if (sources.empty()) return {};
  return reading::Value(sources.front(), 0, attribute.value, attribute.length,
                        reading::Value::As::Attribute)
      .text();
}

} // namespace leafwright::local_page
