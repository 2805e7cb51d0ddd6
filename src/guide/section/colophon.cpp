#include "guide/section/colophon.h"

#include "guide/section/blocks.h"
#include "guide/section/cover.h"
#include "guide/words/letter_case.h"
#include "guide/words/tie.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

std::string stopped(std::string text) {
  if (!text.empty() && std::string_view(".!?").find(text.back()) == std::string_view::npos)
    text += ".";
  return text;
}

// "The dotted mat is 4 1/4 in wide. Expected: at most 4 in. Make it 4 in wide."
Inlines finding_words(const Finding& finding) {
  Prose prose;
  prose.say(stopped(words::sentence_case(finding.found)));
  if (!finding.expected.empty()) prose.say(" Expected: " + stopped(finding.expected));
  if (!finding.mend.empty()) prose.say(" " + stopped(words::sentence_case(finding.mend)));
  return plain(words::tie_measures(spoken(prose.fragment())));
}

Inlines maker_words(const Maker& maker) {
  Prose prose;
  if (maker.name.empty()) return {};
  prose.say("Designed and written by ").strong(maker.name);
  if (!maker.contact.empty()) {
    const bool mail = maker.contact.find('@') != std::string::npos;
    prose.say(", ");
    if (mail)
      prose.go("mailto:" + maker.contact, maker.contact);
    else
      prose.say(maker.contact);
  }
  if (!maker.web.empty()) {
    prose.say(", ");
    const std::size_t scheme = maker.web.find("://");
    const std::string shown =
        scheme == std::string::npos ? maker.web : maker.web.substr(scheme + 3);
    prose.go(scheme == std::string::npos ? "https://" + maker.web : maker.web, shown);
  }
  return prose.say(".").fragment();
}

void add_findings(Section& section, const Findings& warnings, Severity severity,
                  const Heading& title) {
  List list;
  for (const Finding& finding : warnings)
    if (finding.severity == severity) list.items.push_back(finding_words(finding));
  if (list.items.empty()) return;
  add(section, title);
  add(section, std::move(list));
}

} // namespace

Section colophon_section(const Project& project, const Findings& warnings,
                         const std::string& edition_line) {
  Section section{"colophon", "About this booklet", {}};
  add(section, heading(1, "colophon", "About this booklet"));
  Prose edition;
  edition.strong(project.title).say(". " + edition_line + ".");
  add(section, body(edition.fragment()));
  if (Inlines maker = maker_words(project.maker); !maker.empty())
    add(section, body(std::move(maker)));
  if (!project.maker.terms.empty()) {
    add(section, heading(2, "terms", "Terms"));
    add(section, body(plain(words::tie_measures(project.maker.terms))));
  }
  add(section, heading(2, "making", "How it was made"));
  add(section,
      body(plain(
          "Every length, amount, drawing and step in this booklet is worked out from one and the "
          "same description of the cards, so that they agree with each other. Lengths are kept "
          "exactly and rounded only in print. The type is Vollkorn and Lato, both under the SIL "
          "Open "
          "Font License.")));
  add_findings(section, warnings, Severity::Error,
               heading(2, "errors", "To be mended before this is sold"));
  add_findings(section, warnings, Severity::Warning,
               heading(2, "warnings", "Worth knowing before you cut"));
  return section;
}

} // namespace leafwright::guide
