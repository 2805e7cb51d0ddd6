#include "app/system/diagnostics.h"
#include "app/system/operating_system.h"
#include "app/verbs/internal/help.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <ostream>

namespace leafwright::app {

namespace {

constexpr std::size_t widest = 100, names_width = 30;
constexpr std::string_view introduction =
    "Leafwright reads one XML project that describes a set of layered cards and makes everything\n"
    "needed to teach, sell, cut and pack it.\n";

// `text` in lines of at most `widest` columns, all but the first indented.
std::string wrapped(std::string_view text, std::size_t indent) {
  std::string out, line;
  const std::size_t room = widest - indent;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (!line.empty() && line.size() + 1 + word.size() > room) {
      out += line + '\n' + std::string(indent, ' ');
      line.clear();
    }
    line += (line.empty() ? "" : " ") + std::string(word);
  }
  return out + line;
}

std::string row(std::string_view name, std::string_view meaning, std::size_t width) {
  const std::size_t column = width + 4;
  if (name.size() > width)
    return fmt::format("  {}\n{:{}}{}\n", name, "", column, wrapped(meaning, column));
  return fmt::format("  {:{}}  {}\n", name, width, wrapped(meaning, column));
}

// "-o, --out FOLDER"
std::string shown_names(const Option& option) {
  std::string names;
  for (const char c : option.names) names += c == ',' ? std::string(", ") : std::string(1, c);
  return option.placeholder.empty() ? names : fmt::format("{} {}", names, option.placeholder);
}

std::string exit_code_lines() {
  std::string text = "\nExit codes\n";
  for (const ExitCodeMeaning& one : exit_codes())
    text += fmt::format("  {}  {}\n", one.code, one.meaning);
  return text;
}

} // namespace

std::string subject_title(Subject subject) {
  switch (subject) {
  case Subject::Output: return "Files and pages";
  case Subject::Values: return "Values";
  case Subject::Readers: return "Who it is for";
  case Subject::Folding: return "Folding";
  case Subject::Copying: return "Copies and locks";
  case Subject::Pictures: return "Pictures";
  case Subject::Changes: return "What's already cut";
  case Subject::Remeasuring: return "The other units";
  case Subject::Repeating: return "Repeating";
  case Subject::Lists: return "Lists and trimmer";
  case Subject::Help: return "Forms of help";
  case Subject::Messages: return "Messages and time";
  }
  return {};
}

std::vector<std::string> choices_of(const Option& option) {
  std::vector<std::string> choices;
  std::string_view rest = option.placeholder;
  if (rest.find('|') == std::string_view::npos || rest.ends_with("...")) return choices;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find('|'), rest.size());
    choices.emplace_back(rest.substr(0, end));
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return choices;
}

std::string usage_of(const Verb& verb) {
  const std::string_view words = verb.operand.words;
  if (verb.operand.least == 0) return fmt::format("leafwright {} [OPTIONS] [{}]", verb.name, words);
  return fmt::format("leafwright {} [OPTIONS] {}", verb.name, words);
}

std::vector<std::string> examples_of(const Verb& verb) {
  return {fmt::format("leafwright {} {}", verb.name, verb.example),
          fmt::format("leafwright {} {}", verb.name, verb.other_example)};
}

std::vector<ExitCodeMeaning> exit_codes() {
  return {{Done, "done"},
          {FoundErrors, "the project has errors, or warnings with --strict"},
          {WrongUse, "the command line was not understood"},
          {NotWritten, "a file could not be read or written"}};
}

std::string verb_help(const Verb& verb) {
  std::string text =
      fmt::format("{}: {}\n\nUsage: {}\n\n", verb.name, verb.purpose, usage_of(verb));
  text += row(verb.operand.words, verb.operand.help, names_width);
  std::vector<Option> own = options_of(verb);
  std::ranges::stable_sort(own, {}, &Option::subject);
  std::optional<Subject> subject;
  for (const Option& option : own) {
    if (subject != option.subject) text += fmt::format("\n{}\n", subject_title(option.subject));
    subject = option.subject;
    text += row(shown_names(option), option.help, names_width);
  }
  text += "\nExamples\n";
  for (const std::string& example : examples_of(verb)) text += fmt::format("  {}\n", example);
  return text + exit_code_lines();
}

std::string program_help(const std::vector<Topic>& topics) {
  std::string text = std::string(introduction) + "\nUsage: leafwright COMMAND [OPTIONS] ...\n";
  std::string_view group;
  for (const Verb& verb : verbs()) {
    if (group != verb.group) text += fmt::format("\n{}\n", verb.group);
    group = verb.group;
    text += row(verb.name, verb.purpose, 13);
  }
  if (!topics.empty()) text += "\nTopics (leafwright help TOPIC)\n";
  for (const Topic& topic : topics) text += row(topic.name, title_of(topic), 13);
  text += "\nMore: leafwright COMMAND --help; leafwright --version.\n";
  return text + exit_code_lines();
}

std::string command_table() {
  std::string text = "| command | what it does |\n|---|---|\n";
  for (const Verb& verb : verbs()) {
    std::string words(verb.operand.words);
    for (std::size_t at = 0; (at = words.find('|', at)) != std::string::npos; at += 2)
      words.insert(at, 1, '\\'); // or it would part the cells
    text += fmt::format("| `leafwright {} {}` | {} |\n", verb.name, words, verb.purpose);
  }
  return text;
}

std::vector<Topic> help_topics(const std::string& data_folder) {
  std::vector<Topic> topics;
  constexpr std::size_t most_bytes = 1'000'000;
  std::error_code failed;
  for (const auto& entry :
       std::filesystem::directory_iterator(data_folder + "/templates/help", failed)) {
    if (entry.path().extension() != ".md") continue;
    FileBytes bytes = disk_access().read(entry.path().string(), most_bytes);
    if (auto* text = std::get_if<std::string>(&bytes))
      topics.push_back({entry.path().stem().string(), std::move(*text)});
  }
  std::ranges::sort(topics, {}, &Topic::name);
  return topics;
}

std::string title_of(const Topic& topic) {
  const std::string first = topic.text.substr(0, topic.text.find('\n'));
  return first.starts_with("# ") ? first.substr(2) : first;
}

int run_help(const Arguments& arguments, Environment& environment) {
  const auto data = find_data_folder(environment.data);
  const std::vector<Topic> topics = data ? help_topics(*data) : std::vector<Topic>();
  const HelpArguments& form = arguments.help;
  if (!form.completions.empty()) {
    environment.out << completions(form.completions, topics).value();
    return Done;
  }
  if (form.table) {
    environment.out << command_table();
    return Done;
  }
  if (arguments.inputs.empty()) {
    environment.out << (form.man ? program_page(topics) : program_help(topics));
    return Done;
  }
  const std::string& name = arguments.inputs.front();
  if (const std::optional<Verb> verb = find_verb(name)) {
    environment.out << (form.man ? verb_page(*verb) : verb_help(*verb));
    return Done;
  }
  const auto topic = std::ranges::find(topics, name, &Topic::name);
  if (topic == topics.end()) {
    report(fmt::format(
               "help: there is no command and no topic called {}; leafwright help lists all", name),
           environment);
    return WrongUse;
  }
  environment.out << (form.man ? topic_page(*topic) : topic->text);
  return Done;
}

} // namespace leafwright::app
