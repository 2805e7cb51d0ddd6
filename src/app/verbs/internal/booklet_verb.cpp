#include "app/documents/rendering.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/verbs/internal/verb_table.h"
#include "guide/tutorial.h"
#include "language/agreement.h"
#include "measure/length.h"
#include "measure/parse_length.h"
#include "measure/print_length.h"
#include "output/booklet.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>

namespace leafwright::app {

namespace {

// Beyond this a stapled fold springs open (common practice: some 64 to 80 pages).
constexpr int most_stapled_sheets = 20;

Finding note(std::string code, std::string found, std::string expected, std::string fix) {
  Finding finding;
  finding.severity = Severity::Note;
  finding.code = std::move(code);
  finding.found = std::move(found);
  finding.expected = std::move(expected);
  finding.fix = std::move(fix);
  return finding;
}

// An option's length, or its default; a misread is told and gives nothing.
std::optional<Length> length_of(const std::string& text, Length usual, const char* option,
                                const Project& project, Environment& environment) {
  if (text.empty()) return usual;
  const Unit bare = project.printing.unit;
  const Parsed<Length> length = parse_length(text, bare);
  if (length && (*length).nm >= 0) return *length;
  report(fmt::format("{} {}: a length of 0 or more is expected, such as 0.1 mm", option, text),
         environment);
  return std::nullopt;
}

struct Plan {
  impose::BookletOptions options;
  std::string sheet_name, page_template;
};

std::optional<Plan> plan_of(const FoldingArguments& asked, const Project& project,
                            Environment& environment) {
  Plan plan;
  plan.sheet_name = asked.sheet.empty() ? project.paper : asked.sheet;
  const std::optional<Size> sheet = find_size(sheet_sizes(), plan.sheet_name);
  if (!sheet) {
    report(fmt::format("--sheet {}: no paper of that name; try letter, legal, tabloid, a4 or a3",
                       plan.sheet_name),
           environment);
    return std::nullopt;
  }
  plan.options.sheet = *sheet;
  plan.page_template = project.paper == "a4" ? "a5" : "half-letter";
  const auto caliper =
      length_of(asked.caliper, plan.options.caliper, "--caliper", project, environment);
  const auto spine = length_of(asked.spine, {}, "--spine", project, environment);
  if (!caliper || !spine) return std::nullopt;
  plan.options.caliper = *caliper;
  plan.options.spine = *spine;
  plan.options.flip = asked.flip_long ? impose::Flip::LongEdge : impose::Flip::ShortEdge;
  plan.options.binding.signature = asked.signature;
  plan.options.binding.back_cover = asked.back_cover;
  plan.options.staples = !asked.bound && asked.spine.empty();
  return plan;
}

// How to go on with the sheets, in a few lines.
std::string instructions(const impose::Imposition& made, const Plan& plan,
                         const Printing& printing) {
  std::string out =
      fmt::format("{} sheets of {}, printed on both sides at 100 % and turned on the {} edge",
                  made.paper_sheets, plan.sheet_name,
                  plan.options.flip == impose::Flip::ShortEdge ? "short" : "long");
  if (made.blanks > 0)
    out += fmt::format("; {} {} {} left blank", made.blanks, words::noun_for(made.blanks, "page"),
                       words::agreed("be", made.blanks));
  out += ".\n";
  if (plan.options.binding.signature > 0)
    out += fmt::format(
        "Fold every {} sheets together, gather the signatures by their stair of bars.\n",
        (plan.options.binding.signature + 3) / 4);
  else
    out += "Lay the sheets together as they come, fold at the dashed lines";
  if (plan.options.binding.signature == 0)
    out += plan.options.staples ? ", staple at the marks.\n" : ".\n";
  if (made.push_out.nm > 0)
    out +=
        fmt::format("The innermost sheet sticks out by {}. Trim the fore edge; the margins allow "
                    "for it.\n",
                    length_text(made.push_out, printing));
  return out;
}

// The full-size guides on whole sheets, printed on one side.
std::optional<OutputFile> guides_file(const Session& session, Findings& findings) {
  const Project& project = session.planned.reading.project;
  const guide::Document document = guide::full_size_guides(project, session.settings.draft);
  if (document.sections.empty()) return std::nullopt;
  RenderedDocument made =
      typeset(document, "booklet-guides", "booklet", session.planned, session.settings);
  append(findings, std::move(made.findings));
  if (made.files.empty()) return std::nullopt;
  return std::move(made.files.front());
}

struct Booklet {
  std::vector<OutputFile> files;
  Findings findings;
  std::string words; // how to go on
};

void note_thick_or_small(const impose::Imposition& made, const impose::BookletOptions& options,
                         Findings& findings) {
  if (made.scale < 1.0)
    findings.push_back(note("booklet-shrunk",
                            fmt::format("the pages are shrunk to {:.0f} %", made.scale * 100),
                            "pages half as large as the sheet",
                            "take a template of half-size pages, or larger sheets"));
  if (options.staples && !made.sheets.empty() && options.binding.signature == 0 &&
      made.paper_sheets > most_stapled_sheets)
    findings.push_back(note("booklet-thick",
                            fmt::format("{} sheets in one fold", made.paper_sheets),
                            fmt::format("at most {} (common practice)", most_stapled_sheets),
                            "bind signatures: --signature 16 --bound"));
}

// The pages on sheets to fold, or `proof` of them on each side of sheets to look at.
void impose_pages(Booklet& booklet, const LaidOut& pages, const Plan& plan, int proof,
                  const Session& session) {
  const Project& project = session.planned.reading.project;
  const text::Fonts& fonts = session.settings.fonts;
  impose::BookletOptions options = plan.options;
  options.binding.sided = pages.page_template.mirrored;
  impose::Imposition made = proof > 0 ? impose::proof(pages.laid.pages, options.sheet, proof, fonts)
                                      : impose::booklet(pages.laid.pages, options, fonts);
  made.marks.title =
      fmt::format("{}, {}", pages.laid.title, proof > 0 ? "proof sheets" : "to fold");
  made.marks.author = pages.laid.author;
  made.marks.language = pages.laid.language;
  made.marks.created = pages.laid.created;
  if (proof == 0) note_thick_or_small(made, options, booklet.findings);
  const Parsed<std::string> written =
      pdf::write_pdf(pages.laid, fonts, project.pictures, pages.options);
  pdf::PdfOptions of_marks = pages.options;
  of_marks.attachments.clear();
  const Parsed<std::string> marks = pdf::write_pdf(made.marks, fonts, {}, of_marks);
  const std::string_view duplex = proof > 0                                 ? "Simplex"
                                  : options.flip == impose::Flip::ShortEdge ? "DuplexFlipShortEdge"
                                                                            : "DuplexFlipLongEdge";
  const Parsed<std::string> sheets = !written ? written
                                     : !marks
                                         ? marks
                                         : impose::composed(*marks, *written, made.sheets, duplex);
  if (!sheets) {
    booklet.findings.push_back(fault(sheets.parse_error()));
    return;
  }
  booklet.files.push_back({project.id + (proof > 0 ? "-proof.pdf" : "-booklet.pdf"), *sheets});
  if (proof > 0) return;
  booklet.files.push_back({project.id + "-booklet-pages.pdf", *written});
  booklet.words = instructions(made, plan, project.printing);
}

} // namespace

int run_booklet(const Arguments& arguments, Environment& environment) {
  auto opened = open_session(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const Session& session = std::get<Session>(opened);
  const PlannedProject& planned = session.planned;
  const Project& project = planned.reading.project;
  const auto plan = plan_of(arguments.folding, project, environment);
  if (!plan) return WrongUse;

  // A template of the user's own decides for itself what is on its pages.
  const int proof = arguments.folding.proof;
  guide::TutorialOptions of_tutorial;
  of_tutorial.draft = session.settings.draft;
  of_tutorial.guides_apart = session.settings.page_template.empty();
  ProgressLine line(arguments, environment);
  line.show("Laying out the booklet");
  const LaidOut pages = laid_out(guide::tutorial(project, planned.sheets, of_tutorial), "booklet",
                                 plan->page_template, planned, session.settings);
  Booklet booklet;
  booklet.findings = planned.findings;
  append(booklet.findings, pages.findings);
  if (!pages.laid.pages.empty()) impose_pages(booklet, pages, *plan, proof, session);
  if (of_tutorial.guides_apart && proof == 0 && !booklet.files.empty())
    if (std::optional<OutputFile> guides = guides_file(session, booklet.findings)) {
      booklet.words += fmt::format("Print {} on one side only, at 100 %, and lay its sheets in.\n",
                                   guides->name);
      booklet.files.push_back(std::move(*guides));
    }
  line.clear();
  if (const auto code =
          stopped_by(booklet.findings, planned.reading.sources, arguments, environment))
    return *code;
  const int code = write_all(booklet.files, arguments, arguments.quiet, environment);
  if (code == Done && !arguments.quiet) environment.out << booklet.words;
  return code;
}

} // namespace leafwright::app
