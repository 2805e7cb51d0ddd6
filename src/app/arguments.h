#pragma once

#include <optional>
#include <string>
#include <vector>

namespace leafwright::app {

// What the user asked for, as plain values. Options that a verb does not have keep their defaults.
struct Arguments {
  std::string verb;
  std::vector<std::string> inputs; // project files; the name of a new project
  std::string out = ".";           // -o: a folder, or a file when one document is made
  std::vector<std::string> set;    // --set mat.width=4in
  std::string paper;               // --paper; empty = as the project says
  std::string page_template;       // --template; empty = the one that ships
  // parts: what the cells of the lists mean, and the rules of cutting, in the cells' own terms.
  std::string measures, unit_name, blade, trim, smallest_strip;
  int stages = 0;
  bool json = false;   // --format json
  bool strict = false; // warnings count as errors
  double seconds = 3;  // --seconds: the longest a stock's cutting plan may take
  bool draft = false;  // make it in spite of errors, marked on each page
  bool quiet = false;
  bool list_rules = false;    // check --rules
  std::optional<bool> colour; // --colour yes|no; unset = when a terminal listens
};

struct Parsing {
  std::optional<Arguments> arguments; // nothing: print `text` and leave with `exit_code`
  std::string text;
  bool to_error_stream = false;
  int exit_code = 0;
};

Parsing parse_arguments(const std::vector<std::string>& words);

} // namespace leafwright::app
