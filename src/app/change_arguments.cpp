#include "app/change_arguments.h"

#include <CLI/CLI.hpp>

namespace leafwright::app {

namespace {

void add_values(CLI::App& verb, Arguments& to) {
  verb.add_option("--set", to.set, "give a measurement another value: mat.width=4in")
      ->type_name("NAME=VALUE")
      ->expected(1)
      ->take_all();
}
void add_format(CLI::App& verb, Arguments& to) {
  verb.add_option_function<std::string>(
          "--format", [&to](const std::string& name) { to.json = name == "json"; },
          "how the answer is printed")
      ->type_name("text|json")
      ->check(CLI::IsMember({"text", "json"}));
  verb.add_option_function<std::string>(
          "--colour", [&to](const std::string& word) { to.colour = word == "yes"; },
          "colour in messages")
      ->type_name("yes|no")
      ->check(CLI::IsMember({"yes", "no"}));
  verb.add_flag("--strict", to.strict, "let warnings count as errors");
  verb.add_flag("-q,--quiet", to.quiet, "say nothing but findings");
  verb.add_option("--seconds", to.seconds,
                  "a brake: the longest that planning the cuts of one stock may take (300)")
      ->type_name("NUMBER")
      ->check(CLI::Range(0.1, 3600.0));
}
void add_cut(CLI::App& verb, Arguments& to) {
  verb.add_option("--cut", to.change.cut,
                  "how many of a letter are cut already: C=80; without it the whole old run is")
      ->type_name("LETTER=COUNT")
      ->expected(1)
      ->take_all();
  verb.add_flag("--nothing-cut", to.change.nothing_cut, "no piece is cut yet");
}
void add_made(CLI::App& verb, Arguments& to) {
  verb.add_option("-o,--out", to.out, "the folder to write to")->type_name("FOLDER");
  verb.add_option("--make", to.change.make, "which documents (tutorial); all for every one")
      ->type_name("NAME")
      ->expected(1)
      ->take_all();
  verb.add_option("--paper", to.paper, "the paper to print on, instead of the project's")
      ->type_name("letter|a4")
      ->check(CLI::IsMember({"letter", "a4"}));
  verb.add_option("--template", to.page_template, "a page template of your own")->type_name("FILE");
  verb.add_flag("--draft", to.draft, "make it in spite of errors, marked DRAFT on each page");
  verb.add_flag("--with-project", to.with_project,
                "put the project file into each PDF; it holds your prices, so not for buyers");
}

void add_remeasure(CLI::App& program, Arguments& to) {
  CLI::App* verb = program.add_subcommand(
      "remeasure", "the same design in inches or in millimetres, each measure chosen anew");
  verb->add_option("project", to.inputs, "the project file")->required()->type_name("PROJECT.xml");
  verb->add_option("--units", to.remeasure.units, "of the new edition (the other ones)")
      ->type_name("inch|mm")
      ->check(CLI::IsMember({"inch", "mm"}));
  verb->add_option("--mark", to.remeasure.mark,
                   "the mark of your ruler that every measure goes to (1/16 in, 1 mm)")
      ->type_name("LENGTH");
  verb->add_option("--usual", to.remeasure.usual,
                   "named sizes that take their usual counterpart: letter and A4, A2 and C6 cards "
                   "(none)")
      ->type_name("none|sheets|cards|all")
      ->check(CLI::IsMember({"none", "sheets", "cards", "all"}));
  verb->add_flag("--bought", to.remeasure.bought,
                 "choose dies, stamps, reels and the like anew as well; else they keep their size");
  verb->add_option("--paper", to.paper, "of the documents, instead of the project's")
      ->type_name("letter|a4")
      ->check(CLI::IsMember({"letter", "a4"}));
  add_values(*verb, to);
  verb->get_option("--set")->description("give a value to the new edition first");
  verb->add_option("-o,--out", to.out, "write the new edition there: a new project file")
      ->type_name("FILE");
  verb->add_flag("--draft", to.draft, "write it in spite of errors");
  add_format(*verb, to);
}

} // namespace

void add_change_verbs(CLI::App& program, Arguments& to) {
  CLI::App* effects =
      program.add_subcommand("effects", "what follows from other values, before they are written");
  effects->add_option("project", to.inputs, "the project file")
      ->required()
      ->type_name("PROJECT.xml");
  add_values(*effects, to);
  add_cut(*effects, to);
  effects->add_flag("--write", to.change.write,
                    "put the values into the project file, touching nothing else of it");
  effects->add_flag("--draft", to.draft, "write them in spite of errors");
  add_format(*effects, to);

  CLI::App* compare =
      program.add_subcommand("compare", "two editions: what changes, what survives, what to send");
  compare
      ->add_option("editions", to.inputs,
                   "the older and the newer: project files, or PDFs made with --with-project")
      ->required()
      ->expected(2)
      ->type_name("OLD NEW");
  add_values(*compare, to);
  compare->get_option("--set")->description("try other values in the newer one");
  add_cut(*compare, to);
  compare
      ->add_option("-o,--out", to.out,
                   "write report (PDF, HTML, JSON, text) and corrections for buyers there")
      ->type_name("FOLDER");
  compare->add_flag("--bars", to.change.bars,
                    "with -o: also the new tutorial, with bars beside what changed");
  add_format(*compare, to);

  CLI::App* family = program.add_subcommand(
      "family", "one design at several sizes: which rules speak, sheets and cost");
  family->add_option("project", to.inputs, "the project file")
      ->required()
      ->type_name("PROJECT.xml");
  family
      ->add_option("--vary", to.change.vary,
                   "what varies and its values; cards. means every card, several names vary "
                   "together: cards.size,a2.size=A2,A6,C6")
      ->required()
      ->type_name("NAME=VALUE,VALUE...");
  add_values(*family, to);
  add_format(*family, to);

  add_remeasure(program, to);

  CLI::App* watch =
      program.add_subcommand("watch", "make documents again whenever something is saved");
  watch->add_option("project", to.inputs, "the project file")->required()->type_name("PROJECT.xml");
  add_values(*watch, to);
  add_made(*watch, to);
  watch->add_option("--depfile", to.depfile, "list everything read, for make or ninja")
      ->type_name("FILE");
  watch->add_flag("--once", to.change.once, "leave after the first change");
  add_format(*watch, to);

  CLI::App* batch = program.add_subcommand("batch", "every project below a folder, on all cores");
  batch->add_option("folder", to.inputs, "where the projects are")->required()->type_name("FOLDER");
  add_made(*batch, to);
  batch->add_option("-j,--jobs", to.change.jobs, "so many at a time; 0 = one for each core")
      ->type_name("NUMBER")
      ->check(CLI::Range(0, 256));
  add_format(*batch, to);

  CLI::App* status = program.add_subcommand("status", "which PDFs below a folder are current");
  status->add_option("where", to.inputs, "the folder of PDFs, then the projects they come from")
      ->required()
      ->expected(1, 1000)
      ->type_name("FOLDER PROJECT.xml...");
  status->add_option("--template", to.page_template, "the page template that was used")
      ->type_name("FILE");
  add_format(*status, to);
}

} // namespace leafwright::app
