#pragma once

#include "app/arguments.h"

namespace CLI {
class App;
}

namespace leafwright::app {

// The verbs about changes: effects, compare, family, remeasure, watch, batch, status.
void add_change_verbs(CLI::App& program, Arguments& to);

} // namespace leafwright::app
