#include "app/verbs/internal/help.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::app {

namespace {

// Text as roff reads it back: no escapes, hyphens that can be copied, no line taken for a request.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if ((c == '.' || c == '\'') && (out.empty() || out.back() == '\n'))
      out += std::string("\\&") + c;
    else
      out += c;
  }
  return out;
}

// Inside a line: `code` and **strong** become bold.
std::string roff_inline(std::string_view text) {
  std::string out;
  bool bold = false;
  while (!text.empty()) {
    const std::size_t code = text.find('`'), strong = text.find("**");
    const std::size_t at = std::min(code, strong);
    if (at == std::string_view::npos) {
      out += roff(text);
      break;
    }
    out += roff(text.substr(0, at));
    bold = !bold;
    out += bold ? "\\fB" : "\\fR";
    text.remove_prefix(at + (at == code ? 1U : 2U));
  }
  return out;
}

std::string upper(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return out;
}

std::string heading(std::string_view name, int section) {
  return fmt::format(".TH \"{}\" {} \"\" \"leafwright {}\" \"Leafwright\"\n", upper(name), section,
                     LEAFWRIGHT_VERSION);
}

std::string exit_status() {
  std::string page = ".SH EXIT STATUS\n";
  for (const ExitCodeMeaning& one : exit_codes())
    page += fmt::format(".TP\n.B {}\n{}\n", one.code, roff(one.meaning));
  return page;
}

// Markdown to roff, a line at a time.
class TopicPage {
 public:
  std::string convert(std::string_view text) {
    while (!text.empty()) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      line(text.substr(0, end));
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    close_code();
    return std::move(page_);
  }

 private:
  void line(std::string_view text) {
    if (text.empty()) {
      blank_ = true;
    } else if (text.starts_with("    ")) {
      code(text.substr(4));
    } else {
      close_code();
      if (text.starts_with("## "))
        heading(text.substr(3));
      else if (!text.starts_with("# ")) // the title stands under NAME
        words(text);
      blank_ = false;
    }
  }
  void heading(std::string_view text) {
    page_ += fmt::format(".SH {}\n", roff(upper(text)));
    fresh_ = true;
  }
  void words(std::string_view text) {
    if (text.starts_with("- ")) {
      page_ += ".IP \\(bu 2\n";
      text.remove_prefix(2);
    } else if (text.starts_with("  ")) {
      text.remove_prefix(2); // the item goes on
    } else if (blank_ && !fresh_) {
      page_ += ".PP\n";
    }
    page_ += roff_inline(text) + '\n';
    fresh_ = false;
  }
  void code(std::string_view text) {
    if (!in_code_)
      page_ += fresh_ ? ".in +4n\n.EX\n" : ".PP\n.in +4n\n.EX\n";
    else if (blank_)
      page_ += "\\&\n";
    in_code_ = true;
    fresh_ = blank_ = false;
    page_ += roff(text) + '\n';
  }
  void close_code() {
    if (in_code_) page_ += ".EE\n.in\n";
    in_code_ = false;
  }

  std::string page_;
  bool fresh_ = true; // nothing stands under the heading yet: a mark of a paragraph would be empty
  bool in_code_ = false, blank_ = false;
};

std::string examples(const Verb& verb) {
  std::string page = ".SH EXAMPLES\n.EX\n";
  for (const std::string& example : examples_of(verb)) page += roff(example) + '\n';
  return page + ".EE\n";
}

} // namespace

std::string verb_page(const Verb& verb) {
  const std::string name = fmt::format("leafwright-{}", verb.name);
  std::string page = heading(name, 1);
  page += fmt::format(".SH NAME\n{} \\- {}\n", roff(name), roff(verb.purpose));
  page += fmt::format(".SH SYNOPSIS\n.B {}\n", roff(usage_of(verb)));
  page += fmt::format(".SH OPTIONS\n.TP\n.I {}\n{}\n", roff(verb.operand.words),
                      roff(verb.operand.help));
  std::vector<Option> own = options_of(verb);
  std::ranges::stable_sort(own, {}, &Option::subject);
  std::optional<Subject> subject;
  for (const Option& option : own) {
    if (subject != option.subject)
      page += fmt::format(".SS {}\n", roff(subject_title(option.subject)));
    subject = option.subject;
    std::string names = roff(option.names);
    if (const std::size_t comma = names.find(','); comma != std::string::npos)
      names.replace(comma, 1, "\\fR, \\fB");
    page += fmt::format(".TP\n\\fB{}\\fR", names);
    if (!option.placeholder.empty()) page += fmt::format(" \\fI{}\\fR", roff(option.placeholder));
    page += '\n' + roff(option.help) + '\n';
  }
  return page + examples(verb) + exit_status() + ".SH SEE ALSO\n.BR leafwright (1)\n";
}

std::string program_page(const std::vector<Topic>& topics) {
  std::string page = heading("leafwright", 1);
  page += ".SH NAME\nleafwright \\- makes the papers for a set of handmade cards\n"
          ".SH SYNOPSIS\n.B leafwright\n.I COMMAND\n.RI [ OPTIONS ] \" ...\"\n.SH DESCRIPTION\n"
          "Leafwright reads one XML project that describes a set of layered cards and makes "
          "everything\nneeded to teach, sell, cut and pack it.\n.SH COMMANDS\n";
  std::string_view group;
  for (const Verb& verb : verbs()) {
    if (group != verb.group) page += fmt::format(".SS {}\n", roff(verb.group));
    group = verb.group;
    page += fmt::format(".TP\n\\fB{}\\fR \\fI{}\\fR\n{}\n", roff(verb.name),
                        roff(verb.operand.words), roff(verb.purpose));
  }
  page += exit_status();
  page += ".SH ENVIRONMENT\n.TP\n.B LEAFWRIGHT_DATA\nthe folder that holds fonts and templates\n"
          ".TP\n.B SOURCE_DATE_EPOCH\nthe time that documents carry, in seconds since 1970\n"
          ".TP\n.B NO_COLOR\nmessages are not colored when it is set\n";
  page += ".SH SEE ALSO\n";
  std::string also;
  for (const Topic& topic : topics)
    also += fmt::format("{}.BR leafwright\\-{} (7)", also.empty() ? "" : ",\n", roff(topic.name));
  return page + (also.empty() ? ".BR leafwright\\-help (1)" : also) + "\n";
}

std::string topic_page(const Topic& topic) {
  const std::string name = "leafwright-" + topic.name;
  std::string page = heading(name, 7);
  page += fmt::format(".SH NAME\n{} \\- {}\n.SH DESCRIPTION\n", roff(name), roff(title_of(topic)));
  return page + TopicPage().convert(topic.text) + ".SH SEE ALSO\n.BR leafwright (1)\n";
}

} // namespace leafwright::app
