#pragma once

#include "app/documents/documents.h"
#include "app/system/environment.h"

#include <string>

// The design of one project on a page in the browser: served to this machine alone, and to the
// browser that holds the token of this launch.
//
//   return serve_local_page("orchard-gate", {}, settings, environment); // until Ctrl-C

namespace leafwright::local_page {

struct PageSettings {
  int port = 0;        // 0: the system chooses
  bool browser = true; // opens it, where there is one
  // Where Enter prints a fresh address; not while something else reads there.
  bool listens_to_keys = false;
};

// `path` is a project file, or a folder with one; an empty folder begins a project. Returns when
// the page cannot be served, with an exit code.
int serve_local_page(const std::string& path, const PageSettings& page,
                     app::RenderSettings& settings, app::Environment& environment);

} // namespace leafwright::local_page
