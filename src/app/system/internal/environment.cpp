#include "app/system/environment.h"

#include <filesystem>
#include <system_error>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

bool holds_data(const fs::path& folder) {
  std::error_code failed;
  return fs::is_directory(folder / "fonts", failed) &&
         fs::is_directory(folder / "templates", failed);
}

} // namespace

std::optional<std::string> find_data_folder(const char* variable) {
  if (variable != nullptr && *variable != '\0')
    return holds_data(variable) ? std::optional<std::string>(variable) : std::nullopt;
  std::error_code failed;
  const fs::path program = fs::read_symlink("/proc/self/exe", failed);
  if (failed) return std::nullopt;
  const fs::path installed = program.parent_path().parent_path() / "share" / "leafwright";
  if (holds_data(installed)) return installed.string();
  for (fs::path folder = program.parent_path(); folder != folder.parent_path();
       folder = folder.parent_path())
    if (holds_data(folder)) return folder.string();
  return std::nullopt;
}

} // namespace leafwright::app
