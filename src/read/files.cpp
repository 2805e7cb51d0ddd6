#include "read/files.h"

#include "measure/index.h"

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace leafwright {
namespace {

FileFault fault_of(int error) {
  using Kind = FileFault::Kind;
  switch (error) {
  case ENOENT:
  case ENOTDIR: return {Kind::Missing, "there is no such file"};
  case EACCES:
  case EPERM: return {Kind::NotAllowed, "it may not be read: permission denied"};
  case EISDIR: return {Kind::NotAFile, "it is a folder"};
  case ELOOP: return {Kind::Broken, "its links lead in a circle"};
  case ENAMETOOLONG: return {Kind::Missing, "its name is too long"};
  default: return {Kind::Broken, "it cannot be read: " + std::generic_category().message(error)};
  }
}

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }

 private:
  int number_;
};

FileFault too_large(std::size_t most) {
  return {FileFault::Kind::TooLarge, fmt::format("it is larger than {} MB", most / 1'000'000)};
}

FileBytes read_file(const std::string& path, std::size_t most) {
  if (path.find('\0') != std::string::npos)
    return FileFault{FileFault::Kind::Missing, "its name holds a NUL"};
  // A pipe without a writer must not hold the program up: open without waiting, then look.
  const Descriptor file(open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.number() < 0) return fault_of(errno);
  struct stat status {};
  if (fstat(file.number(), &status) != 0) return fault_of(errno);
  if (S_ISDIR(status.st_mode)) return FileFault{FileFault::Kind::NotAFile, "it is a folder"};
  if (!S_ISREG(status.st_mode))
    return FileFault{FileFault::Kind::NotAFile, "it is a device or a pipe, not a file"};
  if (status.st_size > 0 && as_index(status.st_size) > most) return too_large(most);
  std::string bytes;
  bytes.reserve(as_index(status.st_size));
  std::array<char, 65536> part{};
  while (true) {
    const ssize_t got = ::read(file.number(), part.data(), part.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return fault_of(errno);
    if (got == 0) return bytes;
    bytes.append(part.data(), as_index(got));
    if (bytes.size() > most) return too_large(most); // it grew while it was read
  }
}

std::string real_path(const std::string& path) {
  std::error_code fault;
  const std::filesystem::path real = std::filesystem::canonical(path, fault);
  return fault ? std::string{} : real.string();
}

} // namespace

FileAccess disk_access() { return {read_file, real_path}; }

std::string name_fault(std::string_view name) {
  if (name.empty()) return "there is no name";
  if (name.find('\0') != std::string_view::npos) return "the name holds a NUL";
  if (name.front() == '/') return "the name begins at the root of the disk";
  if (name.find('\\') != std::string_view::npos) return "the name holds a backslash";
  if (name.size() > 1 && name[1] == ':') return "the name begins with a drive letter";
  int depth = 0;
  for (std::string_view rest = name; !rest.empty();) {
    const std::size_t end = std::min(rest.find('/'), rest.size());
    const std::string_view part = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    if (part == "..")
      --depth;
    else if (!part.empty() && part != ".")
      ++depth;
    if (depth < 0) return "the name leads out of the project's folder";
  }
  return {};
}

bool lies_inside(std::string_view real, std::string_view real_folder) {
  if (real_folder.empty() || real.empty()) return false;
  if (real_folder == "/") return real.front() == '/';
  return real.starts_with(real_folder) && real.size() > real_folder.size() &&
         real[real_folder.size()] == '/';
}

} // namespace leafwright
