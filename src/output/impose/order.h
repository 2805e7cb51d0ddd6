#pragma once

#include <vector>

// Which page stands where on which sheet. Whole numbers only; nothing is drawn here.

namespace leafwright::impose {

constexpr int blank = -1;

struct Binding {
  // Pages to a signature: sheets folded together. 0: all of them in one, stapled through the fold.
  int signature = 0;
  bool full_signatures = false; // fill up the last signature too, instead of making it smaller
  // The last page is a back cover: blanks go before it.
  bool back_cover = false;
  // Pages know left from right, so that no blank may push them to the other side.
  bool sided = false;
};

// The pages in reading order, filled up with blanks to whole sheets (four pages each). A blank does
// least harm on the back and inside it; the odd one out stands inside the front cover, where pages
// may change sides.
std::vector<int> filled_up(int page_count, const Binding& binding);

// One side of a folded sheet: two pages beside each other, as they are printed.
struct Side {
  int left = blank, right = blank;
  int signature = 0;
  int sheet = 0;  // within its signature, from the outside in
  int sheets = 1; // of its signature
  bool inside = false;
};

// Sheet by sheet, outside before inside, as a printer that prints both sides takes them.
std::vector<Side> sides(const std::vector<int>& pages, const Binding& binding);

} // namespace leafwright::impose
