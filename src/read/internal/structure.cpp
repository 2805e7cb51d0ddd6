#include "read/document.h"

#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "read/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::reading {
namespace {

struct CompiledRule {
  const ElementRule* rule = nullptr;
  std::vector<Attribute> attributes;
  std::vector<ChildRule> children;
  std::vector<std::size_t> rules; // of the children, as indices into the compiled ones
  std::vector<std::string_view> attribute_names, child_names;
};

std::size_t index_of(std::string_view key) {
  const auto rules = element_rules();
  const auto found = std::find_if(rules.begin(), rules.end(),
                                  [&](const ElementRule& rule) { return rule.key == key; });
  return as_index(found - rules.begin());
}

std::vector<CompiledRule> compile() {
  std::vector<CompiledRule> compiled;
  for (const ElementRule& rule : element_rules()) {
    CompiledRule one;
    one.rule = &rule;
    one.attributes = attributes_of(rule);
    for (const Attribute& attribute : one.attributes) one.attribute_names.push_back(attribute.name);
    one.children = children_of(rule);
    for (const ChildRule& child : one.children) {
      one.rules.push_back(index_of(child.key));
      one.child_names.push_back(child.name);
    }
    compiled.push_back(std::move(one));
  }
  return compiled;
}

class Checker {
 public:
  Checker(const Document& document, Journal& journal)
      : document_(document), journal_(journal), rules_(compile()) {}

  void check(const Element& element, const CompiledRule& rule) {
    check_attributes(element, rule);
    check_choices(element, rule);
    check_children(element, rule);
    if (!rule.rule->prose) refuse_words(element);
  }
  const CompiledRule& project() const { return rules_.at(index_of("project")); }

 private:
  void check_attributes(const Element& element, const CompiledRule& rule) {
    const bool is_root = element == document_.root();
    std::vector<std::string_view> seen;
    for (const pugi::xml_attribute attribute : element.node().attributes()) {
      const std::string_view name = one_spelling(attribute.name());
      if (is_root && name == "xmlns") continue;
      if (std::ranges::find(seen, name) != seen.end())
        journal_.error("read-twice", element.attribute_place(name),
                       fmt::format("both {} and {}", name, other_spelling(name)), "one of the two",
                       "delete one: they mean the same");
      seen.push_back(name);
      if (std::find(rule.attribute_names.begin(), rule.attribute_names.end(), name) !=
          rule.attribute_names.end())
        continue;
      journal_.error("read-unknown-attribute", element.attribute_place(name),
                     fmt::format("the attribute {}", detail::shown(name)),
                     fmt::format("an attribute that <{}> has", element.name()),
                     journal_.suggestion(name, [&] { return rule.attribute_names; }));
    }
    for (const Attribute& wanted : rule.attributes) {
      if (!wanted.required || element.has(wanted.name)) continue;
      journal_.error("read-missing-attribute", element.place(),
                     fmt::format("<{}> without {}", element.name(), wanted.name),
                     fmt::format("the attribute {}", wanted.name),
                     fmt::format("write {}=\"…\"", wanted.name));
    }
  }

  // "size|inset|width,height": no two members may be given.
  void check_choices(const Element& element, const CompiledRule& rule) {
    for (const std::string_view group : parted(rule.rule->either, ' ')) {
      std::string_view first;
      for (const std::string_view member : parted(group, '|')) {
        for (const std::string_view name : parted(member, ',')) {
          const bool given = !element.node().attribute(std::string(name).c_str()).empty();
          if (!given) continue;
          if (first.empty()) {
            first = name;
          } else if (member.find(first) == std::string_view::npos || first == name) {
            journal_.error("read-either-or", element.attribute_place(name),
                           fmt::format("both {} and {}", first, name), "one of the two",
                           fmt::format("delete {} or {}", first, name));
            return;
          }
        }
      }
    }
  }

