#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <variant>

namespace leafwright {

// Why a file could not be had, in words: "there is no such file", "larger than 32 MB".
struct FileFault {
  enum class Kind { Missing, NotAFile, NotAllowed, TooLarge, Broken };
  Kind kind = Kind::Missing;
  std::string words;
};
using FileBytes = std::variant<std::string, FileFault>;

// The outside world as the reader sees it; tests give it a folder in memory.
struct FileAccess {
  // The whole content of a regular file, or why not; never more than `most` bytes.
  std::function<FileBytes(const std::string& path, std::size_t most)> read;
  // The path with every symbolic link resolved; empty when it does not exist.
  std::function<std::string(const std::string& path)> real_path;
};

FileAccess disk_access();

// Why a name written in a project may not be opened, or nothing: absolute names, `..` that climbs
// out of the folder, backslashes and drive letters are refused by their wording alone.
std::string name_fault(std::string_view name);
// Whether `real` lies in the folder `real_folder`; both resolved.
bool lies_inside(std::string_view real, std::string_view real_folder);

} // namespace leafwright
