#pragma once

#include "app/arguments.h"
#include "app/documents.h"
#include "app/run.h"
#include "app/typeset.h"
#include "guide/change/report.h"
#include "read/edit/edit.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace leafwright::app {

// An edition to be compared: read, planned, its tutorial laid out.
struct Opened {
  std::string name;  // as it was given
  std::string bytes; // of the project file
  Prepared prepared;
  std::optional<guide::Document> tutorial;
  page::Laid laid;
};

// A project file, or a PDF that carries one (--with-project). Findings that stop are printed and an
// exit code is given instead.
std::variant<Opened, int> open_edition(const std::string& path,
                                       const std::vector<std::string>& overrides,
                                       const Workshop& workshop, const Arguments& arguments,
                                       Surroundings& surroundings);

// The story of two editions. Nothing in it may outlive them or `comparison`.
struct Told {
  change::Comparison comparison;
  std::optional<guide::ChangeStory> story;
};
// Nothing when --cut is not understood, which is told.
bool compare_opened(Told& told, const Opened& before, const Opened& after,
                    std::vector<edit::Written> written, const Arguments& arguments,
                    Surroundings& surroundings);

// Writes report, corrections and data into the folder asked for. An exit code.
int write_story(const Told& told, const Opened& before, const Opened& after,
                const Workshop& workshop, const Arguments& arguments, Surroundings& surroundings);

// Pages that differ, whatever stands in their feet.
guide::PageChanges page_changes(const page::Laid& before, const page::Laid& after);

} // namespace leafwright::app
