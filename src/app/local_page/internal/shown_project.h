#pragma once

#include "app/documents/planned_project.h"
#include "app/local_page/internal/keyed_text.h"
#include "model/project.h"

#include <memory>
#include <optional>
#include <string>

// What follows from one state of the file: read, planned for one kit, checked; and the way back
// from a thing of the model to the element that says it.

namespace leafwright::local_page {

struct Shown {
  Shown(KeyedText text_, const std::string& path, supply::PlanCache* kept);

  KeyedText text;
  ElementTree tree; // of `text`
  std::string revision;
  app::PlannedProject planned;
  Findings findings; // the worst first, else by place
  double milliseconds = 0;

  const Project& project() const { return planned.reading.project; }
  bool readable() const { return planned.reading.ok(); }

  // The innermost element at a place of the project file.
  std::optional<std::size_t> element_at(const Place& place) const;
  std::string key_at(const Place& place) const; // empty when there is none
  std::optional<std::size_t> byte_at(const Place& place) const;
  // The value that an attribute has, entities resolved.
  std::string value_of(const edit::AttributeSpan& attribute) const;
};
using ShownPtr = std::shared_ptr<const Shown>;

} // namespace leafwright::local_page
