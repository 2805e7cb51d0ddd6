#pragma once

#include "guide/block.h"
#include "model/finding.h"
#include "model/outline.h"
#include "text/fonts.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// How a document looks: read from an XML template that a user can copy and change. Holds no text of
// the document itself, save the few words that only pages need ("continued", "DRAFT").

namespace leafwright::page {

// A colour of the template, or the project's own accent, mixed with white: share 1 = as it is.
struct Tint {
  bool accent = false;
  Colour fixed{};
  double share = 1.0;
};
Colour mixed(const Tint& tint, Colour accent);

struct TextStyle {
  enum class Align { Left, Justified, Centre, Right };
  text::Role role = text::Role::Text;
  Length size = points(9.75), leading = points(14);
  Tint colour{};
  Align align = Align::Left;
  Length before{}, after{};
  Length measure{};       // the widest a line gets; 0 = as wide as there is room
  bool hyphenate = false; // divide words
  bool tabular = false;   // figures of one width
};

struct SectionRule {
  enum class Start {
    Page,
    Follow,
    Fit
  };                // Fit: on the page before when the whole section has room there
  std::string name; // "cards" stands for each section card-<id>
  Start start = Start::Page;
  bool foot = true;
  bool numbered = true; // false: pages count, but show no number
  std::optional<Tint> ground{};
  int columns = 0; // of its text, below its opening words; 0 = as the template says
};

struct StepRule {
  bool rows = true;    // figure at the left, words at its right
  bool columns = true; // two side by side, words below the figure
  Length smallest_figure = millimetres(32), largest_figure = millimetres(88); // heights
  double figure_share = 0.45; // rows: at most this part of the width
};

struct OpeningRule {            // the picture that a card's section begins with
  double picture_height = 0.40; // at most this part of the text's height
  bool others_below = false;    // the lesser pictures stand below it, not beside it
};

struct FootRule {
  std::string left, centre, right; // with {title} {running} {edition} {page} {pages} {author}
  bool rule = true;
  Length distance{}; // from the bottom of the text area to the foot's baseline
};

struct PageWords { // what pages say by themselves
  std::string draft = "DRAFT";
  // The unit of the project stands above the bar.
  std::string scale_bar =
      "The upper edge is {upper} long and the lower {lower} when printed at 100 %.";
  std::string drawn_at = "Drawn at {percent} % of its true size.";
  std::string true_size = "Drawn at true size.";
  std::string tile = "{title}, sheet {part} of {parts}: overlap the dashed edges and join";
};

struct Template {
  std::string name, language;
  std::string paper = "project"; // a sheet name, "W x H", or "project": what the project asks for
  bool landscape = false;
  // For a print shop: grounds run over the page's edge by so much, and lines show where to cut.
  Length bleed{};
  bool crop_marks = false;
  Length top = millimetres(20), bottom = millimetres(24), inner = millimetres(20),
         outer = millimetres(20);
  bool mirrored = false; // inner margin at the left of odd pages
  Length grid = points(7);
  Length gutter = points(21); // between two things side by side
  int columns = 1;
  std::map<std::string, Tint, std::less<>> colours;
  std::map<std::string, TextStyle, std::less<>> styles;
  std::vector<SectionRule> sections;
  StepRule steps;
  OpeningRule openings;
  FootRule foot;
  PageWords words;
  Length hairline = points(0.5);
  Length cell_gap = points(14); // between table columns
  Length row_padding = points(3.5);
  std::string file; // for messages

  // The style of that name, or "body", or the built-in default.
  const TextStyle& style(std::string_view wanted) const;
  Tint colour(std::string_view wanted) const; // black when unknown
};

struct TemplateReading {
  Template page_template;
  Findings findings; // places carry `file` as given
};

// Reads a template. `file` is the index that findings put into Place::file. Faults are findings;
// what was understood is kept.
TemplateReading read_template(std::string_view xml, std::string file_name, int file = -1);

} // namespace leafwright::page
