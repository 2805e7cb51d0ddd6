#include "output/file/disk.h"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace leafwright::file {
namespace {

// Repeats a call that a signal cut off; the answer or a negative errno.
template <class Call>
auto answer(Call call) {
  auto result = call();
  while (result < 0 && errno == EINTR) result = call();
  return result < 0 ? static_cast<decltype(result)>(-errno) : result;
}

} // namespace

Disk real_disk() {
  Disk disk;
  disk.open = [](const std::string& path, int flags, unsigned mode) {
    return answer([&] { return ::open(path.c_str(), flags | O_CLOEXEC, mode); });
  };
  disk.write = [](int descriptor, std::string_view bytes) -> std::int64_t {
    return answer([&] { return ::write(descriptor, bytes.data(), bytes.size()); });
  };
  disk.set_mode = [](int descriptor, unsigned mode) {
    return answer([&] { return ::fchmod(descriptor, mode); });
  };
  disk.sync = [](int descriptor) { return answer([&] { return ::fsync(descriptor); }); };
  // Not repeated: after a signal Linux has closed the file all the same.
  disk.close = [](int descriptor) {
    return ::close(descriptor) == 0 || errno == EINTR ? 0 : -errno;
  };
  disk.name = [](int descriptor, const std::string& path) {
    const std::string open_file = "/proc/self/fd/" + std::to_string(descriptor);
    return answer([&] {
      return ::linkat(AT_FDCWD, open_file.c_str(), AT_FDCWD, path.c_str(), AT_SYMLINK_FOLLOW);
    });
  };
  disk.rename = [](const std::string& from, const std::string& to) {
    return answer([&] { return ::rename(from.c_str(), to.c_str()); });
  };
  disk.remove = [](const std::string& path) {
    return answer([&] { return ::unlink(path.c_str()); });
  };
  return disk;
}

} // namespace leafwright::file
