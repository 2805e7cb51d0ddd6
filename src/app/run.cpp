#include "app/run.h"

#include "app/arguments.h"
#include "app/exit_codes.h"
#include "app/verbs.h"

#include <ostream>

namespace leafwright::app {

int run(const std::vector<std::string>& words, Surroundings surroundings) {
  const Parsing parsing = parse_arguments(words);
  if (!parsing.arguments) {
    (parsing.to_error_stream ? surroundings.error : surroundings.out) << parsing.text;
    return parsing.exit_code;
  }
  const Arguments& arguments = *parsing.arguments;
  if (arguments.verb == "check") return check(arguments, surroundings);
  if (arguments.verb == "new") return begin_project(arguments, surroundings);
  if (arguments.verb == "parts") return plan_parts_list(arguments, surroundings);
  if (arguments.verb == "booklet") return make_booklet(arguments, surroundings);
  if (arguments.verb == "pictures") return make_pictures(arguments, surroundings);
  if (arguments.verb == "copies") return make_copies(arguments, surroundings);
  if (arguments.verb == "effects") return show_effects(arguments, surroundings);
  if (arguments.verb == "compare") return compare_editions(arguments, surroundings);
  if (arguments.verb == "family") return show_family(arguments, surroundings);
  if (arguments.verb == "remeasure") return remeasure(arguments, surroundings);
  if (arguments.verb == "watch") return watch(arguments, surroundings);
  if (arguments.verb == "batch") return make_batch(arguments, surroundings);
  if (arguments.verb == "status") return show_status(arguments, surroundings);
  return make_documents(arguments, surroundings);
}

} // namespace leafwright::app
