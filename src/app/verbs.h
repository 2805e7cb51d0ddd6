#pragma once

#include "app/arguments.h"
#include "app/run.h"

namespace leafwright::app {

// Each verb is one function: it prints, writes files and returns the exit code.

int check(const Arguments& arguments, Surroundings& surroundings);
int begin_project(const Arguments& arguments, Surroundings& surroundings);
// A plain list of pieces and one of sheets, planned without a project; JSON on the output stream.
int plan_parts_list(const Arguments& arguments, Surroundings& surroundings);
// One document, or all of them. Nothing is written unless all could be made.
int make_documents(const Arguments& arguments, Surroundings& surroundings);

} // namespace leafwright::app
