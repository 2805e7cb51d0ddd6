#pragma once

#include <cstdint>
#include <functional>
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

} // namespace leafwright::file
