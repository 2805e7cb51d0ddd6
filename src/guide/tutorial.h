#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

namespace leafwright::guide {

struct TutorialOptions {
  bool draft = false; // marked on each page; the project has errors
};

// The whole tutorial, section after section. `sheets` is the layout of one kit; `warnings` are the
// findings that the colophon lists.
Document tutorial(const Project& project, const supply::KitSheets& sheets, const Findings& warnings,
                  const TutorialOptions& options = {});

} // namespace leafwright::guide
