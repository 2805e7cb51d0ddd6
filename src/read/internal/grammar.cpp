#include "model/work.h"
#include "read/document.h"
#include "read/internal/choices.h"
#include "read/internal/grammar_pattern.h"
#include "read/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

// The vocabulary as a grammar. It checks structure, names and fixed words; what a measure says,
// whether a name exists and whether things fit is checked when the project is read.

namespace leafwright::reading {
namespace {

using grammar::Pattern;
using Kind = Pattern::Kind;
using Words = std::vector<std::string_view>;

Pattern leaf(Kind kind, std::string_view name = {}) {
  return {kind, std::string(name), {}, {}, '!'};
}
Pattern of(Kind kind, std::vector<Pattern> inside, std::string name = {}) {
  if (inside.empty()) return leaf(Kind::Empty);
  const bool needless =
      inside.size() == 1 && (kind == Kind::Group || kind == Kind::Choice || kind == Kind::Mixed);
  if (needless) return std::move(inside.front());
  return {kind, std::move(name), {}, std::move(inside), '!'};
}
Pattern times(Pattern pattern, char count) {
  pattern.count = count;
  return pattern;
}
Pattern values(const Words& words) {
  std::vector<Pattern> all;
  for (const std::string_view word : words) all.push_back(leaf(Kind::Value, word));
  return of(Kind::Choice, std::move(all));
}
Pattern data(std::string type, std::vector<std::pair<std::string, std::string>> params = {}) {
  return {Kind::Data, std::move(type), std::move(params), {}, '!'};
}
Pattern works(bool of_tools) {
  Words words;
  for (const WorkRow& row : work_rows())
    if (of_tools ? row.of_tools : row.of_steps) words.push_back(row.word);
  return of(Kind::List, {times(values(words), '+')});
}

// A free outline has a pattern of its own, since it needs a grid and a path.
Words drawn_outlines() {
  Words words = parted(words_in<outline_words>, '|');
  std::erase(words, "free");
  return words;
}

struct Define {
  std::string name;
  Pattern pattern;
};

// Kinds of values; what is more than a pattern can say is some text.
std::vector<Define> types() {
  const Pattern some = data("string", {{"minLength", "1"}});
  std::vector<Define> all{
      {"name-of-thing", data("NCName")},
      {"names-of-things", of(Kind::List, {times(data("NCName"), '+')})},
      {"scoped-name", data("string", {{"pattern", "[^/\\s]+(/[^/\\s]+)?"}})},
      {"any-words", leaf(Kind::Text)},
      {"money", data("string", {{"pattern", "\\s*[0-9]+(\\.[0-9]+)?\\s*"}})},
      {"currency", data("string", {{"pattern", "\\s*[A-Za-z]{3}\\s*"}})},
      {"colour", data("string", {{"pattern", "\\s*#[0-9A-Fa-f]{6}\\s*"}})},
      {"language", data("language")},
      {"count", data("positiveInteger")},
      {"number", data("nonNegativeInteger")},
      {"seconds", data("nonNegativeInteger", {{"maxInclusive", "36000"}})},
      {"share-of-one", data("decimal", {{"minInclusive", "0"}, {"maxInclusive", "1"}})},
      {"yes-no", values(parted(words_in<yes_no_words>, '|'))},
      {"cut-by", values(parted(words_in<cut_words>, '|'))},
      {"outline-word", values(drawn_outlines())},
      {"work-of-tools", works(true)},
      {"work-of-steps", works(false)},
      {"ready-parts", of(Kind::List, {times(values({"die-cut", "stamped"}), '+')})},
  };
  for (const char* name : {"words", "measure", "sides", "position", "points", "angle", "amount",
                           "step", "grid", "grid-measure", "grid-points", "path-data", "file-name"})
    all.push_back({name, some});
  return all;
}

Pattern value_of(std::string_view type) {
  static const std::vector<Define> known = types();
  std::vector<Pattern> all;
  for (const std::string_view word : parted(type, '|')) {
    const bool is_type = std::ranges::find(known, word, &Define::name) != known.end();
    all.push_back(leaf(is_type ? Kind::Ref : Kind::Value, word));
  }
  return of(Kind::Choice, std::move(all));
}

std::string define_of(std::string_view name, std::string_view key) {
  std::string out(key == name || key.find('/') != std::string_view::npos
                      ? std::string(key)
                      : fmt::format("{}-{}", name, key));
  std::ranges::replace(out, '/', '-');
  return out + "-element";
}

class ElementWriter {
 public:
  explicit ElementWriter(const ElementRule& rule) : rule_(rule), attributes_(attributes_of(rule)) {}