  void check_children(const Element& element, const CompiledRule& rule) {
    std::vector<std::size_t> counts(rule.children.size(), 0);
    for (const Element& child : element.children()) {
      const auto found =
          std::find_if(rule.children.begin(), rule.children.end(),
                       [&](const ChildRule& one) { return one.name == child.name(); });
      if (found == rule.children.end()) {
        unknown_child(element, child, rule);
        continue;
      }
      const auto index = as_index(found - rule.children.begin());
      if (++counts[index] == 2 && (found->count == '?' || found->count == '!')) {
        journal_.error("read-twice", child.place(), fmt::format("<{}> a second time", child.name()),
                       fmt::format("one <{}> in <{}>", child.name(), element.name()),
                       "delete one of the two, or put both into one");
      }
      check(child, rules_.at(rule.rules[index]));
    }
    for (std::size_t i = 0; i < counts.size(); ++i) {
      const ChildRule& wanted = rule.children[i];
      if (counts[i] > 0 || (wanted.count != '!' && wanted.count != '+')) continue;
      journal_.error(
          "read-missing-element", element.place(),
          fmt::format("<{}> without <{}>", element.name(), wanted.name),
          fmt::format("{} <{}>", wanted.count == '!' ? "one" : "at least one", wanted.name),
          fmt::format("write a <{}> into it", wanted.name));
    }
  }

  void unknown_child(const Element& element, const Element& child, const CompiledRule& rule) {
    std::string fix = journal_.suggestion(child.name(), [&] { return rule.child_names; });
    const bool near = fix.starts_with("did");
    if (const std::string home = near || journal_.full() ? "" : homes_of(child.name());
        !home.empty())
      fix = fmt::format("<{}> belongs into {}", child.name(), home);
    journal_.error("read-unknown-element", child.place(),
                   fmt::format("<{}> in <{}>", detail::shown(child.name()), element.name()),
                   rule.child_names.empty()
                       ? fmt::format("no element in <{}>", element.name())
                       : fmt::format("an element that <{}> holds", element.name()),
                   std::move(fix));
  }

  std::string homes_of(std::string_view name) const {
    std::vector<std::string> homes;
    for (const CompiledRule& rule : rules_) {
      if (std::find(rule.child_names.begin(), rule.child_names.end(), name) ==
          rule.child_names.end())
        continue;
      homes.push_back(fmt::format("<{}>", rule.rule->key));
    }
    return words::listed(homes, "or");
  }

  void refuse_words(const Element& element) {
    const Value words = element.prose();
    if (words.empty()) return;
    journal_.error("read-stray-words", words.place(),
                   fmt::format("words in <{}>: {}", element.name(), detail::shown(words.view())),
                   "only elements there",
                   element.is("card") ? "put them into a <step>, a <tip> or an <intro>"
                                      : "delete them, or make them a comment");
  }

  const Document& document_;
  Journal& journal_;
  std::vector<CompiledRule> rules_;
};

bool check_root(const Element& root, Journal& journal) {
  if (!root.is("project")) {
    journal.error("read-not-a-project", root.place(),
                  fmt::format("a file that begins with <{}>", detail::shown(root.name())),
                  "a <project>",
                  fmt::format("begin with <project xmlns=\"{}\" version=\"{}\" …>",
                              project_namespace, project_version));
    return false;
  }
  const auto space = root.attribute("xmlns");
  if (!space || space->view() != project_namespace) {
    journal.error("read-namespace", space ? space->place() : root.place(),
                  space ? detail::shown(space->view()) : "<project> without a namespace",
                  fmt::format("xmlns=\"{}\"", project_namespace),
                  "write this namespace, without a prefix");
    return false;
  }
  const auto version = root.attribute("version");
  if (version && version->view() != project_version) {
    journal.error("read-version", version->place(),
                  fmt::format("version {}", detail::shown(version->view())),
                  fmt::format("version {}", project_version),
                  "this program reads version 1; a newer one may be needed");
    return false;
  }
  return true;
}

} // namespace

bool check_structure(const Document& document, Journal& journal) {
  const Element root = document.root();
  if (!check_root(root, journal)) return false;
  Checker checker(document, journal);
  checker.check(root, checker.project());
  return true;
}

} // namespace leafwright::reading
