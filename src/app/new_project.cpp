#include "app/data_folder.h"
#include "app/exit_codes.h"
#include "app/talk.h"
#include "app/verbs.h"
#include "measure/letters.h"
#include "output/write_file.h"
#include "read/files.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>
#include <string>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

// "Orchard Gate" -> "orchard-gate": letters and digits of ASCII, the rest becomes one hyphen.
std::string id_of(std::string_view title) {
  std::string id;
  for (const char c : title) {
    const bool upper = c >= 'A' && c <= 'Z';
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || upper)
      id += small_letter(c);
    else if (!id.empty() && id.back() != '-')
      id += '-';
  }
  while (!id.empty() && id.back() == '-') id.pop_back();
  if (id.empty() || (id.front() >= '0' && id.front() <= '9')) id.insert(0, "set-");
  while (!id.empty() && id.back() == '-') id.pop_back();
  return id;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

} // namespace

int begin_project(const Arguments& arguments, Surroundings& surroundings) {
  const std::string& title = arguments.inputs.at(0);
  const auto data = find_data_folder(surroundings.data);
  if (!data) {
    complain("the folder with fonts/ and templates/ was not found; set LEAFWRIGHT_DATA to it",
             surroundings);
    return NotWritten;
  }
  FileBytes read = disk_access().read(*data + "/templates/new-project.xml", 1'000'000);
  if (const auto* why = std::get_if<FileFault>(&read)) {
    complain(fmt::format("{}/templates/new-project.xml: {}", *data, why->words), surroundings);
    return NotWritten;
  }
  std::string text = std::get<std::string>(std::move(read));
  const std::string id = id_of(title);
  replace_all(text, "@ID@", id);
  replace_all(text, "@TITLE@", text::xml_text(title));

  std::error_code failed;
  const fs::path folder = fs::path(arguments.out) / id;
  const fs::path target = folder / "project.xml";
  if (fs::exists(target, failed)) {
    complain(fmt::format("{} is there already and was left alone; choose another name or folder",
                         target.string()),
             surroundings);
    return NotWritten;
  }
  fs::create_directories(folder, failed);
  if (failed) {
    complain(fmt::format("{}: {}", folder.string(), failed.message()), surroundings);
    return NotWritten;
  }
  if (const auto fault = file::write_file(target.string(), text)) {
    complain(*fault, surroundings);
    return NotWritten;
  }
  surroundings.out << fmt::format("{}\nNext: leafwright tutorial {} -o {}\n", target.string(),
                                  target.string(), (folder / "out").string());
  return Done;
}

} // namespace leafwright::app
