#include "app/verbs/internal/help.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace leafwright::app {

namespace {

std::vector<std::string> names_of(const Option& option) {
  const std::size_t comma = option.names.find(',');
  if (comma == std::string_view::npos) return {std::string(option.names)};
  return {std::string(option.names.substr(0, comma)), std::string(option.names.substr(comma + 1))};
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : " ") + word;
  return all;
}

// What stands after `help`, or after --make.
std::vector<std::string> help_words(const std::vector<Topic>& topics) {
  std::vector<std::string> words;
  for (const Verb& verb : verbs()) words.emplace_back(verb.name);
  for (const Topic& topic : topics) words.push_back(topic.name);
  return words;
}

// The values that an option may have, when they are few.
std::string values_of(const Option& option) { return joined(choices_of(option)); }

// In single quotes of a shell.
std::string shell_quoted(std::string_view text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::string bash(const std::vector<Topic>& topics) {
  std::vector<std::string> names;
  for (const Verb& verb : verbs()) names.emplace_back(verb.name);
  std::string text = "# bash completion of leafwright: source it, or put it where bash looks.\n"
                     "_leafwright() {\n"
                     "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
                     "  local words=\n"
                     "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n";
  text += fmt::format("    words={}\n", shell_quoted(joined(names) + " --help --version"));
  text += "  else\n    case $before in\n";
  for (const Option& option : all_options)
    if (const std::string values = values_of(option); !values.empty())
      text += fmt::format("    {}) words={} ;;\n", fmt::join(names_of(option), "|"),
                          shell_quoted(values));
  text += "    *)\n      case ${COMP_WORDS[1]} in\n";
  for (const Verb& verb : verbs()) {
    std::vector<std::string> own;
    for (const Option& option : options_of(verb))
      for (const std::string& name : names_of(option)) own.push_back(name);
    if (verb.name == "help")
      for (const std::string& word : help_words(topics)) own.push_back(word);
    own.emplace_back("--help");
    text += fmt::format("      {}) words={} ;;\n", verb.name, shell_quoted(joined(own)));
  }
  text += "      esac ;;\n    esac\n  fi\n"
          "  mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
          "  if [ ${#COMPREPLY[@]} -eq 0 ]; then\n"
          "    mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n"
          "  fi\n"
          "}\ncomplete -o filenames -F _leafwright leafwright\n";
  return text;
}

// An option as _arguments of zsh takes it: '--paper[help]:letter|a4:(letter a4)'.
std::string zsh_option(const Option& option) {
  const auto plain = [](std::string_view text) {
    std::string out;
    for (const char c : text) {
      if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
      out += c;
    }
    return out;
  };
  std::string lines;
  for (const std::string& name : names_of(option)) {
    std::string spec = fmt::format("*{}[{}]", name, plain(option.help));
    const std::string values = values_of(option);
    if (!option.placeholder.empty())
      spec += fmt::format(":{}:{}", plain(option.placeholder),
                          values.empty() ? "_files" : "(" + values + ")");
    lines += fmt::format("        {} \\\n", shell_quoted(spec));
  }
  return lines;
}

std::string zsh(const std::vector<Topic>& topics) {
  std::string text = "#compdef leafwright\n"
                     "_leafwright() {\n  local -a verbs\n  verbs=(\n";
  for (const Verb& verb : verbs()) {
    std::string purpose(verb.purpose);
    std::ranges::replace(purpose, ':', ',');
    text += fmt::format("    {}\n", shell_quoted(fmt::format("{}:{}", verb.name, purpose)));
  }
  text += "  )\n  if (( CURRENT == 2 )); then\n    _describe command verbs\n    return\n  fi\n"
          "  local verb=$words[2]\n  shift words\n  (( CURRENT-- ))\n  case $verb in\n";
  for (const Verb& verb : verbs()) {
    text += fmt::format("    {})\n      _arguments \\\n", verb.name);
    for (const Option& option : options_of(verb)) text += zsh_option(option);
    text += verb.name == "help"
                ? fmt::format("        {} ;;\n",
                              shell_quoted(fmt::format("*:name:({})", joined(help_words(topics)))))
                : std::string("        '*:file:_files' ;;\n");
  }
  return text + "  esac\n}\n_leafwright \"$@\"\n";
}

std::string fish(const std::vector<Topic>& topics) {
  // In single quotes of fish a backslash escapes, too.
  const auto in_quotes = [](std::string_view text) {
    std::string out = "'";
    for (const char c : text) {
      if (c == '\'' || c == '\\') out += '\\';
      out += c;
    }
    return out + "'";
  };
  std::string text = "# fish completion of leafwright\n";
  for (const Verb& verb : verbs()) {
    text += fmt::format("complete -c leafwright -n __fish_use_subcommand -a {} -d {}\n", verb.name,
                        in_quotes(verb.purpose));
    for (const Option& option : options_of(verb)) {
      text += fmt::format("complete -c leafwright -n '__fish_seen_subcommand_from {}'", verb.name);
      for (const std::string& name : names_of(option))
        text += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
      if (!option.placeholder.empty()) text += " -r";
      if (const std::string values = values_of(option); !values.empty())
        text += fmt::format(" -f -a {}", in_quotes(values));
      text += fmt::format(" -d {}\n", in_quotes(option.help));
    }
  }
  text += fmt::format("complete -c leafwright -f -n '__fish_seen_subcommand_from help' -a {}\n",
                      in_quotes(joined(help_words(topics))));
  return text;
}

} // namespace

std::optional<std::string> completions(std::string_view shell, const std::vector<Topic>& topics) {
  if (shell == "bash") return bash(topics);
  if (shell == "zsh") return zsh(topics);
  if (shell == "fish") return fish(topics);
  return std::nullopt;
}

} // namespace leafwright::app
