#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::reading {

// What may stand where, in one table. The reader checks by it and takes its suggestions from it;
// the grammar (.rnc and .rng) and the tables of REFERENCE.md in templates/grammar are written from
// it, and a test holds them to it. A new attribute is a row here and the reader that uses it.

struct Attribute {
  std::string_view element; // key of its element, or a group: "@sold"
  std::string_view name;
  std::string_view
      type; // a name of grammar.cpp ("measure"), or words parted by |, as words_in<> of choices.h
  bool required = false;
  std::string_view fallback; // what holds without it, in words
  std::string_view help;     // one line
};

struct ElementRule {
  std::string_view key;      // "project", "stock"; where a name means two things: "card/stamp"
  std::string_view groups;   // of attributes that it shares: "thing sold"
  std::string_view children; // element names, each ! once, ? at most once, + at least once, or *
                             // any number; "stamp=card/stamp" when the key differs from the name
  bool prose = false;        // words may stand in it
  // Groups of which only one member may be given: "size|inset|width,height at|places".
  std::string_view either = {};
  // For the grammar, where it says more: members as above, of which one must stand; an empty one
  // means none need, ? that an attribute may be missing, form=z/flat its values, <sheet>+ a child.
  std::string_view pattern = {};
};

// One of `children`, taken apart.
struct ChildRule {
  std::string_view name, key;
  char count = '*';
};

// A name in the spelling of the table: a project may say `color` as well as `colour`.
std::string_view one_spelling(std::string_view name);
// The other spelling of a name of the table; empty where there is one only.
std::string_view other_spelling(std::string_view name);

// Parts of a text at each separator; none of an empty one.
std::vector<std::string_view> parted(std::string_view text, char separator);

std::span<const ElementRule> element_rules();
std::span<const Attribute> attribute_rows();
const ElementRule* rule_for(std::string_view key); // nullptr when there is none
std::vector<Attribute> attributes_of(const ElementRule& rule);
std::vector<ChildRule> children_of(const ElementRule& rule);

// RELAX NG (ISO/IEC 19757-2) in its two forms, and the reference's tables in Markdown.
std::string grammar_xml();
std::string grammar_compact();
std::string reference_tables();

} // namespace leafwright::reading
