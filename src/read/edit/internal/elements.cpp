#include "read/edit/elements.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::edit {

std::string escaped(std::string_view value, char quote) {
  std::string out;
  for (const char c : value) switch (c) {
    case '&': out += "&amp;"; break;
    case '<': out += "&lt;"; break;
    case '>': out += quote == '\0' ? "&gt;" : ">"; break; // "]]>" may not stand in words
    case '\r': out += "&#13;"; break;
    case '\n': out += quote == '\0' ? "\n" : "&#10;"; break;
    case '\t': out += quote == '\0' ? "\t" : "&#9;"; break;
    case '"':
    case '\'':
      if (c == quote)
        out += quote == '"' ? "&quot;" : "&apos;";
      else
        out += c;
      break;
    default: out += c;
    }
  return out;
}

std::vector<Edit> with_attribute(const ElementSpan& element, std::string_view name,
                                 std::string_view value) {
  if (const AttributeSpan* there = element.find(name))
    return {{there->value, there->length, escaped(value, there->quote)}};
  return {{element.attributes_end(), 0, fmt::format(" {}=\"{}\"", name, escaped(value, '"'))}};
}

std::vector<Edit> without_attribute(std::string_view text, const ElementSpan& element,
                                    std::string_view name) {
  const AttributeSpan* there = element.find(name);
  if (there == nullptr) return {};
  const std::size_t from = text.find_last_not_of(" \t\r\n", there->begin - 1) + 1;
  return {{from, there->end() - from, ""}};
}

namespace {

constexpr std::string_view blank_bytes = " \t\r\n";

struct Run {
  std::size_t from = 0, to = 0;
};

// Words of the element outside its children and outside comments, without the blanks around them.
std::vector<Run> word_runs(std::string_view text, const ElementSpan& element) {
  std::vector<Run> runs;
  const auto add = [&](std::size_t from, std::size_t to) {
    const std::size_t first = text.find_first_not_of(blank_bytes, from);
    if (first >= to) return;
    runs.push_back({first, text.find_last_not_of(blank_bytes, to - 1) + 1});
  };
  const auto gap = [&](std::size_t from, std::size_t to) {
    while (from < to) {
      const std::size_t comment = std::min(text.find("<!--", from), to);
      add(from, comment);
      if (comment == to) return;
      const std::size_t end = text.find("-->", comment);
      from = end == std::string_view::npos ? to : std::min(end + 3, to);
    }
  };
  std::size_t at = element.inner_begin;
  for (const ElementSpan& child : element.children) {
    gap(at, child.begin);
    at = child.end;
  }
  gap(at, element.inner_end);
  return runs;
}

std::string_view line_end_of(std::string_view text) {
  const std::size_t at = text.find('\n');
  return at != std::string_view::npos && at > 0 && text[at - 1] == '\r' ? "\r\n" : "\n";
}

// Line end and indentation in front of a place; empty when something else stands on its line.
std::string_view lead_of(std::string_view text, std::size_t at) {
  const std::size_t from = at == 0 ? 0 : text.find_last_not_of(" \t", at - 1) + 1;
  if (from == 0 || text[from - 1] != '\n') return {};
  const std::size_t line_end = from > 1 && text[from - 2] == '\r' ? from - 2 : from - 1;
  return text.substr(line_end, at - line_end);
}

} // namespace

std::string lead_for_child(std::string_view text, const ElementSpan& parent) {
  if (!parent.children.empty()) return std::string(lead_of(text, parent.children.back().begin));
  const std::string_view lead = lead_of(text, parent.begin);
  return (lead.empty() ? std::string(line_end_of(text)) : std::string(lead)) + "  ";
}

std::vector<Edit> with_words(std::string_view text, const ElementSpan& element,
                             std::string_view words) {
  const std::string bytes = escaped(words, '\0');
  if (element.empty_tag) {
    if (words.empty()) return {};
    return {{element.end - 2, 2, fmt::format(">{}</{}>", bytes, element.name)}};
  }
  const std::vector<Run> runs = word_runs(text, element);
  if (runs.empty()) return {{element.inner_begin, 0, bytes}};
  std::vector<Edit> edits;
  for (const Run& run : runs)
    edits.push_back({run.from, run.to - run.from, edits.empty() ? bytes : std::string()});
  return edits;
}

std::string written_element(std::string_view tag,
                            const std::vector<std::pair<std::string, std::string>>& attributes,
                            std::string_view words) {
  std::string out = fmt::format("<{}", tag);
  for (const auto& [name, value] : attributes)
    out += fmt::format(" {}=\"{}\"", name, escaped(value, '"'));
  if (words.empty()) return out + "/>";
  return out + fmt::format(">{}</{}>", escaped(words, '\0'), tag);
}

std::vector<Edit> with_child(std::string_view text, const ElementSpan& parent, std::size_t at,
                             std::string_view bytes) {
  const std::string lead = lead_for_child(text, parent);
  const std::string child = lead + std::string(bytes);
  if (parent.empty_tag) {
    std::string_view own = lead_of(text, parent.begin);
    if (own.empty()) own = line_end_of(text);
    return {{parent.end - 2, 2, fmt::format(">{}{}</{}>", child, own, parent.name)}};
  }
  // Behind the one before it, so that a comment in front of the next stays with that one.
  const std::size_t place = std::min(at, parent.children.size());
  if (place > 0) return {{parent.children[place - 1].end, 0, child}};
  if (!parent.children.empty() || word_runs(text, parent).empty()) {
    const bool bare = parent.inner_begin == parent.inner_end; // <x></x>
    return {{parent.inner_begin, 0, bare ? child + std::string(line_end_of(text)) : child}};
  }
  return {{word_runs(text, parent).back().to, 0, child}}; // words come first
}

std::vector<Edit> without_element(std::string_view text, const ElementSpan& element) {
  const std::size_t lead = lead_of(text, element.begin).size();
  // What follows on the same line keeps it.
  const std::size_t next = text.find_first_not_of(" \t", element.end);
  const bool alone = next == std::string_view::npos || text[next] == '\n' || text[next] == '\r';
  const std::size_t from = element.begin - (alone ? lead : 0);
  return {{from, element.end - from, ""}};
}

std::vector<Edit> moved_element(std::string_view text, const ElementSpan& element,
                                const ElementSpan& parent, std::size_t at) {
  std::vector<Edit> edits = without_element(text, element);
  const Edit gone = edits.front();
  std::vector<Edit> come =
      with_child(text, parent, at, text.substr(element.begin, element.end - element.begin));
  // Behind itself, or behind the one before it: it stays where it is.
  const std::size_t to = come.front().at;
  if (to >= gone.at && to <= gone.at + gone.length) return {};
  edits.insert(to < gone.at ? edits.begin() : edits.end(), std::move(come.front()));
  return edits;
}

} // namespace leafwright::edit
