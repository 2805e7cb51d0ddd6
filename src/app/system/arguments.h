#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

// What the user asked for, as plain values, and the table of all options that says where each value
// comes from. The parser, the help, the manual and the completions read the table; a verb reads
// `Arguments`.
//
// To add an option, add a member and a row here, and read the member where it matters:
//
//   {"--copies", "NUMBER", "how many of each", Subject::Output, Documents, "booklet",
//    to<&Arguments::copies>, {1, 99}},

namespace leafwright::app {

// For whom papers are made, where that makes a difference.
struct Audience {
  std::string tier;               // the id of a tier; empty = everybody
  int students = 0, tables = 0;   // of a class; 0 = as the project's class day says
  std::string print = "standard"; // handouts: standard, large or easy
  int per_sheet = 1;              // handouts: 2 = two alike on a sheet, to be cut apart
  bool grey = false;              // for a printer without colour
};

// booklet; empty = as usual.
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

// The verbs about changes.
struct ChangeArguments {
  std::vector<std::string> cut;           // "C=80": pieces of the older edition that are cut
  bool nothing_cut = false;               // none is
  std::vector<std::string> blanks;        // letters whose pieces are not die-cut yet
  std::vector<std::string> measured_dies; // ids of dies whose written size alone was wrong
  bool write = false;                     // put the values into the project file
  bool bars = false;                      // compare: the new tutorial with bars in the margin
  std::string vary;                       // family: "cards.size=A2,A6"
  std::vector<std::string> make;          // watch, batch: documents by name
  int jobs = 0;                           // batch: at a time; 0 = as many as the machine has cores
  bool once = false;                      // watch: leave after the first change, for tests
};

struct RemeasureArguments {
  std::string units, mark;    // empty: the other system; its usual mark
  std::string usual = "none"; // named sizes that take their counterpart: none, sheets, cards, all
  bool bought = false;        // dies, stamps and the like too
};

struct PictureArguments {
  int width = 1200;               // pixels of a single picture
  std::vector<std::string> sizes; // posters: "1080x1080"
};

// parts: what the cells of the lists mean, and the rules of cutting, in the cells' own terms.
struct ListArguments {
  std::string measures, unit_name, blade, trim, smallest_strip;
  int stages = 0;
};

// open: where the page is served.
struct PageArguments {
  int port = 0; // the system's choice
  bool no_browser = false;
};

struct HelpArguments {
  bool man = false, table = false;
  std::string completions; // bash, zsh or fish
};

// Options that a verb does not have keep their defaults.
struct Arguments {
  std::string verb;
  std::vector<std::string> inputs; // project files; the name of a new project
  std::string out = ".";           // a folder, or a file when one is made
  std::vector<std::string> set;    // "mat.width=4in"
  std::string paper;               // empty = as the project says
  std::string page_template;       // empty = the one that ships
  std::string format = "text";
  std::string colour;   // yes, no; empty = when a terminal listens
  bool strict = false;  // warnings count as errors
  double seconds = 300; // a brake; plans end by counted work long before
  bool draft = false;   // make it in spite of errors, marked on each page
  bool quiet = false;
  bool with_project = false;  // put the project file into each PDF
  std::string style_sheet;    // html
  std::string depfile;        // make syntax
  bool list_rules = false;    // check
  bool with_inferred = false; // check
  Audience audience;
  FoldingArguments folding;
  CopyArguments copy;
  PictureArguments pictures;
  ChangeArguments change;
  RemeasureArguments remeasure;
  ListArguments list;
  PageArguments page;
  HelpArguments help;

