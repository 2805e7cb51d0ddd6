#include "app/documents.h"

#include "app/typeset.h"
#include "guide/tutorial.h"

#include <array>

namespace leafwright::app {

namespace {

Made make_tutorial(const Prepared& prepared, const Workshop& workshop) {
  guide::TutorialOptions options;
  options.draft = workshop.draft;
  const Project& project = prepared.reading.project;
  return typeset(guide::tutorial(project, prepared.sheets, prepared.findings, options), "tutorial",
                 "booklet", prepared, workshop);
}

constexpr std::array kinds{
    DocumentKind{"tutorial", "the step-by-step tutorial, as PDF", make_tutorial},
};

} // namespace

std::span<const DocumentKind> document_kinds() { return kinds; }

const DocumentKind* find_document(std::string_view verb) {
  for (const DocumentKind& kind : kinds)
    if (kind.verb == verb) return &kind;
  return nullptr;
}

} // namespace leafwright::app
