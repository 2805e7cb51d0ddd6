#include "read/internal/grammar_pattern.h"

#include "read/vocabulary.h"

#include <fmt/format.h>

#include <initializer_list>
#include <string_view>

namespace leafwright::reading::grammar {

namespace {

using Kind = Pattern::Kind;

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else
      out += c;
  }
  return out;
}

std::string literal(std::string_view text) { return fmt::format("\"{}\"", text); }

std::string joined(const std::vector<Pattern>& all, std::string_view joint) {
  std::string out;
  for (const Pattern& inner : all) out += (out.empty() ? "" : std::string(joint)) + compact(inner);
  return out;
}

std::string name_class(const std::string& name) {
  const std::string_view other = other_spelling(name);
  return other.empty() ? name : fmt::format("({} | {})", name, other);
}

std::string compact_once(const Pattern& one) {
  switch (one.kind) {
  case Kind::Text: return "text";
  case Kind::Empty: return "empty";
  case Kind::Ref: return one.name;
  case Kind::Value: return literal(one.name);
  case Kind::Data: {
    std::string out = "xsd:" + one.name;
    if (one.params.empty()) return out;
    out += " {";
    for (const auto& [name, value] : one.params)
      out += fmt::format(" {} = {}", name, literal(value));
    return out + " }";
  }
  case Kind::List: return "list { " + joined(one.inside, ", ") + " }";
  case Kind::Attribute:
    return fmt::format("attribute {} {{ {} }}", name_class(one.name), joined(one.inside, ", "));
  case Kind::Element:
    return fmt::format("element {} {{\n    {}\n  }}", name_class(one.name),
                       joined(one.inside, ",\n    "));
  case Kind::Group: return "(" + joined(one.inside, ", ") + ")";
  case Kind::Choice: return "(" + joined(one.inside, " | ") + ")";
  case Kind::Mixed: return "(" + joined(one.inside, " & ") + ")";
  }
  return {};
}

} // namespace

void write_xml(std::string& out, const Pattern& one, std::size_t depth) {
  const std::string margin(2 * depth, ' ');
  if (one.count != '!') {
    const std::string_view tag = one.count == '?'   ? "optional"
                                 : one.count == '+' ? "oneOrMore"
                                                    : "zeroOrMore";
    out += fmt::format("{}<{}>\n", margin, tag);
    Pattern once = one;
    once.count = '!';
    write_xml(out, once, depth + 1);
    out += fmt::format("{}</{}>\n", margin, tag);
    return;
  }
  const auto around = [&](std::string_view tag, std::string_view name) {
    const std::string_view other = other_spelling(name);
    out += fmt::format("{}<{}{}>\n", margin, tag,
                       name.empty() || !other.empty() ? "" : fmt::format(" name=\"{}\"", name));
    if (!other.empty()) {
      // Attributes stand in no namespace; a name of its own would take the grammar's.
      const std::string_view space = one.kind == Kind::Attribute ? " ns=\"\"" : "";
      out += fmt::format("{}  <choice>\n", margin);
      for (const std::string_view each : {name, other})
        out += fmt::format("{}    <name{}>{}</name>\n", margin, space, each);
      out += fmt::format("{}  </choice>\n", margin);
    }
    for (const Pattern& inner : one.inside) write_xml(out, inner, depth + 1);
    out += fmt::format("{}</{}>\n", margin, tag);
  };
  switch (one.kind) {
  case Kind::Text: out += margin + "<text/>\n"; return;
  case Kind::Empty: out += margin + "<empty/>\n"; return;
  case Kind::Ref: out += fmt::format("{}<ref name=\"{}\"/>\n", margin, one.name); return;
  case Kind::Value: out += fmt::format("{}<value>{}</value>\n", margin, escaped(one.name)); return;
  case Kind::Data:
    out += fmt::format("{}<data type=\"{}\">\n", margin, one.name);
    for (const auto& [name, value] : one.params)
      out += fmt::format("{}  <param name=\"{}\">{}</param>\n", margin, name, escaped(value));
    out += margin + "</data>\n";
    return;
  case Kind::List: return around("list", {});
  case Kind::Attribute: return around("attribute", one.name);
  case Kind::Element: return around("element", one.name);
  case Kind::Group: return around("group", {});
  case Kind::Choice: return around("choice", {});
  case Kind::Mixed: return around("interleave", {});
  }
}

std::string compact(const Pattern& one) {
  return compact_once(one) + (one.count == '!' ? std::string{} : std::string(1, one.count));
}

} // namespace leafwright::reading::grammar
