#pragma once

#include <string>
#include <string_view>

// Outside programs as witnesses: qpdf, poppler's tools. They are in the list that tests/run
// installs.

namespace leafwright::tools {

struct Outcome {
  int status = -1;
  std::string output; // standard output and error
};

// Runs `command` by the shell; {} stands for the path of a file that holds `bytes`.
Outcome run_on(std::string_view bytes, std::string command, const char* suffix = ".pdf");
std::string read_file(const std::string& path);
// A fresh folder for one test, removed with everything in it at the end.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string path(std::string_view name) const { return path_ + "/" + std::string(name); }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

} // namespace leafwright::tools
