#pragma once

#include "measure/parsed.h"
#include "output/file/disk.h"

#include <optional>
#include <string>
#include <string_view>

namespace leafwright::file {

// Puts `bytes` at `path`, wholly or not at all: they go into a new file of the same folder, are
// forced to the disk, and only then take the name. A file that was there before keeps its
// permissions, and survives whatever goes wrong. Where the system has nameless files, nothing is
// left behind even if the program is killed midway. A symbolic link stays one: the file it leads to
// is replaced. What is no plain file (a pipe, /dev/stdout) is written to as it is.
//
// Nothing when it worked, else what went wrong. A write-protected file is refused, although the
// folder would allow replacing it.
std::optional<Misread> write_file(const std::string& path, std::string_view bytes,
                                  const Disk& disk = real_disk());

} // namespace leafwright::file
