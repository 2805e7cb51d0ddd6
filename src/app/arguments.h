#pragma once

#include "app/audience.h"

#include <optional>
#include <string>
#include <vector>

namespace leafwright::app {

// booklet: as they stand on the command line; empty = as usual.
struct FoldingArguments {
  std::string sheet, caliper, spine;
  int signature = 0;       // pages; 0 = all in one
  bool bound = false;      // glued or sewn signatures instead of staples
  bool flip_long = false;  // the printer turns sheets on their long edge
  bool back_cover = false; // the last page is one
  int proof = 0;           // so many pages a side, to be looked at only
};
// copies: one buyer, or those of the orders when both are empty; and where the lock is read from.
struct CopyArguments {
  std::string name, number;
  std::string lock_file, lock_variable;
};

// What the verbs about changes are told.
struct ChangeArguments {
  std::vector<std::string> cut;  // "C=80": pieces of the older edition that are cut
  bool nothing_cut = false;      // … none is
  bool write = false;            // put the values into the project file
  bool bars = false;             // compare: the new tutorial with bars in the margin
  std::string vary;              // family: "cards.size=A2,A6"
  std::vector<std::string> make; // watch, batch: documents by name
  int jobs = 0;                  // batch: at a time; 0 = as many as the machine has cores
  bool once = false;             // watch: leave after the first change, for tests
};

// remeasure: as they stand on the command line.
struct RemeasureArguments {
  std::string units, mark;    // empty: the other system; its usual mark
  std::string usual = "none"; // named sizes that take their counterpart: none, sheets, cards, all
  bool bought = false;        // dies, stamps and the like too
};

// pictures: as they stand on the command line.
struct PictureArguments {
  int width = 1200;               // pixels of a single picture
  std::vector<std::string> sizes; // posters: "1080x1080"
};

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
  bool json = false;    // --format json
  bool strict = false;  // warnings count as errors
  double seconds = 300; // --seconds: a brake; plans end by counted work long before
  bool draft = false;   // make it in spite of errors, marked on each page
  bool quiet = false;
  bool with_project = false; // put the project file into each PDF
  Audience audience;
  FoldingArguments folding;
  CopyArguments copy;
  PictureArguments pictures;
  std::string style_sheet; // html: --style
  ChangeArguments change;
  RemeasureArguments remeasure;
  std::string depfile;        // --depfile: make syntax
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
