#pragma once

#include "measure/parsed.h"
#include "model/finding.h"
#include "read/near.h"
#include "read/source.h"

#include <set>
#include <string>
#include <string_view>
#include <tuple>

namespace leafwright::reading {

// Collects what is found wrong while reading. The same problem at the same place is kept once
// (a size is worked out once for its width and once for its height), and after `most` findings only
// their number is counted, so that a hostile file cannot fill the memory with complaints.
class Journal {
 public:
  explicit Journal(std::size_t most) : most_(most) {}

  void add(Finding finding);
  void error(std::string_view code, Place place, std::string found, std::string expected,
             std::string mend);
  void warning(std::string_view code, Place place, std::string found, std::string expected,
               std::string mend);
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

} // namespace leafwright::reading
