#pragma once

#include "basics/parsed.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace leafwright::file {

// What writing a file asks of the system, so that a test can be a full or failing disk. Each
// answers with a value of 0 or more, or with a negative errno.
struct Disk {
  std::function<int(const std::string& path, int flags, unsigned mode)> open;
  std::function<std::int64_t(int descriptor, std::string_view bytes)> write; // how many were taken
  std::function<int(int descriptor, unsigned mode)> set_mode;
  std::function<int(int descriptor)> sync;
  std::function<int(int descriptor)> close;
  std::function<int(int descriptor, const std::string& path)> name; // gives a nameless file a name
  std::function<int(const std::string& from, const std::string& to)> rename;
  std::function<int(const std::string& path)> remove;
};

Disk real_disk();

// Puts `bytes` at `path`, wholly or not at all: they go into a new file of the same folder, are
// forced to the disk, and only then take the name. A file that was there before keeps its
// permissions, and survives whatever goes wrong. Where the system has nameless files, nothing is
// left behind even if the program is killed midway. A symbolic link stays one: the file it leads to
// is replaced. What is no plain file (a pipe, /dev/stdout) is written to as it is.
//
// Nothing when it worked, else what went wrong. A write-protected file is refused, although the
// folder would allow replacing it.
std::optional<ParseError> write_file(const std::string& path, std::string_view bytes,
                                     const Disk& disk = real_disk());

} // namespace leafwright::file
