#include "app/local_page/internal/assets.h"

#include "read/read.h"

#include <array>
#include <filesystem>
#include <string_view>
#include <utility>
#include <variant>

namespace leafwright::local_page {

namespace {

namespace fs = std::filesystem;

std::string_view type_of(std::string_view name) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 8> types{{
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".mjs", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".svg", "image/svg+xml"},
      {".ttf", "font/ttf"},
      {".otf", "font/otf"},
      {".png", "image/png"},
  }};
  for (const auto& [end, type] : types)
    if (name.ends_with(end)) return type;
  return {};
}

} // namespace

Response asset(const std::string& data_folder, const Request& request) {
  constexpr std::string_view pages = "/page/", fonts = "/page/fonts/";
  std::string folder = data_folder + "/templates/page";
  std::string_view name = request.path;
  if (name == "/") {
    name = "index.html";
  } else if (name.starts_with(fonts)) {
    name.remove_prefix(fonts.size());
    folder = data_folder + "/fonts";
  } else if (name.starts_with(pages)) {
    name.remove_prefix(pages.size());
  } else {
    return refusal(404, "There is nothing at this address.", "Go back to the page.");
  }
  constexpr std::size_t most = 16'000'000;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(folder, ignored)) {
    if (entry.path().filename().string() != name || !entry.is_regular_file(ignored)) continue;
    const std::string_view type = type_of(name);
    if (type.empty()) break;
    FileBytes file = disk_access().read(entry.path().string(), most);
    auto* bytes = std::get_if<std::string>(&file);
    if (bytes == nullptr) break;
    Response response;
    response.type = type;
    response.body = std::move(*bytes);
    return response;
  }
  return refusal(404, "There is nothing at this address.", "Go back to the page.");
}

} // namespace leafwright::local_page
