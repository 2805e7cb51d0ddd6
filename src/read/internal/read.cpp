#include "read/read.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "model/work.h"
#include "read/document.h"
#include "read/internal/catalogue.h"
#include "read/internal/elements.h"
#include "read/internal/fields.h"
#include "read/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <new>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leafwright {
namespace reading {
namespace {

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
    note_misread(context, *value, step.parse_error());
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
  project.printing.print_other = yes_no(context, root, "print-other", false);
  if (const auto currency = root.attribute("currency")) {
    const auto parsed = parse_currency(currency->view());
    if (parsed)
      project.currency = *parsed;
    else
      note_misread(context, *currency, parsed.parse_error(), "read-money");
  }
  project.edition = whole_number(context, root, "edition", 1, 1, 10'000);
  if (const auto date = root.attribute("date")) {
    const auto parsed = parse_date(date->view());
    if (parsed)
      project.date = (*parsed).date;
    else
      note_misread(context, *date, parsed.parse_error(), "read-date");
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

void read_acceptances(Context& context, const Element& element) {
  for (const Element& child : element.children()) {
    if (child.is("accept"))
      context.project.accepted.push_back({words_of(child, "finding"), words_of(child, "why"),
                                          child.place(), element.place(), element.end()});
    else
      read_acceptances(context, child);
  }
}

void read_body(Context& context, const Element& root) {
  const Catalogue catalogue = read_supplies(context, root.child("supplies"));
  const Drafts drafts(context, catalogue, root.children("card"));
  Resolver resolver(context, catalogue, drafts);
  if (const Element intro = root.child("intro"))
    context.project.intro = author_text(resolver, intro.prose(), -1);
  build_cards(resolver);
  name_works(context.project);
  // No id of theirs is known to the catalogue: only what is written can be named.
  for (Tool& tool : implied_tools(context.project))
    context.project.tools.push_back(std::move(tool));
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
  read_acceptances(context, document.root());
  read_body(context, document.root());
}

} // namespace
} // namespace reading

Reading read_project(std::string_view file_bytes, const std::string& path,
                     const ReadOptions& options) {
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

namespace leafwright::reading {
namespace {

struct Override {
  std::int32_t source = 0;
  std::string_view text, card, id, property;
  std::size_t id_at = 0, property_at = 0;
  bool used = false;        // some thing has the id
  bool unfit = false;       // … but none of them such an attribute
  std::string_view element; // the name of one that has not
};

std::vector<std::string_view> names_for(std::string_view key) {
  std::vector<std::string_view> names;
  const ElementRule* rule = rule_for(key);
  if (rule == nullptr) return names;
  for (const Attribute& one : attributes_of(*rule)) names.push_back(one.name);
  return names;
}

class Applier {
 public:
  Applier(Context& context, Document& document, std::vector<Override> overrides)
      : context_(context), document_(document), overrides_(std::move(overrides)) {}

  void run() {
    const Element root = document_.root();
    match(root, "project", "", "");
    walk(root, "", false);
    for (const Override& one : overrides_) report(one);
  }

 private:
  void walk(const Element& parent, std::string_view card, bool in_supplies) {
    bool ribbon_seen = false;
    for (const Element& child : parent.children()) {
      const auto value = child.attribute("id");
      std::string id = value ? value->text() : "";
      if (id.empty() && (child.is("base") || child.is("run") || child.is("work") ||
                         child.is("labels") || child.is("class")))
        id = child.name();
      if (child.is("ribbon") && !in_supplies) {
        if (id.empty() && !ribbon_seen) id = "ribbon";
        ribbon_seen = true;
      }
      if (!id.empty()) {
        if (known_.size() < 2000) known_.push_back(id);
        const bool spool = in_supplies && (child.is("ribbon") || child.is("twine"));
        match(child, id, card, spool ? "spool" : child.name());
      }
      const bool is_card = child.is("card");
      walk(child, is_card && value ? std::string_view(id) : card,
           in_supplies || child.is("supplies"));
    }
  }

  void match(const Element& element, std::string_view id, std::string_view card,
             std::string_view key) {
    if (key.empty()) key = element.name();
    for (Override& one : overrides_) {
      if (one.id != id || (!one.card.empty() && one.card != card)) continue;
      const std::vector<std::string_view> allowed = names_for(key);
      const std::string_view property = one_spelling(one.property);
      if (std::find(allowed.begin(), allowed.end(), property) == allowed.end()) {
        one.unfit = true;
        one.element = element.name();
        continue;
      }
      one.used = true;
      document_.override_attribute(element, property, one.source);
    }
  }

  void report(const Override& one) {
    if (one.used) return;
    const SourceText& source = context_.sources.at(as_index(one.source));
    if (one.unfit) {
      const bool root = one.id == "project";
      const std::vector<std::string_view> allowed = names_for(root ? "project" : one.element);
      context_.journal.error(
          "read-override", source.place(one.source, one.property_at, one.property.size()),
          fmt::format("{} has no {}", one.id, detail::shown(one.property)),
          fmt::format("an attribute of <{}>", one.element), did_you_mean(one.property, allowed));
      return;
    }
    const std::vector<std::string_view> known(known_.begin(), known_.end());
    context_.journal.error("read-override", source.place(one.source, one.id_at, one.id.size()),
                           fmt::format("nothing is called {}", detail::shown(one.id)),
                           "the id of a thing of the project", did_you_mean(one.id, known));
  }

  Context& context_;
  Document& document_;
  std::vector<Override> overrides_;
  std::vector<std::string> known_;
};

} // namespace

void apply_overrides(Context& context, Document& document, std::int32_t first) {
  std::vector<Override> overrides;
  for (auto i = as_index(first); i < context.sources.size(); ++i) {
    Override one;
    one.source = static_cast<std::int32_t>(i);
    if (!check_encoding(context.sources[i], one.source, context.journal,
                        "type it in a terminal that is set to UTF-8"))
      continue;
    one.text = context.sources[i].text();
    const std::size_t sign = one.text.find('=');
    const std::string_view left = one.text.substr(0, sign);
    const std::size_t stop = left.rfind('.');
    if (sign == std::string_view::npos || stop == std::string_view::npos || stop == 0) {
      context.journal.error("read-override", context.sources[i].place(one.source, 0, left.size()),
                            detail::shown(one.text), "ID.ATTRIBUTE=VALUE, such as mat.width=4in",
                            "write an id, a full stop, an attribute, = and the new value");
      continue;
    }
    const std::size_t slash = left.substr(0, stop).find('/');
    const bool scoped = slash != std::string_view::npos;
    one.card = scoped ? left.substr(0, slash) : std::string_view{};
    one.id_at = scoped ? slash + 1 : 0;
    one.id = left.substr(one.id_at, stop - one.id_at);
    one.property_at = stop + 1;
    one.property = left.substr(stop + 1);
    overrides.push_back(one);
  }
  if (!overrides.empty()) Applier(context, document, std::move(overrides)).run();
}

} // namespace leafwright::reading
