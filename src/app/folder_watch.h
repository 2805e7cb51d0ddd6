#pragma once

#include <chrono>
#include <map>
#include <string>
#include <vector>

namespace leafwright::app {

// Waits for files below some folders to be saved. Folders are watched rather than files: an editor
// that writes a new file and renames it over the old one is seen too.
class FolderWatch {
 public:
  FolderWatch();
  ~FolderWatch();
  FolderWatch(const FolderWatch&) = delete;
  FolderWatch& operator=(const FolderWatch&) = delete;

  bool ok() const { return descriptor_ >= 0; }
  // A folder that is watched already, or is not there, is no matter.
  void add(const std::string& folder);
  // Names of the folders' files that were written, renamed or removed, once nothing more has come
  // for `quiet`. Waits at most `most`; then the list is empty.
  std::vector<std::string> wait(std::chrono::milliseconds quiet, std::chrono::milliseconds most);

 private:
  bool take(std::vector<std::string>& names);

  int descriptor_ = -1;
  std::map<int, std::string> folders_;
};

} // namespace leafwright::app
