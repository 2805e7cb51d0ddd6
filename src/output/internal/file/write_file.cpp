#include "output/write_file.h"

#include "measure/index.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>

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

namespace {

constexpr unsigned new_file_mode = 0666; // less what the user's umask takes away

struct Reason {
  std::string found, fix;
};
Reason reason(int error) {
  switch (error) {
  case ENOSPC:
  case EDQUOT: return {"the disk is full", "free some space, or write to another disk"};
  case EACCES:
  case EPERM:
    return {"it may not be written", "allow writing to it and its folder, or write elsewhere"};
  case EROFS: return {"its disk is read-only", "write to another disk"};
  case ENOENT: return {"its folder does not exist", "make the folder first"};
  case ENOTDIR: return {"part of its path is a file, not a folder", "correct the path"};
  case EISDIR: return {"it is a folder", "name a file inside it"};
  case ENAMETOOLONG: return {"its name is too long", "use a shorter name"};
  case EIO: return {"the disk reports an error", "check the disk"};
  default: return {fmt::format("the system refuses it (error {})", error), "write elsewhere"};
  }
}

ParseError failure(const std::string& path, std::int64_t error) {
  Reason why = reason(static_cast<int>(error < 0 ? -error : error));
  return {0, 0, fmt::format("{} cannot be written: {}", path, why.found),
          "a place for the file; nothing was changed", std::move(why.fix)};
}

// 0 or a negative errno. A disk that takes nothing without saying why is as good as full.
int write_all(const Disk& disk, int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const std::int64_t taken = disk.write(descriptor, bytes);
    if (taken < 0) return static_cast<int>(taken);
    if (taken == 0) return -ENOSPC;
    bytes.remove_prefix(as_index(taken));
  }
  return 0;
}

// The new file on its way: nameless where possible, else with a name of its own from the start.
class NewFile {
 public:
  NewFile(const Disk& disk, std::filesystem::path target)
      : disk_(disk), target_(std::move(target)) {
    folder_ = target_.parent_path().string();
    if (folder_.empty()) folder_ = ".";
  }
  ~NewFile() {
    if (descriptor_ >= 0) disk_.close(descriptor_);
    if (!name_.empty()) disk_.remove(name_);
  }
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;

  // Each step: 0 or a negative errno.
  int open(bool nameless) {
    if (nameless) descriptor_ = disk_.open(folder_, O_TMPFILE | O_WRONLY, new_file_mode);
    if (descriptor_ >= 0) return 0;
    return for_free_name([this](const std::string& name) {
      descriptor_ = disk_.open(name, O_WRONLY | O_CREAT | O_EXCL, new_file_mode);
      return descriptor_ < 0 ? descriptor_ : 0;
    });
  }
  int fill(std::string_view bytes, std::optional<unsigned> mode) {
    if (const int error = write_all(disk_, descriptor_, bytes); error < 0) return error;
    if (mode)
      if (const int error = disk_.set_mode(descriptor_, *mode); error < 0) return error;
    return disk_.sync(descriptor_);
  }
  int take_name() {
    if (!name_.empty()) return 0;
    return for_free_name([this](const std::string& name) { return disk_.name(descriptor_, name); });
  }
  int take_place() {
    const int closed = disk_.close(descriptor_);
    descriptor_ = -1;
    if (closed < 0) return closed;
    if (const int error = disk_.rename(name_, target_.string()); error < 0) return error;
    name_.clear();
    sync_folder();
    return 0;
  }

 private:
  template <class Attempt>
  int for_free_name(Attempt attempt) {
    constexpr int most_attempts = 100;
    for (int i = 0; i < most_attempts; ++i) {
      std::string name = fmt::format("{}/.{}.{}-{}.part", folder_,
                                     target_.filename().string().substr(0, 100), ::getpid(), i);
      const int error = attempt(name);
      if (error == 0) name_ = std::move(name);
      if (error != -EEXIST) return error;
    }
    return -EEXIST;
  }
  // So that the new name outlasts a power cut. Some file systems cannot; the file is whole anyway.
  void sync_folder() {
    const int folder = disk_.open(folder_, O_RDONLY | O_DIRECTORY, 0);
    if (folder < 0) return;
    disk_.sync(folder);
    disk_.close(folder);
  }

  const Disk& disk_;
  std::filesystem::path target_;
  std::string folder_, name_;
  int descriptor_ = -1;
};

std::optional<ParseError> write_through(const std::string& path, std::string_view bytes,
                                        const Disk& disk) {
  const int descriptor = disk.open(path, O_WRONLY, 0);
  if (descriptor < 0) return failure(path, descriptor);
  const int written = write_all(disk, descriptor, bytes);
  const int closed = disk.close(descriptor);
  if (written < 0) return failure(path, written);
  if (closed < 0) return failure(path, closed);
  return std::nullopt;
}

} // namespace

std::optional<ParseError> write_file(const std::string& path, std::string_view bytes,
                                     const Disk& disk) {
  std::error_code error;
  std::filesystem::path target(path);
  std::optional<unsigned> mode;
  struct stat before {};
  if (::stat(path.c_str(), &before) == 0) {
    if (S_ISDIR(before.st_mode)) return failure(path, EISDIR);
    if (!S_ISREG(before.st_mode)) return write_through(path, bytes, disk);
    if (::access(path.c_str(), W_OK) != 0) return failure(path, errno);
    mode = before.st_mode & 07777U;
    target = std::filesystem::canonical(target, error); // through symbolic links
    if (error) target = path;
  }
  // A nameless file cannot be named where /proc is not mounted: then once more, with a name.
  int failed = 0;
  for (const bool nameless : {true, false}) {
    NewFile file(disk, target);
    failed = file.open(nameless);
    if (failed == 0) failed = file.fill(bytes, mode);
    if (failed < 0) break;
    failed = file.take_name();
    if (failed < 0 && nameless) continue;
    if (failed == 0) failed = file.take_place();
    break;
  }
  if (failed < 0) return failure(path, failed);
  return std::nullopt;
}

} // namespace leafwright::file
