#pragma once

#include "app/system/arguments.h"
#include "app/system/environment.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// All verbs in one table: the parser, the call, the help, the manual, the completions and the table
// of commands in README.md come from it and from the table of options (app/system/arguments.h).

namespace leafwright::app {

// Each verb is one function: it prints, writes files and returns the exit code.
using Handler = int (*)(const Arguments& arguments, Environment& environment);

int run_check(const Arguments& arguments, Environment& environment);
int run_new(const Arguments& arguments, Environment& environment);
int run_open(const Arguments& arguments, Environment& environment);
int run_parts(const Arguments& arguments, Environment& environment);
int run_help(const Arguments& arguments, Environment& environment);
// One document, or all of them. Nothing is written unless all could be made.
int run_documents(const Arguments& arguments, Environment& environment);
int run_booklet(const Arguments& arguments, Environment& environment);
int run_pictures(const Arguments& arguments, Environment& environment);
int run_copies(const Arguments& arguments, Environment& environment);
int run_batch(const Arguments& arguments, Environment& environment);
int run_watch(const Arguments& arguments, Environment& environment);
int run_status(const Arguments& arguments, Environment& environment);
int run_effects(const Arguments& arguments, Environment& environment);
int run_compare(const Arguments& arguments, Environment& environment);
int run_family(const Arguments& arguments, Environment& environment);
int run_remeasure(const Arguments& arguments, Environment& environment);

// What a verb is given beside its options.
struct Operand {
  std::string_view words; // "PROJECT.xml"
  std::string_view help;
  int least = 1, most = 1;
};

struct Verb {
  std::string_view name;
  std::string_view purpose; // one line
  std::string_view group;   // the heading that help lists it under
  std::uint8_t families;    // see Option
  Operand operand;
  std::string_view example, other_example; // without "leafwright <name> "
  Handler run;
};

std::vector<Verb> verbs(); // in the order of the help
std::optional<Verb> find_verb(std::string_view name);
std::vector<Option> options_of(const Verb& verb);

} // namespace leafwright::app
