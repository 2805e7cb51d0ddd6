#pragma once

#include "basics/parsed.h"
#include "measure/index.h"
#include "measure/length.h"
#include "model/finding.h"
#include "read/read.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <pugixml.hpp>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

// The project file as a tree whose every value knows where it was written, for the rooms that read
// or change one. Findings are gathered in a Journal.
//
//   Document document(sources, 0);
//   if (document.parse(journal) && check_structure(document, journal))
//     for (const Element& card : document.root().children("card")) look_at(card.attribute("id"));

namespace leafwright::reading {

// Collects what is found wrong while reading. The same problem at the same place is kept once
// (a size is worked out once for its width and once for its height), and after `most` findings only
// their number is counted, so that a hostile file cannot fill the memory with complaints.
class Journal {
 public:
  explicit Journal(std::size_t most) : most_(most) {}

  void add(Finding finding);
  void error(std::string_view code, Place place, std::string found, std::string expected,
             std::string fix);
  void warning(std::string_view code, Place place, std::string found, std::string expected,
               std::string fix);
  bool full() const { return findings_.size() >= most_; }
  bool has_errors() const { return errors_ > 0; }
  // A suggestion for a misspelt name; `names` gives the candidates and is asked only while findings
  // are still kept, since a hostile file may hold a hundred thousand wrong names.
  template <class Names>
  std::string suggestion(std::string_view word, Names names) const {
    return full() ? std::string{} : did_you_mean(word, names());
  }
  // Sorted by place; closes with a note when some were left away.
  Findings take();

 private:
  using Key = std::tuple<std::int32_t, std::int32_t, std::int32_t, std::string, std::string>;
  std::size_t most_;
  std::size_t errors_ = 0;
  std::size_t left_away_ = 0;
  Findings findings_;
  std::set<Key> seen_;
};

// Whether the text is UTF-8 without NUL, control characters and code points that are no characters;
// the first fault is reported. `mend_bytes` says what to do about broken bytes.
inline constexpr std::string_view save_as_utf8 =
    "save the file again with the encoding UTF-8; it may be in Latin-1 or Windows-1252";
bool check_encoding(const SourceText& source, std::int32_t file, Journal& journal,
                    std::string_view mend_bytes = save_as_utf8);

// The text of an attribute or an element after entities and line ends were resolved, which still
// knows where each byte of it was written.
class Value {
 public:
  Value() = default;
  // Decodes bytes from..from+length of a source. In attributes a line end or a tab becomes a blank
  // (XML 1.0, 3.3.3); in prose a run of blanks becomes one, and none is kept at either end.
  enum class As { Attribute, Prose, Verbatim };
  Value(const SourceText& source, std::int32_t file, std::size_t from, std::size_t length, As as);

  const std::string& text() const { return text_; }
  std::string_view view() const { return text_; }
  bool empty() const { return text_.empty(); }
  // Where bytes at..at+length of text() were written; the default is the whole.
  Place place(std::size_t at, std::size_t length) const;
  Place place() const;
  // Appends another piece of prose of the same source (text interrupted by a comment or an
  // element).
  void append(const Value& more);

 private:
  struct Joint { // from here on, text bytes and source bytes run in step
    std::size_t text_at, source_at;
  };
  std::size_t source_at(std::size_t at) const;
  void push(std::string_view bytes, std::size_t source_at);

  std::string text_;
  std::vector<Joint> joints_;
  const SourceText* source_ = nullptr;
  std::int32_t file_ = -1;
  std::size_t from_ = 0, length_ = 0; // in the source
};

// A reference such as `&lt;` or `&#xBC;` as it stands in a text.
struct Reference {
  std::string_view name;     // without & and ; ("lt", "#xBC")
  std::string text;          // what it stands for; empty when there is no such
  std::size_t length = 0;    // with & and, where there is one, its semicolon
  bool closed = false;       // by a semicolon
  std::size_t looked_at = 0; // bytes it took to say so, never more than `longest_reference`
};
// `&#x10FFFD;` and some noughts. A bare & must not be searched for its end through a whole text.
inline constexpr std::size_t longest_reference = 13;
Reference reference_at(std::string_view text, std::size_t at); // at its &

class Document;

// An element of the project file. Copies are cheap; an empty one answers every question with
// nothing.
class Element {
 public:
  Element() = default;
  Element(const Document& document, pugi::xml_node node) : document_(&document), node_(node) {}

  explicit operator bool() const { return static_cast<bool>(node_); }
  friend bool operator==(const Element& a, const Element& b) { return a.node_ == b.node_; }
  std::string_view name() const; // in the spelling of the vocabulary
  Place place() const;           // of its name
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
  Place end() const;   // of the first element past this one; line 0: there is none
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

// What an attribute holds by the vocabulary: "measure", "sides", "plain|stitched"; empty when the
// element has no such attribute. A ribbon or twine among the supplies is a "spool".
std::string_view value_type(std::string_view element, std::string_view attribute);

// Whether a text is well-formed XML 1.0 without a document type, in UTF-8, not nested deeper than
// `most_depth`. The XML library is lenient (duplicate attributes, unknown entities, several roots,
// broken UTF-8), so every such fault becomes a finding here, before the library sees the text. One
// pass, linear in the length. Returns false when the text cannot be read on.
bool check_well_formed(const SourceText& source, std::int32_t file, std::size_t most_depth,
                       Journal& journal);

// What every part of the reader needs at hand.
struct Context {
  const ReadOptions& options;
  const Sources& sources;
  Journal& journal;
  Project& project;
  Unit unit = Unit::Inch; // of bare numbers
  // Points of all stamping so far. A short file can ask for endless much of it, by things that are
  // like each other: beyond the limit no more is made.
  std::size_t points = 0;
  static constexpr std::size_t most_points = 1'000'000;
};

// Applies `mat.width=4 in` and the like to the tree; the sources from `first` on are the overrides
// as they were given. What names nothing is a finding.
void apply_overrides(Context& context, Document& document, std::int32_t first);

} // namespace leafwright::reading
