#include "read/read.h"

#include "measure/text_cursor.h"
#include "read/author_text.h"
#include "read/cards.h"
#include "read/catalogue.h"
#include "read/context.h"
#include "read/document.h"
#include "read/encoding.h"
#include "read/fields.h"
#include "read/overrides.h"
#include "read/run.h"
#include "read/selling.h"
#include "read/structure.h"
#include "read/tiers.h"
#include "read/wellformed.h"

#include <fmt/format.h>

#include <array>
#include <new>
#include <utility>

namespace leafwright {
namespace reading {
namespace {

constexpr std::array unit_words = {Named{"inch", Unit::Inch}, Named{"mm", Unit::Millimetre}};
constexpr std::array paper_words = {Named<std::string_view>{"letter", "letter"},
                                    Named<std::string_view>{"a4", "a4"}};

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

// A step of the ruler must be more than nothing and no coarser than an inch.
Length step_of(Context& context, const Element& root, std::string_view name, Length fallback,
               Unit unit) {
  const auto value = root.attribute(name);
  if (!value) return fallback;
  const auto step = parse_length(value->view(), unit);
  if (step && (*step).nm >= 1000 && *step <= inches(1)) return *step;
  if (step)
    note(context, *value, "read-measure", "a step from 0.001 mm to 1 in, such as 1/16",
         "write the smallest part of the ruler");
  else
    note_misread(context, *value, step.misread());
  return fallback;
}

void read_head(Context& context, const Element& root) {
  Project& project = context.project;
  project.id = id_of(context, root);
  project.title = words_of(root, "title", name_from_id(project.id));
  project.subtitle = words_of(root, "subtitle");
  project.language = words_of(root, "language", "en-US");
  context.unit = choice_of(context, root, "units", unit_words, Unit::Inch);
  const bool inch = context.unit == Unit::Inch;
  project.printing.unit = context.unit;
  project.printing.step = step_of(context, root, "print-to",
                                  inch ? inches(0, 1, 16) : millimetres(1) / 2, context.unit);
  project.printing.other_step =
      step_of(context, root, "print-other-to", inch ? millimetres(1) / 2 : inches(0, 1, 16),
              inch ? Unit::Millimetre : Unit::Inch);
  if (const auto currency = root.attribute("currency")) {
    const auto parsed = parse_currency(currency->view());
    if (parsed)
      project.currency = *parsed;
    else
      note_misread(context, *currency, parsed.misread(), "read-money");
  }
  project.edition = whole_number(context, root, "edition", 1, 1, 10'000);
  if (const auto date = root.attribute("date")) {
    const auto parsed = parse_date(date->view());
    if (parsed)
      project.date = (*parsed).date;
    else
      note_misread(context, *date, parsed.misread(), "read-date");
  }
  project.accent = colour_of(context, root, "accent", project.accent);
  project.paper =
      choice_of(context, root, "paper", paper_words, std::string_view(inch ? "letter" : "a4"));
  project.level = words_of(root, "level");
  if (const Element maker = root.child("maker")) {
    project.maker.name = words_of(maker, "name");
    project.maker.contact = words_of(maker, "contact");
    project.maker.web = words_of(maker, "web");
    project.maker.terms = maker.child("terms").prose().text();
  }
  for (const Element& caution : root.children("caution"))
    if (const Value words = caution.prose(); !words.empty())
      project.cautions.push_back(words.text());
}

void read_body(Context& context, const Element& root) {
  const Catalogue catalogue = read_supplies(context, root.child("supplies"));
  const Drafts drafts(context, catalogue, root.children("card"));
  Resolver resolver(context, catalogue, drafts);
  if (const Element intro = root.child("intro"))
    context.project.intro = author_text(resolver, intro.prose(), -1);
  build_cards(resolver);
  read_tiers(resolver, root.children("tier"));
  if (const Element run = root.child("run")) read_run(resolver, run);
  if (const Element selling = root.child("selling")) read_selling(context, selling);
}

void read_all(Reading& reading, Journal& journal, const std::string& path,
              const ReadOptions& options) {
  const SourceText& file = reading.sources.front();
  reading.project.files.push_back(path);
  reading.project.folder = folder_of(path);
  Context context{options, reading.sources, journal, reading.project};
  if (!check_encoding(file, 0, journal)) return;
  if (!check_well_formed(file, 0, options.most_depth, journal)) return;
  Document document(reading.sources, 0);
  if (!document.parse(journal) || !check_structure(document, journal)) return;
  apply_overrides(context, document, 1);
  read_head(context, document.root());
  read_body(context, document.root());
}

} // namespace
} // namespace reading

Reading read_project(std::string_view file_bytes, std::string path, const ReadOptions& options) {
  Reading reading;
  reading::Journal journal(options.most_findings);
  try {
    const bool too_large = file_bytes.size() > options.most_bytes;
    reading.sources.reserve(1 + options.overrides.size());
    reading.sources.emplace_back(path, std::string(too_large ? std::string_view{} : file_bytes));
    for (const std::string& text : options.overrides) reading.sources.emplace_back("--set", text);
    if (too_large) {
      journal.error(
          "read-too-large", {0, 0, 0, 0}, fmt::format("a file of {} bytes", file_bytes.size()),
          fmt::format("at most {} MB", options.most_bytes / 1'000'000), "name a project file");
    } else {
      reading::read_all(reading, journal, path, options);
    }
  } catch (const std::bad_alloc&) { // of this room, pugixml or the containers
    journal.error("read-memory", {0, 0, 0, 0}, "a project that does not fit in memory",
                  "a smaller project", "divide it into several");
  }
  reading.findings = journal.take();
  return reading;
}

Reading read_project_file(const std::string& path, const ReadOptions& options) {
  FileBytes bytes = options.files.read(path, options.most_bytes);
  if (const auto* text = std::get_if<std::string>(&bytes))
    return read_project(*text, path, options);
  const FileFault& fault = std::get<FileFault>(bytes);
  Reading reading;
  reading.sources.emplace_back(path, "");
  reading.project.files.push_back(path);
  reading.project.folder = reading::folder_of(path);
  const bool large = fault.kind == FileFault::Kind::TooLarge;
  reading.findings.push_back({Severity::Error,
                              large ? "read-too-large" : "read-no-file",
                              {0, 0, 0, 0},
                              fault.words,
                              "a project file",
                              large ? "name a project file, not a picture or an archive"
                                    : "mend the name, or write one with: leafwright new NAME",
                              {}});
  return reading;
}

} // namespace leafwright
