#pragma once

#include "basics/parsed.h"
#include "measure/length.h"
#include "model/finding.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

namespace leafwright::reading {

// The candidate that `word` was most likely meant to be, or nothing when none is near: at most a
// third of its letters inserted, deleted, replaced or swapped with a neighbour (optimal string
// alignment distance). Case, hyphens and underscores hardly count. The first of equals wins.
std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates);

// "did you mean mat?" or, with nothing near, the first few candidates: "one of base, mat, scene".
std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates);

} // namespace leafwright::reading

namespace leafwright {

// One text that findings point into: a file as it was read, or an option of the command line. Lines
// end at LF, CR LF or CR alone; a byte order mark at the beginning takes no column.
class SourceText {
 public:
  SourceText() = default;
  SourceText(std::string name, std::string text);

  const std::string& name() const { return name_; } // as it is printed before the line number
  std::string_view text() const { return text_; }
  // Bytes from..from+length of the text as a place, with `file` as its file index. What runs over a
  // line end is underlined up to there.
  Place place(std::int32_t file, std::size_t from, std::size_t length) const;
  // Line `line` (from 1) without its line end; empty when there is none.
  std::string_view line(std::int32_t number) const;
  // Bytes in front of character `column` (from 1) of a line; its length when the line is shorter.
  std::size_t bytes_before(std::int32_t line, std::int32_t column) const;
  std::size_t line_count() const { return starts_.size(); }

 private:
  std::string name_;
  std::string text_;
  std::size_t characters(std::size_t from, std::size_t to) const;

  std::vector<std::size_t> starts_; // byte offset of each line
  // Characters in front of every 256th byte: a file may be one line, and a place in it is asked
  // for each of its elements.
  std::vector<std::size_t> characters_;
};

// The texts of one reading; Place::file is an index into it.
using Sources = std::vector<SourceText>;

// Bytes of a byte order mark in front (0 or 3).
std::size_t byte_order_mark(std::string_view text);

} // namespace leafwright

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

__extension__ using Wide = __int128;

// An exact fraction in lowest terms, lower number positive. Operations give nothing when a number
// would not fit any more.
struct Fraction {
  Wide above = 0;
  Wide below = 1;
};
std::optional<Fraction> fraction(Wide above, Wide below);
std::optional<Fraction> sum(Fraction a, Fraction b);
std::optional<Fraction> product(Fraction a, Fraction b);
std::optional<Fraction> quotient(Fraction a, Fraction b); // b must not be 0
Fraction negated(Fraction a);
bool less(Fraction a, Fraction b);

// What an expression is worth while it is worked out. A bare number is not decided yet: beside a
// length it means a length in the project's unit, as a factor it is a number.
struct Quantity {
  enum class Kind { Bare, Number, Length };
  Kind kind = Kind::Bare;
  Fraction value; // Length: nanometres
};
Quantity quantity(Length length);
// The nearest nanometre; nothing beyond 100 m.
std::optional<Length> as_length(const Quantity& quantity, Length unit);
std::string kind_words(const Quantity& quantity); // "a length", "a number"

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

} // namespace leafwright::reading
