#include "app/verbs/internal/verb_table.h"

#include "app/documents/documents.h"

#include <algorithm>
#include <array>

namespace leafwright::app {

namespace {

constexpr Operand project{"PROJECT.xml", "the project file"};
constexpr std::string_view begin = "Start and check", documents = "Documents of one project",
                           change = "When something changes", help = "Help";

constexpr std::array first_verbs{
    Verb{"new", "start a project: a small one that you can build right away", begin, NoFamily,
         Operand{"NAME", "what the set of cards is called"}, "\"Fog and Fern\"",
         "\"Fog and Fern\" -o projects", run_new},
    Verb{"check", "list what does not fit, and how to fix it", begin, Reads,
         Operand{"PROJECT.xml", "the project file", 0, 1}, "project.xml", "--rules", run_check},
    Verb{"open", "see, change and make a project on a page in your browser", begin, NoFamily,
         Operand{"FOLDER|PROJECT.xml", "the project or its folder; without it, this folder", 0, 1},
         "project.xml", "--port 8080 --no-browser", run_open},
    Verb{"parts", "plan the cutting of a plain list of pieces, without a project; prints JSON",
         begin, NoFamily, Operand{"PIECES.csv SHEETS.csv", "the pieces and the sheets", 2, 2},
         "pieces.csv sheets.csv --unit \"1/16 in\"", "pieces.csv sheets.csv --measures inch",
         run_parts},
};

// After the documents that can be asked for by name.
constexpr std::array more_verbs{
    Verb{"all", "every document above", documents, Reads | Makes, project, "project.xml -o out",
         "project.xml -o out --paper a4", run_documents},
    Verb{"booklet", "the tutorial on half-size pages: sheets to print and fold, pages to read",
         documents, Reads | Makes, project, "project.xml -o out",
         "project.xml -o out --signature 16 --bound", run_booklet},
    Verb{"copies", "a copy of the tutorial for each buyer, with name and order number", documents,
         Reads | Makes, project, "project.xml -o out",
         "project.xml -o out --name \"Ada Quillfeather\" --number 1043", run_copies},
    Verb{"pictures", "every view and step of the cards, a contact sheet, posters: PNG and SVG",
         documents, Reads | Makes, project, "project.xml -o out",
         "project.xml -o out --width 2400 --size 1500x500", run_pictures},

    Verb{"effects", "what would follow from another value, before you write it", change, Reads,
         project, "project.xml --set mat.width=4in", "project.xml --set kraft.price=9.00 --write",
         run_effects},
    Verb{"compare", "two editions: what changes, what still serves, what to send", change, Reads,
         Operand{"OLD NEW", "project files, or PDFs made with --with-project", 2, 2},
         "old.xml new.xml", "old.pdf new.xml --cut C=80 -o out --bars", run_compare},
    Verb{"family", "one design at several sizes: findings, sheets and cost", change, Reads, project,
         "project.xml --vary cards.size=A2,A6",
         "project.xml --vary \"cards.size,a2.size=A2,A6,A7\"", run_family},
    Verb{"remeasure", "the same design in millimeters or inches, every measure chosen anew", change,
         Reads, project, "project.xml", "project.xml --usual all -o metric.xml", run_remeasure},
    Verb{"watch", "make documents again whenever a file is saved", change, Reads, project,
         "project.xml -o out", "project.xml -o out --make tutorial --make offer", run_watch},
    Verb{"batch", "documents of every project in a folder, on all cores", change, Reads,
         Operand{"FOLDER", "where the projects are"}, "projects -o out",
         "projects -o out --make tutorial --make buying-list", run_batch},
    Verb{"status", "which PDFs and texts in a folder are up to date", change, Reads,
         Operand{"FOLDER PROJECT.xml...", "the folder of PDFs, then the projects they come from", 1,
                 1000},
         "out project.xml", "out projects/*/project.xml", run_status},

    Verb{"help", "help on a command or a topic, manual pages, completions", help, NoFamily,
         Operand{"COMMAND|TOPIC", "without it, all commands and topics", 0, 1}, "tutorial",
         "--completions bash", run_help},
};

bool names(std::string_view list, std::string_view name) {
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(' '), list.size());
    if (list.substr(0, end) == name) return true;
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return false;
}

} // namespace

std::vector<Verb> verbs() {
  std::vector<Verb> all(first_verbs.begin(), first_verbs.end());
  for (const DocumentKind& kind : document_kinds())
    all.push_back({kind.verb, kind.purpose, documents, Reads | Makes | Documents, project,
                   "project.xml -o out", kind.example, run_documents});
  all.insert(all.end(), more_verbs.begin(), more_verbs.end());
  return all;
}

std::optional<Verb> find_verb(std::string_view name) {
  for (const Verb& verb : verbs())
    if (verb.name == name) return verb;
  return std::nullopt;
}

std::vector<Option> options_of(const Verb& verb) {
  std::vector<Option> all;
  std::ranges::copy_if(all_options, std::back_inserter(all), [&](const Option& option) {
    return (option.families & verb.families) != 0 || names(option.verbs, verb.name);
  });
  return all;
}

} // namespace leafwright::app
