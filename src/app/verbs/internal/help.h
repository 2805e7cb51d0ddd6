#pragma once

#include "app/verbs/internal/verb_table.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// What the program tells about itself, from its tables and from the chapters in templates/help/.

namespace leafwright::app {

// A chapter of help: <name>.md, in a small part of Markdown: headings, paragraphs, lists, code.
struct Topic {
  std::string name, text;
};
std::vector<Topic> help_topics(const std::string& data_folder); // in the order of their names
std::string title_of(const Topic& topic);                       // without the marks of a heading

std::string subject_title(Subject subject);
std::vector<std::string> choices_of(const Option& option); // "a|b": a, b; else nothing
std::string usage_of(const Verb& verb);                    // "leafwright all [OPTIONS] PROJECT.xml"
std::vector<std::string> examples_of(const Verb& verb);
struct ExitCodeMeaning {
  int code;
  std::string_view meaning;
};
std::vector<ExitCodeMeaning> exit_codes();

// For a terminal, at most 100 columns wide.
std::string program_help(const std::vector<Topic>& topics);
std::string verb_help(const Verb& verb);
// For README.md: a row a command.
std::string command_table();

// Pages of the manual in roff (man(7)): leafwright(1), leafwright-<verb>(1), leafwright-<topic>(7).
std::string program_page(const std::vector<Topic>& topics);
std::string verb_page(const Verb& verb);
std::string topic_page(const Topic& topic);

// What a shell reads to complete commands, options and their values. Nothing for another shell.
std::optional<std::string> completions(std::string_view shell, const std::vector<Topic>& topics);

} // namespace leafwright::app
