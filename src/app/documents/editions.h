#pragma once

#include "app/documents/documents.h"
#include "app/documents/rendering.h"
#include "app/system/arguments.h"
#include "app/system/environment.h"
#include "guide/change/report.h"
#include "read/edit/edit.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

// Two editions of a project side by side. What is amiss is said on the error stream.
//
//   auto before = open_edition("old.pdf", {}, settings, arguments, environment);
//   auto after = open_edition("new.xml", {}, settings, arguments, environment);
//   ComparedEditions compared;
//   compare_editions(compared, std::get<Edition>(before), std::get<Edition>(after), {}, arguments,
//                    environment);

namespace leafwright::app {

// Read, planned, its tutorial laid out.
struct Edition {
  std::string name;  // as it was given
  std::string bytes; // of the project file
  PlannedProject planned;
  std::optional<guide::Document> tutorial;
  page::Laid laid;
};

// A project file, or a PDF that carries one (--with-project). Findings that stop are printed and an
// exit code is given instead.
std::variant<Edition, int> open_edition(const std::string& path,
                                        const std::vector<std::string>& overrides,
                                        const RenderSettings& settings, const Arguments& arguments,
                                        Environment& environment);

// Nothing in it may outlive the editions, nor `story` the comparison.
struct ComparedEditions {
  change::Comparison comparison;
  std::optional<guide::ChangeStory> story;
};
// False when --cut is not understood.
bool compare_editions(ComparedEditions& compared, const Edition& before, const Edition& after,
                      std::vector<edit::Written> written, const Arguments& arguments,
                      Environment& environment);

// Writes report, corrections and data into the folder asked for. An exit code.
int write_comparison(const ComparedEditions& compared, const Edition& before, const Edition& after,
                     const RenderSettings& settings, const Arguments& arguments,
                     Environment& environment);

} // namespace leafwright::app
