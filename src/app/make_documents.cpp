#include "app/documents.h"
#include "app/exit_codes.h"
#include "app/findings.h"
#include "app/making.h"
#include "app/orders.h"
#include "app/progress.h"
#include "app/studio.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "output/write_file.h"

#include <filesystem>
#include <iterator>
#include <ostream>
#include <variant>

namespace leafwright::app {

namespace {

int write_depfile(const std::vector<MadeFile>& files, const Prepared& prepared,
                  const Workshop& workshop, const Arguments& arguments,
                  Surroundings& surroundings) {
  if (arguments.depfile.empty()) return Done;
  std::vector<std::string> targets;
  targets.reserve(files.size());
  for (const MadeFile& made : files)
    targets.push_back((std::filesystem::path(arguments.out) / made.name).string());
  const auto fault =
      file::write_file(arguments.depfile, depfile_text(targets, inputs_of(prepared, workshop)));
  if (!fault) return Done;
  complain(*fault, surroundings);
  return NotWritten;
}

} // namespace

int make_documents(const Arguments& arguments, Surroundings& surroundings) {
  std::variant<Studio, int> opened = open_studio(arguments, surroundings);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  Workshop& workshop = std::get<Studio>(opened).workshop;
  Kept kept; // documents of one run share drawings and streams
  workshop.kept = &kept;
  Prepared& prepared = std::get<Studio>(opened).prepared;
  const Sources& sources = prepared.reading.sources;

  if (const DocumentKind* wanted = find_document(arguments.verb); !wanted || wanted->of_run) {
    if (!arguments.quiet && surroundings.error_is_terminal)
      surroundings.error << "Planning the cuts of the whole run ...\n" << std::flush;
    ProgressLine line(arguments, surroundings);
    plan_run(prepared, line.effort());
  } else if (wanted->of_orders) {
    take_orders(prepared);
  }
  if (stops(prepared.order_findings, arguments) && !arguments.draft) {
    print_findings(prepared.order_findings, sources, arguments, surroundings);
    complain("nothing was made", surroundings);
    return FoundErrors;
  }

  Findings findings = prepared.findings;
  append(findings, prepared.order_findings);
  if (prepared.buying) append(findings, prepared.buying->findings);
  std::vector<MadeFile> files;
  for (const DocumentKind& kind : document_kinds()) {
    if (arguments.verb != "all" && arguments.verb != kind.verb) continue;
    Made made = kind.make(prepared, workshop);
    append(findings, std::move(made.findings));
    files.insert(files.end(), std::make_move_iterator(made.files.begin()),
                 std::make_move_iterator(made.files.end()));
  }
  print_findings(findings, sources, arguments, surroundings);
  if (stops(findings, arguments) && !arguments.draft) {
    complain("nothing was written", surroundings);
    return FoundErrors;
  }
  if (const int code = write_all(files, arguments, arguments.quiet, surroundings); code != Done)
    return code;
  return write_depfile(files, prepared, workshop, arguments, surroundings);
}

} // namespace leafwright::app
