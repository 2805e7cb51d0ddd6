#pragma once

#include "measure/index.h"
#include "read/source.h"

#include <cstddef>
#include <map>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leafwright::reading {

class Document;

// An element of the project file. Copies are cheap; an empty one answers every question with
// nothing.
class Element {
 public:
  Element() = default;
  Element(const Document& document, pugi::xml_node node) : document_(&document), node_(node) {}

  explicit operator bool() const { return static_cast<bool>(node_); }
  friend bool operator==(const Element& a, const Element& b) { return a.node_ == b.node_; }
  std::string_view name() const { return node_.name(); }
  Place place() const; // of its name
  bool is(std::string_view wanted) const { return name() == wanted; }

  // An attribute's value, from an override where there is one.
  std::optional<Value> attribute(std::string_view name) const;
  bool has(std::string_view name) const;
  bool overridden(std::string_view name) const;
  Place
  attribute_place(std::string_view name) const; // of the attribute's name, else of the element

  Element child(std::string_view name) const;
  std::vector<Element> children() const;
  std::vector<Element> children(std::string_view name) const;
  Value prose() const; // its own words, without those of elements inside
  pugi::xml_node node() const { return node_; }

 private:
  const Document* document_ = nullptr;
  pugi::xml_node node_;
};

// The tree of one file. Positions come from the untouched text: the library's names and values
// point into a copy that is parsed in place, so their distance from its beginning is the offset in
// the original.
class Document {
 public:
  Document(const Sources& sources, std::int32_t file);
  Document(const Document&) = delete;
  Document& operator=(const Document&) = delete;

  // Builds the tree; the text has passed check_well_formed. What the library still refuses is a
  // finding.
  bool parse(Journal& journal);
  Element root() const { return {*this, tree_.document_element()}; }
  const SourceText& source() const { return (*sources_)[as_index(file_)]; }
  std::int32_t file() const { return file_; }
  std::size_t offset(const char* inside) const;

  // Replaces an attribute by the whole text of another source.
  void override_attribute(const Element& element, std::string_view name, std::int32_t source);
  const std::int32_t* override_of(const Element& element, std::string_view name) const;
  Value source_value(std::int32_t source) const;

 private:
  const Sources* sources_;
  std::int32_t file_;
  std::string buffer_;
  pugi::xml_document tree_;
  // Only looked up, never walked: the order of addresses reaches nothing.
  std::map<std::pair<const void*, std::string>, std::int32_t, std::less<>> overrides_;
};

inline constexpr std::string_view project_namespace = "urn:leafwright:project";
inline constexpr std::string_view project_version = "1";

// Checks names and counts of elements and attributes throughout the tree, and the namespace and the
// version. False when it is no project of ours at all, so that reading on would only make noise.
bool check_structure(const Document& document, Journal& journal);

// Whether a text is well-formed XML 1.0 without a document type, in UTF-8, not nested deeper than
// `most_depth`. The XML library is lenient (duplicate attributes, unknown entities, several roots,
// broken UTF-8), so every such fault becomes a finding here, before the library sees the text. One
// pass, linear in the length. Returns false when the text cannot be read on.
bool check_well_formed(const SourceText& source, std::int32_t file, std::size_t most_depth,
                       Journal& journal);

} // namespace leafwright::reading