  bool json() const { return format == "json"; }
};

// Where a value goes, by its kind: one word, a word each time it is given, a flag, a number.
template <class T>
using Getter = T& (*)(Arguments&);
using Target = std::variant<Getter<std::string>, Getter<std::vector<std::string>>, Getter<bool>,
                            Getter<int>, Getter<double>>;
template <auto first, auto... rest>
constexpr auto& follow(auto& object) {
  if constexpr (sizeof...(rest) == 0)
    return object.*first;
  else
    return follow<rest...>(object.*first);
}
// clang-format off
template <auto... path>
inline constexpr Target to{
    +[](Arguments& arguments) -> auto& { return follow<path...>(arguments); }};
// clang-format on

// What an option is about: the heading that help lists it under.
enum class Subject : std::uint8_t {
  Output,
  Values,
  Readers,
  Folding,
  Copying,
  Pictures,
  Changes,
  Remeasuring,
  Repeating,
  Lists,
  Help,
  Messages
};
// Verbs that have options in common: those that read projects, those that make documents of one,
// and the documents themselves. A verb may belong to several.
enum Family : std::uint8_t { NoFamily = 0, Reads = 1, Makes = 2, Documents = 4 };

struct Option {
  std::string_view names;       // "-o,--out"
  std::string_view placeholder; // of its value; "a|b": one of these; empty: a flag
  std::string_view help;
  Subject subject;
  std::uint8_t families;  // verbs that have it: all of these families ...
  std::string_view verbs; // ... and these, by name
  Target target;
  std::pair<double, double> range{}; // of a number
  bool required = false;
  std::string_view excludes{}; // another option
};

// clang-format off
inline constexpr std::array all_options{
    Option{"-o,--out", "FOLDER", "the folder to write to (remeasure: a new project file)",
           Subject::Output, Makes, "compare remeasure watch batch new", to<&Arguments::out>},
    Option{"--make", "NAME", "which documents to make (tutorial); all makes every one; can be repeated",
           Subject::Output, NoFamily, "watch batch", to<&Arguments::change, &ChangeArguments::make>},
    Option{"--paper", "letter|a4", "the paper to print on, in place of the project's",
           Subject::Output, Makes, "remeasure watch batch", to<&Arguments::paper>},
    Option{"--template", "FILE", "a page template of your own",
           Subject::Output, Makes, "watch batch status", to<&Arguments::page_template>},
    Option{"--style", "FILE", "a style sheet of your own",
           Subject::Output, NoFamily, "html", to<&Arguments::style_sheet>},
    Option{"--draft", "", "carry on despite errors; every page is marked DRAFT",
           Subject::Output, Makes, "effects remeasure watch batch", to<&Arguments::draft>},
    Option{"--with-project", "", "embed the project file in each PDF; it holds your prices, so don't send these to buyers",
           Subject::Output, Makes, "watch batch", to<&Arguments::with_project>},
    Option{"--depfile", "FILE", "list every file that was read, for make or ninja",
           Subject::Output, Makes, "watch", to<&Arguments::depfile>},
    Option{"--bars", "", "with -o: also make the new tutorial, with bars beside what changed",
           Subject::Output, NoFamily, "compare", to<&Arguments::change, &ChangeArguments::bars>},

    Option{"--set", "NAME=VALUE", "try another value, such as mat.width=4in; can be repeated",
           Subject::Values, Makes, "check effects compare family remeasure watch", to<&Arguments::set>},
    Option{"--vary", "NAME=VALUE,VALUE...", "what to vary, and its values. cards. means every card; names joined by commas vary together: cards.size,a2.size=A2,A6,C6",
           Subject::Values, NoFamily, "family", to<&Arguments::change, &ChangeArguments::vary>, {}, true},
    Option{"--write", "", "write the values into the project file and leave the rest of it alone",
           Subject::Values, NoFamily, "effects", to<&Arguments::change, &ChangeArguments::write>},

    Option{"--for", "TIER", "the edition for buyers of this tier, by its id",
           Subject::Readers, NoFamily, "tutorial html copies", to<&Arguments::audience, &Audience::tier>},
    Option{"--students", "NUMBER", "how many students, each making one kit",
           Subject::Readers, NoFamily, "tutorial html handouts", to<&Arguments::audience, &Audience::students>, {1, 999}},
    Option{"--tables", "NUMBER", "how many tables they sit at",
           Subject::Readers, NoFamily, "handouts", to<&Arguments::audience, &Audience::tables>, {1, 999}},
    Option{"--per-sheet", "1|2", "2 puts two copies on each sheet, to cut apart",
           Subject::Readers, NoFamily, "handouts", to<&Arguments::audience, &Audience::per_sheet>, {1, 2}},
    Option{"--print", "standard|large|easy", "large: large print; easy: wider line spacing and one plain typeface",
           Subject::Readers, NoFamily, "handouts", to<&Arguments::audience, &Audience::print>},
    Option{"--gray,--grey", "", "in grays, for a printer without color",
           Subject::Readers, Documents, "", to<&Arguments::audience, &Audience::grey>},

    Option{"--sheet", "letter|a4|tabloid|a3|...", "the paper in the printer (the project's)",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::sheet>},
    Option{"--flip-long", "", "for a printer that flips on the long edge (the short edge)",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::flip_long>},
    Option{"--caliper", "LENGTH", "thickness of one sheet (0.1 mm), to allow for creep",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::caliper>},
    Option{"--back-cover", "", "use the last page as the back cover",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::back_cover>},
    Option{"--signature", "NUMBER", "pages folded together (all of them, stapled through the fold)",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::signature>, {4, 400}},
    Option{"--bound", "", "signatures are sewn or glued: leave out the staple marks",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::bound>},
    Option{"--spine", "LENGTH", "how much is trimmed off the back of each signature before gluing",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::spine>},
    Option{"--proof", "NUMBER", "make proof sheets instead, with this many pages on each side",
           Subject::Folding, NoFamily, "booklet", to<&Arguments::folding, &FoldingArguments::proof>, {1, 64}},

    Option{"--name", "NAME", "just this buyer, not everyone who ordered",
           Subject::Copying, NoFamily, "copies", to<&Arguments::copy, &CopyArguments::name>},
    Option{"--number", "TEXT", "that buyer's order number",
           Subject::Copying, NoFamily, "copies", to<&Arguments::copy, &CopyArguments::number>},
    Option{"--lock", "FILE", "lock the copies as this file says",
           Subject::Copying, NoFamily, "copies", to<&Arguments::copy, &CopyArguments::lock_file>},
    Option{"--lock-from", "VARIABLE", "the same from an environment variable, so that no password stands on the command line",
           Subject::Copying, NoFamily, "copies", to<&Arguments::copy, &CopyArguments::lock_variable>, {}, false, "--lock"},

    Option{"--width", "PIXELS", "width of each picture and of the contact sheet (1200)",
           Subject::Pictures, NoFamily, "pictures", to<&Arguments::pictures, &PictureArguments::width>, {16, 20000}},
    Option{"--size", "WIDTHxHEIGHT", "a poster of all cards with the title, in pixels; can be repeated",
           Subject::Pictures, NoFamily, "pictures", to<&Arguments::pictures, &PictureArguments::sizes>},

    Option{"--cut", "LETTER=COUNT", "how many pieces of a letter are already cut: C=80 (the whole old batch)",
           Subject::Changes, NoFamily, "effects compare", to<&Arguments::change, &ChangeArguments::cut>},
    Option{"--nothing-cut", "", "nothing is cut yet",
           Subject::Changes, NoFamily, "effects compare", to<&Arguments::change, &ChangeArguments::nothing_cut>},
    Option{"--blanks", "LETTER", "pieces of this letter are trimmed but not die-cut yet; can be repeated",
           Subject::Changes, NoFamily, "effects compare", to<&Arguments::change, &ChangeArguments::blanks>},
    Option{"--same-die", "DIE", "you cut with this very die, and only its written size was wrong; can be repeated",
           Subject::Changes, NoFamily, "effects compare", to<&Arguments::change, &ChangeArguments::measured_dies>},

    Option{"--units", "inch|mm", "units of the new edition (the ones the project does not use)",
           Subject::Remeasuring, NoFamily, "remeasure", to<&Arguments::remeasure, &RemeasureArguments::units>},
    Option{"--mark", "LENGTH", "round every measure to this mark on your ruler (1/16 in, 1 mm)",
           Subject::Remeasuring, NoFamily, "remeasure", to<&Arguments::remeasure, &RemeasureArguments::mark>},
    Option{"--usual", "none|sheets|cards|all", "which named sizes to swap for their usual counterparts: letter for A4, A2 cards for C6 (none)",
           Subject::Remeasuring, NoFamily, "remeasure", to<&Arguments::remeasure, &RemeasureArguments::usual>},
    Option{"--bought", "", "choose dies, stamps, ribbon and the like anew as well; otherwise they keep their sizes",
           Subject::Remeasuring, NoFamily, "remeasure", to<&Arguments::remeasure, &RemeasureArguments::bought>},

    Option{"-j,--jobs", "NUMBER", "how many to make at once; 0 uses every core",
           Subject::Repeating, NoFamily, "batch", to<&Arguments::change, &ChangeArguments::jobs>, {0, 256}},
    Option{"--once", "", "stop after the first change",
           Subject::Repeating, NoFamily, "watch", to<&Arguments::change, &ChangeArguments::once>},

    Option{"--measures", "inch|mm", "cells hold measures such as 4 1/4 in; bare numbers are in this unit",
           Subject::Lists, NoFamily, "parts", to<&Arguments::list, &ListArguments::measures>},
    Option{"--unit", "WORDS", "what one whole number stands for: 1/16 in",
           Subject::Lists, NoFamily, "parts", to<&Arguments::list, &ListArguments::unit_name>},
    Option{"--blade", "LENGTH", "width lost at each cut",
           Subject::Lists, NoFamily, "parts", to<&Arguments::list, &ListArguments::blade>},
    Option{"--trim", "LENGTH", "trim this much off every edge of a sheet first",
           Subject::Lists, NoFamily, "parts", to<&Arguments::list, &ListArguments::trim>},
    Option{"--smallest-strip", "LENGTH", "the narrowest strip your trimmer can hold",
           Subject::Lists, NoFamily, "parts", to<&Arguments::list, &ListArguments::smallest_strip>},
    Option{"--stages", "NUMBER", "how many stages of cutting, each across the one before; 0 = any number",
           Subject::Lists, NoFamily, "parts", to<&Arguments::list, &ListArguments::stages>, {0, 9}},

    Option{"--port", "NUMBER", "port to serve the page on (any free one)",
           Subject::Output, NoFamily, "open", to<&Arguments::page, &PageArguments::port>, {1024, 65535}},
    Option{"--no-browser", "", "just print the address",
           Subject::Output, NoFamily, "open", to<&Arguments::page, &PageArguments::no_browser>},

    Option{"--man", "", "as a manual page in roff; without a name, for the whole program",
           Subject::Help, NoFamily, "help", to<&Arguments::help, &HelpArguments::man>},
    Option{"--completions", "bash|zsh|fish", "what a shell reads to complete commands",
           Subject::Help, NoFamily, "help", to<&Arguments::help, &HelpArguments::completions>},
    Option{"--table", "", "the commands as a table in Markdown",
           Subject::Help, NoFamily, "help", to<&Arguments::help, &HelpArguments::table>},

    Option{"--rules", "", "list the rules instead",
           Subject::Messages, NoFamily, "check", to<&Arguments::list_rules>},
    Option{"--all", "", "also list what was worked out for you",
           Subject::Messages, NoFamily, "check", to<&Arguments::with_inferred>},
    Option{"--strict", "", "count warnings as errors",
           Subject::Messages, Reads, "", to<&Arguments::strict>},
    Option{"--format", "text|json", "how findings and answers are printed; json puts one finding on each line",
           Subject::Messages, Reads, "", to<&Arguments::format>},
    Option{"--color,--colour", "yes|no", "color in messages (yes in a terminal, unless NO_COLOR is set)",
           Subject::Messages, Reads, "", to<&Arguments::colour>},
    Option{"-q,--quiet", "", "print nothing but findings",
           Subject::Messages, Reads, "", to<&Arguments::quiet>},
    Option{"--seconds", "NUMBER", "the longest to spend planning the cuts of one paper (300)",
           Subject::Messages, Reads, "parts", to<&Arguments::seconds>, {0.1, 3600}},
};
// clang-format on

} // namespace leafwright::app
