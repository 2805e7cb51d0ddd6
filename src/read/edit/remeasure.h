#pragma once

#include "read/edit/edit.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// A project in the other system of measures, chosen anew rather than converted.

namespace leafwright::edit {

struct RemeasureOptions {
  std::optional<Unit> to; // the system of the new edition; unset = the one the project has not
  Length mark{};          // of the ruler that is cut by; 0 = 1/16 in or 1 mm (common practice)
  bool bought = false;    // measures of dies, stamps, reels and the like too: they are bought anew
  // Named sizes that have a usual counterpart take it: letter and A4 among sheets and papers, A2
  // and C6 among cards and envelopes.
  bool usual_sheets = false, usual_cards = false;
  std::string paper; // of the documents; empty = as it is, or the counterpart with usual_sheets
};

// One value of the file and what became of it.
struct Chosen {
  std::string where;         // "card trees / panel scene: size"
  std::string before, after; // as they stand in the file
  struct Measure {
    Length before, after;
  };
  std::vector<Measure> measures; // in the order in which they are written; none of a name
  std::string why;               // when it is not simply the nearest mark
  std::size_t at = 0;            // byte of the old text
};
// Something that the maker must look at.
struct Remark {
  Place place; // in the old file
  std::string words;
};

struct Remeasuring {
  Unit unit = Unit::Inch; // of the new edition
  Length mark{};
  std::vector<Edit> edits;
  std::vector<Chosen> chosen; // values that say another length than before
  std::vector<Chosen> kept;   // of bought things: the same length, with its unit beside it
  std::vector<Remark> remarks;
  Findings findings; // errors: there is no new edition
  Sources sources;   // that the findings point into
  bool ok() const { return !has_errors(findings); }
};

// What is cut, laid and stamped by the maker's own measure is chosen anew: each number goes to the
// nearest mark of the ruler, none to nothing; calculations stay calculations. Then, piece by piece:
// a piece that is centred on what carries it takes the nearest size that leaves the same mark on
// both sides; a size that a calculation puts between two marks is written out, on the mark below;
// and what came from one sheet before still does. What was bought is as it is, and keeps its
// measure in its own unit. Only values of attributes and words between braces change.
Remeasuring remeasured(std::string_view file_bytes, const std::string& path,
                       const RemeasureOptions& options, const ReadOptions& read = {});

} // namespace leafwright::edit
