#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

// What the program asks of Linux beside files: processes that share out work, word of what is
// saved, and where its own files lie.
//
//   run_in_processes(
//       paths.size(), 0, [&](std::size_t i) { return make_one(paths[i]); },
//       [&](std::size_t i, std::string answer) { answers[i] = std::move(answer); });

namespace leafwright::app {

// Does `count` pieces of work in several processes that share nothing: a fault in one piece ends
// that piece alone, memory goes back when its process ends, and the libraries need not bear
// threads. `done` is called here, in the order in which work ends, with what `work` said; where a
// process died at its work, with words that say so. One that died while it had nothing to do is
// replaced. `jobs` 0: as many processes as there are cores. The number of processes is answered.
int run_in_processes(std::size_t count, int jobs,
                     const std::function<std::string(std::size_t)>& work,
                     const std::function<void(std::size_t, std::string)>& done);

// Waits for files below some folders to be saved. Folders are watched rather than files: an editor
// that writes a new file and renames it over the old one is seen too.
class FolderWatch {
 public:
  FolderWatch();
  ~FolderWatch();
  FolderWatch(const FolderWatch&) = delete;
  FolderWatch& operator=(const FolderWatch&) = delete;

  bool ok() const { return descriptor_ >= 0; } // else the system gives no more watches
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

// Shows a folder or an address in the program that the maker uses for such. False when the system
// knows none.
bool open_with_system(std::string what);

// Where fonts/ and templates/ are: `variable` (LEAFWRIGHT_DATA) if it is set; else
// ../share/leafwright beside an installed program, else the nearest folder above the program that
// has both (a build inside the sources). Nothing when there is none.
std::optional<std::string> find_data_folder(const char* variable);

} // namespace leafwright::app
