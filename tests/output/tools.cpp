#include "tools.h"

#include <doctest/doctest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <sys/wait.h>

namespace leafwright::tools {

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "leafwright-test-XXXXXX").string();
  REQUIRE(mkdtemp(name.data()) != nullptr);
  path_ = name;
}
Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
  std::filesystem::remove_all(path_, ignored);
}

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream content;
  content << file.rdbuf();
  return std::move(content).str();
}

Outcome run_on(std::string_view bytes, std::string command, const char* suffix) {
  const Folder folder;
  const std::string file = folder.path(std::string("file") + suffix);
  std::ofstream(file, std::ios::binary) << bytes;
  for (std::size_t at = command.find("{}"); at != std::string::npos; at = command.find("{}", at))
    command.replace(at, 2, file);
  command += " 2>&1";
  std::FILE* pipe =
      popen(command.c_str(), "r"); // NOLINT(cert-env33-c): fixed commands of the tests
  REQUIRE(pipe != nullptr);
  Outcome outcome;
  std::array<char, 4096> block{};
  for (std::size_t got = 0; (got = std::fread(block.data(), 1, block.size(), pipe)) > 0;)
    outcome.output.append(block.data(), got);
  const int status = pclose(pipe);
  outcome.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return outcome;
}

} // namespace leafwright::tools
