#include "guide/announcing/internal/text_template.h"

#include "language/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <vector>

namespace leafwright::guide {
namespace {

Finding wrong(const TextTemplate& in, int line, const std::string& what, std::string expected,
              std::string fix) {
  Finding finding;
  finding.code = "announcing-template";
  finding.found = fmt::format("line {} of {} {}", line, in.name, what);
  finding.expected = std::move(expected);
  finding.fix = std::move(fix);
  return finding;
}

std::string all_fields() {
  std::vector<std::string> names;
  for (const AnnouncingField& one : announcing_fields())
    names.push_back("{" + std::string(one.name) + "}");
  return words::listed(names, "or");
}

Finding unknown_field(const TextTemplate& in, int line, std::string_view name) {
  return wrong(in, line, fmt::format("names a field {{{}}}, and there is none", name), all_fields(),
               "write one of these, or {{ for a brace");
}

std::optional<int> whole_number(std::string_view text) {
  int number = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (failed != std::errc() || end != text.data() + text.size() || text.empty())
    return std::nullopt;
  return number;
}

// What follows a word and a blank between braces that are the whole line.
std::optional<std::string_view> order_in(std::string_view line, std::string_view word) {
  const std::string begin = "{" + std::string(word) + " ";
  if (!line.starts_with(begin) || !line.ends_with('}')) return std::nullopt;
  return line.substr(begin.size(), line.size() - begin.size() - 1);
}

class Filling {
 public:
  Filling(const TextTemplate& from, const FieldValue& value_of)
      : from_(from), value_of_(value_of) {}

  FilledText take() {
    std::string_view rest = from_.text;
    while (!rest.empty()) {
      const std::size_t end = std::min(rest.find('\n'), rest.size());
      std::string_view line = rest.substr(0, end);
      rest.remove_prefix(std::min(end + 1, rest.size()));
      if (line.ends_with('\r')) line.remove_suffix(1);
      ++line_;
      take_line(line);
    }
    // What was left out may leave several empty lines, or some at an end.
    while (made_.text.ends_with("\n\n")) made_.text.pop_back();
    return std::move(made_);
  }

 private:
  void take_line(std::string_view line) {
    if (const auto days = order_in(line, "send")) {
      made_.send_offset = whole_number(*days);
      if (!made_.send_offset)
        made_.findings.push_back(wrong(from_, line_, "does not say when to send",
                                       "a whole number of days", "write {send -3}"));
      return;
    }
    if (const auto field = order_in(line, "only-with")) {
      const std::optional<std::string> value = value_of_(*field);
      if (!value) made_.findings.push_back(unknown_field(from_, line_, *field));
      made_.wanted = made_.wanted && value && !value->empty();
      return;
    }
    if (std::optional<std::string> whole = with_fields(line)) {
      if (whole->empty() && (made_.text.empty() || made_.text.ends_with("\n\n"))) return;
      made_.text += *whole + "\n";
    }
  }

  // Nothing when a field in it has nothing to say.
  std::optional<std::string> with_fields(std::string_view line) {
    std::string out;
    bool silent = false;
    while (!line.empty()) {
      const std::size_t brace = std::min(line.find('{'), line.size());
      out += line.substr(0, brace);
      line.remove_prefix(brace);
      if (line.empty()) break;
      if (line.starts_with("{{")) {
        out += '{';
        line.remove_prefix(2);
        continue;
      }
      const std::size_t end = line.find('}');
      if (end == std::string_view::npos) {
        made_.findings.push_back(wrong(from_, line_, "has a { that nothing closes", "{title}",
                                       "close it with }, or write {{ for a brace"));
        return std::nullopt;
      }
      const std::string_view name = line.substr(1, end - 1);
      const std::optional<std::string> value = value_of_(name);
      if (!value) made_.findings.push_back(unknown_field(from_, line_, name));
      silent = silent || !value || value->empty();
      out += value.value_or("");
      line.remove_prefix(end + 1);
    }
    return silent ? std::nullopt : std::optional(out);
  }

  const TextTemplate& from_;
  const FieldValue& value_of_;
  int line_ = 0;
  FilledText made_;
};

} // namespace

FilledText filled(const TextTemplate& from, const FieldValue& value_of) {
  return Filling(from, value_of).take();
}

std::optional<int> room_of(std::string_view template_name) {
  const std::string_view stem = template_name.substr(0, template_name.rfind('.'));
  const std::size_t dash = stem.rfind('-');
  if (dash == std::string_view::npos) return std::nullopt;
  return whole_number(stem.substr(dash + 1));
}

} // namespace leafwright::guide
