#include "app/documents/session.h"
#include "app/local_page/local_page.h"
#include "app/system/diagnostics.h"
#include "app/verbs/internal/verb_table.h"

#include <fmt/format.h>

#include <filesystem>
#include <string>
#include <variant>

#include <unistd.h>

namespace leafwright::app {

int run_open(const Arguments& arguments, Environment& environment) {
  const std::string path = arguments.inputs.empty() ? "." : arguments.inputs.front();
  std::error_code failed;
  if (!std::filesystem::exists(path, failed)) {
    report(fmt::format("{}: there is no such file or folder", path), environment);
    return NotWritten;
  }
  std::variant<RenderSettings, int> opened = open_settings(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  local_page::PageSettings page;
  page.port = arguments.page.port;
  page.browser = !arguments.page.no_browser;
  page.listens_to_keys = isatty(STDIN_FILENO) == 1;
  return local_page::serve_local_page(path, page, std::get<RenderSettings>(opened), environment);
}

} // namespace leafwright::app