  Pattern run(std::string_view name) {
    std::vector<Pattern> parts;
    std::string pattern(rule_.pattern);
    if (pattern.empty() && !rule_.either.empty())
      for (const std::string_view group : parted(rule_.either, ' '))
        pattern += (pattern.empty() ? "" : " ") + any_of(group) + "|";
    if (rule_.groups.find("outline") != std::string_view::npos)
      pattern += std::string(pattern.empty() ? "" : " ") + "shape=free,grid,outline|shape|";
    if (!pattern.empty())
      for (const std::string_view group : parted(pattern, ' ')) parts.push_back(choice(group));
    std::vector<Pattern> all;
    for (const Attribute& one : attributes_)
      if (std::ranges::find(said_, one.name) == said_.end())
        all.push_back(times(attribute(one, one.type), one.required ? '!' : '?'));
    std::ranges::move(parts, std::back_inserter(all));
    std::vector<Pattern> body;
    if (rule_.prose) body.push_back(leaf(Kind::Text));
    for (const ChildRule& child : children_of(rule_))
      if (std::ranges::find(said_, fmt::format("<{}", child.name)) == said_.end())
        body.push_back(times(leaf(Kind::Ref, define_of(child.name, child.key)), child.count));
    if (!body.empty()) all.push_back(of(Kind::Mixed, std::move(body)));
    if (all.empty()) all.push_back(leaf(Kind::Empty));
    return {Kind::Element, std::string(name), {}, std::move(all), '!'};
  }

 private:
  static Pattern attribute(const Attribute& one, std::string_view type) {
    return {Kind::Attribute, std::string(one.name), {}, {value_of(type)}, '!'};
  }

  // Of "width,height" each may stand alone.
  static std::string any_of(std::string_view group) {
    std::string out;
    for (const std::string_view member : parted(group, '|')) {
      const Words names = parted(member, ',');
      out +=
          fmt::format("{}{}{}", out.empty() ? "" : "|", names.front(), names.size() > 1 ? "?" : "");
      for (std::size_t i = 1; i < names.size(); ++i) out += fmt::format(",{}?", names[i]);
    }
    return out;
  }

  // "size|inset|width,height": an empty member, or one that may be missing, is the whole's.
  Pattern choice(std::string_view group) {
    std::vector<Pattern> members;
    bool optional = false;
    for (const std::string_view member : parted(group, '|')) {
      if (member.empty()) {
        optional = true;
        continue;
      }
      std::vector<Pattern> items;
      const Words names = parted(member, ',');
      for (const std::string_view name : names) items.push_back(item(name));
      members.push_back(of(Kind::Group, std::move(items)));
    }
    Pattern all = of(Kind::Choice, std::move(members));
    return optional ? times(of(Kind::Choice, {std::move(all)}), '?') : all;
  }

  Pattern item(std::string_view name) {
    if (name.front() == '<') {
      const char count = name.back();
      name = name.substr(1, name.find('>') - 1);
      said_.push_back(fmt::format("<{}", name));
      return times(leaf(Kind::Ref, define_of(name, name)), count);
    }
    const bool optional = name.back() == '?';
    if (optional) name.remove_suffix(1);
    const Words sides = parted(name, '=');
    said_.emplace_back(sides.front());
    const auto found = std::ranges::find(attributes_, sides.front(), &Attribute::name);
    if (found == attributes_.end()) return leaf(Kind::Empty);
    Pattern one = attribute(*found, found->type);
    if (sides.size() > 1) one.inside = {values(parted(sides.back(), '/'))};
    return times(std::move(one), optional ? '?' : '!');
  }

  const ElementRule& rule_;
  std::vector<Attribute> attributes_;
  std::vector<std::string> said_;
};

std::vector<Define> defines() {
  std::vector<Define> all = types();
  std::vector<ChildRule> elements{{"project", "project", '!'}};
  for (std::size_t i = 0; i < elements.size(); ++i) {
    const ChildRule element = elements[i];
    const ElementRule* rule = rule_for(element.key);
    if (rule == nullptr) continue;
    all.push_back({define_of(element.name, element.key), ElementWriter(*rule).run(element.name)});
    for (const ChildRule& child : children_of(*rule)) {
      const auto same = [&](const ChildRule& one) {
        return define_of(one.name, one.key) == define_of(child.name, child.key);
      };
      if (std::ranges::none_of(elements, same)) elements.push_back(child);
    }
  }
  return all;
}

constexpr std::string_view made =
    "The project file of Leafwright, version 1, in RELAX NG (ISO/IEC 19757-2), written by the\n"
    "program from its own table of elements and attributes. REFERENCE.md beside this file "
    "explains\n"
    "them. The grammar checks structure, names and fixed words; the rest is checked by reading.";

} // namespace

std::string grammar_xml() {
  std::string out = fmt::format(R"(<?xml version="1.0" encoding="UTF-8"?>
<!-- {}
-->
<grammar ns="{}" xmlns="http://relaxng.org/ns/structure/1.0"
         datatypeLibrary="http://www.w3.org/2001/XMLSchema-datatypes">
  <start>
    <ref name="project-element"/>
  </start>
)",
                                made, project_namespace);
  for (const Define& one : defines()) {
    out += fmt::format("  <define name=\"{}\">\n", one.name);
    grammar::write_xml(out, one.pattern, 2);
    out += "  </define>\n";
  }
  return out + "</grammar>\n";
}

std::string grammar_compact() {
  std::string out = "# " + std::string(made);
  for (std::size_t at = out.find('\n'); at != std::string::npos; at = out.find('\n', at + 1))
    out.insert(at + 1, "# ");
  out += fmt::format("\n\ndefault namespace = \"{}\"\n"
                     "datatypes xsd = \"http://www.w3.org/2001/XMLSchema-datatypes\"\n\n"
                     "start = project-element\n\n",
                     project_namespace);
  for (const Define& one : defines())
    out += fmt::format("{} =\n  {}\n", one.name, grammar::compact(one.pattern));
  return out;
}

} // namespace leafwright::reading
