#pragma once

#include "basics/parsed.h"
#include "measure/length.h"
#include "page/laid.h"
#include "text/fonts.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

// Pages of one PDF set down on the pages of another.

namespace leafwright::impose {

struct PlacedPage {
  int page = 0;       // of the PDF that is set down
  Point at;           // where the top left corner of its trimmed page comes to lie, y down
  double scale = 1.0; // 1 = as large as it is
  Rect clip;          // on the sheet; nothing of the page shows beyond it
};

struct Sheet {
  Size size;
  std::vector<PlacedPage> pages;
  bool turned = false; // all of it, by half a turn
};

// `under` has one page per sheet, with the marks that are printed over the pages; its catalogue and
// metadata are kept. The pages become form XObjects (ISO 32000-1, 8.10): each is stored once, as
// vectors. Links and structure do not come along, since both belong to pages that no longer are.
// `duplex` is what the print dialog begins with (12.2): "Simplex", "DuplexFlipShortEdge",
// "DuplexFlipLongEdge".
Parsed<std::string> composed(const std::string& under, const std::string& pages,
                             std::span<const Sheet> sheets, std::string_view duplex);

// Which page stands where on which sheet. Whole numbers only; nothing is drawn here.

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

// Where the pages of a folded booklet, or of proof sheets, stand, and the marks printed with them.

enum class Flip { ShortEdge, LongEdge }; // how the printer turns a sheet for its second side

struct BookletOptions {
  Size sheet; // as it lies in the printer; turned to whichever way holds two pages better
  Binding binding;
  Flip flip = Flip::ShortEdge;
  // Of one sheet. Folded sheets push each other out at the fore edge by their thickness (common
  // practice: the number of sheets around times the caliper; a soft round fold takes up to half as
  // much again). Each sheet's pages move towards the fold by that much, so that the outer margins
  // are alike once the fore edge is trimmed.
  Length caliper = micrometres(100);
  Length spine{}; // taken off the back of every signature before gluing: pages stand clear of it
  bool staples = true; // marks where they go
};

// Sheets ready for `composed`, with the pages of marks that lie over them.
struct Imposition {
  std::vector<Sheet> sheets; // one a side
  page::Laid marks;          // title and so on are the caller's to fill in
  int paper_sheets = 0;
  int blanks = 0;
  double scale = 1.0; // of the pages; below 1 they were made for larger paper
  Length push_out{};  // of the innermost sheet of the thickest signature
};

// Two pages a side. `pages` are those of the laid-out document, all of one size.
Imposition booklet(std::span<const page::LaidPage> pages, const BookletOptions& options,
                   const text::Fonts& fonts);

// `per_side` pages beside each other in reading order, each in a frame with its number: to be
// looked at, not to be cut from.
Imposition proof(std::span<const page::LaidPage> pages, Size sheet, int per_side,
                 const text::Fonts& fonts);

} // namespace leafwright::impose
