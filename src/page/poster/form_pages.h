#pragma once

#include "page/laid.h"
#include "page/poster/poster.h"

#include <string>
#include <vector>

// A form to be filled in, by hand on paper or in the file.

namespace leafwright::poster {

struct FormLine {
  page::FormField::Kind kind = page::FormField::Kind::Line;
  std::string name;    // of the field
  std::string label;   // beside a tick, above anything else
  std::string tooltip; // the whole question
};
struct FormPart {
  std::string heading, words; // the heading may be empty
  std::vector<FormLine> lines;
};
struct FormWords {
  std::string title, lead, close;
  std::vector<FormPart> parts;
};

// One after the other on pages of that size, tagged, with a field for each line. Title, language
// and the like are the caller's.
page::Laid form_pages(const FormWords& words, Size paper, const Style& style,
                      const text::Fonts& fonts);

} // namespace leafwright::poster
