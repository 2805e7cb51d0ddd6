#include "app/verbs/program.h"

#include "app/system/arguments.h"
#include "app/verbs/internal/help.h"
#include "app/verbs/internal/verb_table.h"
#include "measure/letters.h"
#include "read/read.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <ostream>
#include <sstream>

namespace leafwright::app {

namespace {

// An option as the parser takes it. All verbs write to the same arguments: only one is ever parsed.
CLI::Option* add(CLI::App& to, const Option& option, Arguments& arguments) {
  const std::string names(option.names), help(option.help);
  return std::visit(
      [&](const auto member) -> CLI::Option* {
        auto& value = member(arguments);
        if constexpr (std::is_same_v<decltype(value), bool&>) {
          return to.add_flag(names, value, help);
        } else {
          CLI::Option* added = to.add_option(names, value, help);
          if constexpr (std::is_same_v<decltype(value), std::vector<std::string>&>)
            added->expected(1)->take_all();
          const auto [least, most] = option.range;
          if constexpr (std::is_same_v<decltype(value), int&>) {
            if (most > least)
              added->check(CLI::Range(static_cast<int>(least), static_cast<int>(most)));
          } else if (most > least) {
            added->check(CLI::Range(least, most));
          }
          return added;
        }
      },
      option.target);
}

void add(CLI::App& program, const Verb& verb, Arguments& arguments) {
  CLI::App* to = program.add_subcommand(std::string(verb.name), std::string(verb.purpose));
  const Operand& operand = verb.operand;
  std::string name(operand.words.substr(0, operand.words.find_first_of(". |")));
  std::ranges::transform(name, name.begin(), small_letter);
  to->add_option(name, arguments.inputs, std::string(operand.help))
      ->type_name(std::string(operand.words))
      ->expected(operand.least, 1000) // too many are told below, after options that are not there
      ->required(operand.least > 0);
  for (const Option& option : options_of(verb)) {
    CLI::Option* added = add(*to, option, arguments);
    if (const std::vector<std::string> choices = choices_of(option); !choices.empty())
      added->check(CLI::IsMember(choices));
    if (option.required) added->required();
    if (!option.excludes.empty()) added->excludes(std::string(option.excludes));
  }
}

// The arguments, or what is printed instead with an exit code.
struct Parsing {
  Arguments arguments;
  std::string text;
  std::optional<int> exit_code;
};

std::string unknown_command(const std::string& word) {
  std::vector<std::string_view> names;
  for (const Verb& verb : verbs()) names.push_back(verb.name);
  const std::string_view near = reading::nearest_name(word, names);
  return fmt::format("leafwright: there is no command called {}; {}\n", word,
                     near.empty() ? "leafwright help lists all"
                                  : fmt::format("did you mean {}?", near));
}

// A folder or a project alone is to be opened.
bool is_place(const std::vector<std::string>& words) {
  std::error_code ignored;
  return !words.empty() && !find_verb(words.front()) &&
         (std::filesystem::is_directory(words.front(), ignored) ||
          (words.front().ends_with(".xml") &&
           std::filesystem::is_regular_file(words.front(), ignored)));
}

Parsing parsed(std::vector<std::string> words) {
  Parsing parsing;
  if (is_place(words)) words.insert(words.begin(), "open");
  if (!words.empty() && !words.front().starts_with("-") && !find_verb(words.front())) {
    parsing.exit_code = WrongUse;
    parsing.text = unknown_command(words.front());
    return parsing;
  }
  CLI::App program{"", "leafwright"};
  program.set_version_flag("--version", "leafwright " LEAFWRIGHT_VERSION);
  program.set_help_flag("-h,--help");
  program.require_subcommand(1);
  for (const Verb& verb : verbs()) add(program, verb, parsing.arguments);
  try {
    program.parse(std::vector<std::string>(words.rbegin(), words.rend()));
  } catch (const CLI::CallForHelp&) {
    parsing.arguments = {};
    for (const CLI::App* verb : program.get_subcommands())
      parsing.arguments.inputs = {verb->get_name()};
    parsing.arguments.verb = "help";
    return parsing;
  } catch (const CLI::ParseError& fault) {
    std::ostringstream out, error;
    parsing.exit_code = program.exit(fault, out, error) == 0 ? Done : WrongUse;
    parsing.text = *parsing.exit_code == Done ? out.str() : error.str();
    return parsing;
  }
  parsing.arguments.verb = program.get_subcommands().at(0)->get_name();
  const Operand operand = find_verb(parsing.arguments.verb).value().operand;
  if (parsing.arguments.inputs.size() > static_cast<std::size_t>(operand.most)) {
    parsing.exit_code = WrongUse;
    parsing.text =
        fmt::format("leafwright: {} takes {}, and {} were given\n", parsing.arguments.verb,
                    operand.words, parsing.arguments.inputs.size());
  }
  return parsing;
}

} // namespace

int run(const std::vector<std::string>& words, Environment environment) {
  const Parsing parsing = parsed(words);
  if (parsing.exit_code) {
    (*parsing.exit_code == Done ? environment.out : environment.error) << parsing.text;
    return *parsing.exit_code;
  }
  return find_verb(parsing.arguments.verb).value().run(parsing.arguments, environment);
}

} // namespace leafwright::app
