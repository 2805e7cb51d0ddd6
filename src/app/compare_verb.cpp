#include "app/editions.h"
#include "app/exit_codes.h"
#include "app/studio.h"
#include "app/verbs.h"
#include "guide/plain/plain.h"

#include <ostream>

namespace leafwright::app {

int compare_editions(const Arguments& arguments, Surroundings& surroundings) {
  std::variant<Workshop, int> opened = open_workshop(arguments, surroundings);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  Workshop& workshop = std::get<Workshop>(opened);
  auto first = open_edition(arguments.inputs.at(0), {}, workshop, arguments, surroundings);
  if (const int* code = std::get_if<int>(&first)) return *code;
  auto second =
      open_edition(arguments.inputs.at(1), arguments.set, workshop, arguments, surroundings);
  if (const int* code = std::get_if<int>(&second)) return *code;
  const Opened& before = std::get<Opened>(first);
  const Opened& after = std::get<Opened>(second);
  Told told;
  if (!compare_opened(told, before, after, edit::patch(before.bytes, after.bytes).written,
                      arguments, surroundings))
    return WrongUse;
  if (arguments.json)
    surroundings.out << guide::change_json(*told.story);
  else
    surroundings.out << guide::plain_text(guide::change_report(*told.story));
  if (arguments.out == ".") return Done;
  return write_story(told, before, after, workshop, arguments, surroundings);
}

} // namespace leafwright::app
