#include "app/arguments.h"

#include "app/change_arguments.h"
#include "app/documents.h"

#include <CLI/CLI.hpp>

#include <sstream>

namespace leafwright::app {

namespace {

constexpr const char* about =
    "Leafwright reads one XML project that describes a set of layered cards and makes everything\n"
    "needed to teach, sell, cut and pack it.";
constexpr const char* after =
    "Exit codes: 0 done; 1 the project has errors (with --strict: or warnings); 2 wrong use;\n"
    "3 a file could not be read or written.";

void add_reading(CLI::App& verb, Arguments& to) {
  verb.add_option("project", to.inputs, "the project file")->required()->type_name("PROJECT.xml");
  verb.add_option("--set", to.set, "give a measurement another value for this run: mat.width=4in")
      ->type_name("NAME=VALUE")
      ->expected(1)
      ->take_all();
  verb.add_flag("--strict", to.strict, "let warnings count as errors");
  verb.add_option_function<std::string>(
          "--format", [&to](const std::string& name) { to.json = name == "json"; },
          "how findings are printed: text, or json with one object a line")
      ->type_name("text|json")
      ->check(CLI::IsMember({"text", "json"}));
  verb.add_option_function<std::string>(
          "--colour", [&to](const std::string& word) { to.colour = word == "yes"; },
          "colour in messages; without it, when a terminal listens and NO_COLOR is not set")
      ->type_name("yes|no")
      ->check(CLI::IsMember({"yes", "no"}));
}

void add_making(CLI::App& verb, Arguments& to) {
  add_reading(verb, to);
  verb.add_option("-o,--out", to.out, "the folder to write to")->type_name("FOLDER");
  verb.add_option("--paper", to.paper, "the paper to print on, instead of the project's")
      ->type_name("letter|a4")
      ->check(CLI::IsMember({"letter", "a4"}));
  verb.add_option("--template", to.page_template, "a page template of your own")->type_name("FILE");
  verb.add_option("--seconds", to.seconds,
                  "a brake: the longest that planning the cuts of one stock may take (300)")
      ->type_name("NUMBER")
      ->check(CLI::Range(0.1, 3600.0));
  verb.add_option("--depfile", to.depfile, "list everything read, for make or ninja")
      ->type_name("FILE");
  verb.add_flag("--draft", to.draft, "make it in spite of errors, marked DRAFT on each page");
  verb.add_flag("--with-project", to.with_project,
                "put the project file into each PDF; it holds your prices, so not for buyers");
  verb.add_flag("-q,--quiet", to.quiet, "say nothing but findings");
}

// What only some documents ask about those who get them.
void add_audience(CLI::App& verb, const DocumentKind& kind, Audience& to) {
  verb.add_flag("--grey", to.grey, "in greys, for a printer without colour");
  const bool tutorial = kind.verb == "tutorial" || kind.verb == "html",
             handouts = kind.verb == "handouts";
  if (tutorial)
    verb.add_option("--for", to.tier, "the edition for those who bought this tier, by its id")
        ->type_name("TIER");
  if (tutorial || handouts)
    verb.add_option("--students", to.students, "how many are in class, each making one kit")
        ->type_name("NUMBER")
        ->check(CLI::Range(1, 999));
  if (!handouts) return;
  verb.add_option("--tables", to.tables, "at how many tables they sit")
      ->type_name("NUMBER")
      ->check(CLI::Range(1, 999));
  verb.add_option("--per-sheet", to.per_sheet, "2: two alike on each sheet, to be cut apart")
      ->type_name("1|2")
      ->check(CLI::Range(1, 2));
  verb.add_option("--print", to.print,
                  "large: for weak eyes; easy: wide lines and one plain face, for readers who tire")
      ->type_name("standard|large|easy")
      ->check(CLI::IsMember({"standard", "large", "easy"}));
}

void add_folding(CLI::App& verb, FoldingArguments& to) {
  verb.add_option("--sheet", to.sheet, "the sheets in the printer; without it the project's paper")
      ->type_name("letter|a4|tabloid|a3|...");
  verb.add_flag("--flip-long", to.flip_long,
                "for a printer that turns sheets on their long edge; without it the short one");
  verb.add_option("--caliper", to.caliper, "thickness of one sheet (0.1 mm), against creep")
      ->type_name("LENGTH");
  verb.add_flag("--back-cover", to.back_cover, "the last page is the back cover");
  verb.add_option("--signature", to.signature,
                  "pages folded together; without it all of them, stapled through the fold")
      ->type_name("NUMBER")
      ->check(CLI::Range(4, 400));
  verb.add_flag("--bound", to.bound, "signatures are sewn or glued: no marks for staples");
  verb.add_option("--spine", to.spine, "taken off the back of each signature before gluing")
      ->type_name("LENGTH");
  verb.add_option("--proof", to.proof, "proof sheets instead: so many pages on each side")
      ->type_name("NUMBER")
      ->check(CLI::Range(1, 64));
}

void add_picturing(CLI::App& verb, PictureArguments& to) {
  verb.add_option("--width", to.width, "of each picture in pixels, and of the contact sheet (1200)")
      ->type_name("PIXELS")
      ->check(CLI::Range(16, 20000));
  verb.add_option("--size", to.sizes,
                  "a poster of all cards with the title, exactly so large; may be given again")
      ->type_name("WIDTHxHEIGHT")
      ->expected(1)
      ->take_all();
}

void add_copying(CLI::App& verb, CopyArguments& to, Audience& audience) {
  verb.add_option("--name", to.name, "one buyer, instead of all who ordered")->type_name("NAME");
  verb.add_option("--number", to.number, "that buyer's order number")->type_name("TEXT");
  verb.add_option("--for", audience.tier, "that buyer's tier, by its id")->type_name("TIER");
  verb.add_option("--lock", to.lock_file, "lock the copies as this file says")->type_name("FILE");
  verb.add_option("--lock-from", to.lock_variable,
                  "the same from a variable of the environment, never from the command line")
      ->type_name("VARIABLE")
      ->excludes("--lock");
}

} // namespace

Parsing parse_arguments(const std::vector<std::string>& words) {
  Arguments arguments;
  CLI::App program{about, "leafwright"};
  program.footer(after);
  program.set_version_flag("--version", "leafwright " LEAFWRIGHT_VERSION);
  program.set_help_flag("-h,--help", "this help; after a verb, that verb's");
  program.require_subcommand(1);
  program.option_defaults()->always_capture_default(false);

  CLI::App* check = program.add_subcommand("check", "say what does not fit, and how to mend it");
  add_reading(*check, arguments);
  check->get_option("project")->required(false);
  check->add_flag("--rules", arguments.list_rules, "list the rules instead");

  for (const DocumentKind& kind : document_kinds()) {
    CLI::App* verb = program.add_subcommand(std::string(kind.verb), std::string(kind.meaning));
    add_making(*verb, arguments);
    add_audience(*verb, kind, arguments.audience);
  }
  program.get_subcommand("html")
      ->add_option("--style", arguments.style_sheet, "a style sheet of your own")
      ->type_name("FILE");
  add_making(*program.add_subcommand("all", "make every document"), arguments);

  CLI::App* booklet =
      program.add_subcommand("booklet", "the tutorial on half-size pages, set on sheets to fold");
  add_making(*booklet, arguments);
  add_folding(*booklet, arguments.folding);
  CLI::App* pictures =
      program.add_subcommand("pictures", "every view and step of the cards, as PNG and SVG");
  add_making(*pictures, arguments);
  add_picturing(*pictures, arguments.pictures);
  CLI::App* copies =
      program.add_subcommand("copies", "the tutorial once for each buyer, with name and number");
  add_making(*copies, arguments);
  add_copying(*copies, arguments.copy, arguments.audience);

  add_change_verbs(program, arguments);

  CLI::App* fresh =
      program.add_subcommand("new", "begin a project: a small one that already builds");
  fresh->add_option("name", arguments.inputs, "what the set of cards is called")
      ->required()
      ->expected(1);
  fresh->add_option("-o,--out", arguments.out, "the folder to make it in")->type_name("FOLDER");

  CLI::App* parts = program.add_subcommand(
      "parts", "plan the cutting of a plain list of pieces; answers in JSON");
  parts->add_option("lists", arguments.inputs, "the pieces and the sheets, as CSV")
      ->required()
      ->expected(2)
      ->type_name("PIECES.csv SHEETS.csv");
  parts
      ->add_option("--measures", arguments.measures,
                   "cells are measures such as 4 1/4 in; bare numbers are in this unit")
      ->type_name("inch|mm")
      ->check(CLI::IsMember({"inch", "mm"}));
  parts->add_option("--unit", arguments.unit_name, "the name of the unit of whole numbers: 1/16 in")
      ->type_name("WORDS");
  parts->add_option("--blade", arguments.blade, "width lost at each cut")->type_name("LENGTH");
  parts->add_option("--trim", arguments.trim, "cut off every edge of a sheet first")
      ->type_name("LENGTH");
  parts->add_option("--smallest-strip", arguments.smallest_strip, "the least the trimmer can hold")
      ->type_name("LENGTH");
  parts->add_option("--stages", arguments.stages, "cutting directions in turn; 0 = any number")
      ->type_name("NUMBER")
      ->check(CLI::Range(0, 9));
  parts
      ->add_option("--seconds", arguments.seconds,
                   "a brake: the longest that planning may take (300)")
      ->type_name("NUMBER")
      ->check(CLI::Range(0.1, 3600.0));

  Parsing parsing;
  std::vector<std::string> reversed(words.rbegin(), words.rend());
  try {
    program.parse(std::move(reversed));
  } catch (const CLI::ParseError& fault) {
    std::ostringstream out, error;
    parsing.exit_code = program.exit(fault, out, error) == 0 ? 0 : 2;
    parsing.to_error_stream = parsing.exit_code != 0;
    parsing.text = parsing.to_error_stream ? error.str() : out.str();
    return parsing;
  }
  arguments.verb = program.get_subcommands().at(0)->get_name();
  if (arguments.verb == "check" && arguments.inputs.empty() && !arguments.list_rules) {
    parsing.text = "check: the project file is missing: leafwright check PROJECT.xml\n";
    parsing.to_error_stream = true;
    parsing.exit_code = 2;
    return parsing;
  }
  parsing.arguments = std::move(arguments);
  return parsing;
}

} // namespace leafwright::app
