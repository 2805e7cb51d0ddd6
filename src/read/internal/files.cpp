#include "read/read.h"

#include "basics/jpeg_segments.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "read/internal/elements.h"
#include "read/internal/fields.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <system_error>

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

namespace leafwright::reading {
namespace {

struct Header {
  Picture::Kind kind = Picture::Kind::Png;
  int width = 0, height = 0;
  int orientation = 1;
};

std::uint32_t big_endian(std::string_view bytes, std::size_t at, std::size_t count) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < count && at + i < bytes.size(); ++i)
    value = value << 8U | static_cast<std::uint8_t>(bytes[at + i]);
  return value;
}

// PNG (ISO/IEC 15948, 11.2.2): the size stands in the first chunk.
std::optional<Header> png_header(std::string_view bytes) {
  if (!bytes.starts_with("\x89PNG\r\n\x1a\n") || bytes.size() < 33) return std::nullopt;
  if (bytes.substr(12, 4) != "IHDR") return std::nullopt;
  const std::uint32_t width = big_endian(bytes, 16, 4), height = big_endian(bytes, 20, 4);
  if (width > 0x7FFFFFFF || height > 0x7FFFFFFF) return std::nullopt;
  return Header{Picture::Kind::Png, static_cast<int>(width), static_cast<int>(height)};
}

// The orientation in an Exif segment (CIPA DC-008): a TIFF 6.0 header, then entries of 12 bytes.
int exif_orientation(std::string_view segment) {
  constexpr std::string_view mark("Exif\0\0", 6);
  if (!segment.starts_with(mark)) return 1;
  const std::string_view tiff = segment.substr(mark.size());
  const bool little = tiff.starts_with("II");
  if (!little && !tiff.starts_with("MM")) return 1;
  const auto number = [&](std::size_t at, std::size_t count) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < count && at + i < tiff.size(); ++i) {
      const std::size_t byte = little ? count - 1 - i : i;
      value =
          value << 8U | static_cast<std::uint8_t>(at + byte < tiff.size() ? tiff[at + byte] : 0);
    }
    return value;
  };
  constexpr std::uint32_t orientation_tag = 274;
  const std::size_t directory = number(4, 4);
  if (directory < 8 || directory + 2 > tiff.size()) return 1;
  const std::uint32_t entries = number(directory, 2);
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t entry = directory + 2 + i * 12;
    if (entry + 12 > tiff.size()) return 1;
    if (number(entry, 2) != orientation_tag) continue;
    const std::uint32_t value = number(entry + 8, 2);
    return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
  }
  return 1;
}

// JPEG (ISO/IEC 10918-1, B.2.2): the size stands in the frame header, behind other segments.
std::optional<Header> jpeg_header(std::string_view bytes) {
  if (!bytes.starts_with("\xFF\xD8\xFF")) return std::nullopt;
  int orientation = 1;
  JpegSegments segments(bytes);
  while (const auto segment = segments.next()) {
    if (segment->is_frame() && segment->body.size() >= 5)
      return Header{Picture::Kind::Jpeg, static_cast<int>(big_endian(segment->body, 3, 2)),
                    static_cast<int>(big_endian(segment->body, 1, 2)), orientation};
    if (segment->begins_data()) return std::nullopt;
    if (segment->is_exif() && orientation == 1) orientation = exif_orientation(segment->body);
  }
  return std::nullopt;
}

} // namespace

int picture_of(Context& context, const Element& element, std::string_view attribute) {
  const auto value = element.attribute(attribute);
  if (!value) return -1;
  const std::string& name = value->text();
  const auto refuse = [&](std::string_view code, std::string found, std::string expected,
                          std::string fix) {
    context.journal.error(code, value->place(), fmt::format("{}: {}", detail::shown(name), found),
                          std::move(expected), std::move(fix));
    return -1;
  };
  for (std::size_t i = 0; i < context.project.pictures.size(); ++i)
    if (context.project.pictures[i].path == name) return static_cast<int>(i);

  const std::string inside = "a file in the project's folder";
  if (const std::string fault = name_fault(name); !fault.empty()) {
    return refuse("read-outside", fault, inside,
                  "put the picture beside the project and name it with forward slashes");
  }
  const FileAccess& files = context.options.files;
  const std::string path = context.project.folder + "/" + name;
  const std::string real = files.real_path(path);
  if (real.empty()) {
    return refuse("read-no-file", "there is no such file", inside,
                  "mend the name, or put the picture there");
  }
  if (!lies_inside(real, files.real_path(context.project.folder))) {
    return refuse("read-outside", "a link leads out of the project's folder", inside,
                  "put the picture itself beside the project");
  }
  FileBytes bytes = files.read(real, context.options.most_picture_bytes);
  if (const auto* fault = std::get_if<FileFault>(&bytes))
    return refuse("read-no-file", fault->words, inside, "mend the name or the file");

  Picture picture;
  picture.path = name;
  picture.bytes = std::move(std::get<std::string>(bytes));
  auto header = png_header(picture.bytes);
  if (!header) header = jpeg_header(picture.bytes);
  if (!header || header->width <= 0 || header->height <= 0) {
    return refuse("read-picture", "neither PNG nor JPEG, or damaged", "a PNG or JPEG picture",
                  "save the picture as PNG or JPEG");
  }
  constexpr int most_side = 30'000;
  if (header->width > most_side || header->height > most_side) {
    return refuse("read-picture", fmt::format("{} × {} pixels", header->width, header->height),
                  fmt::format("at most {} on a side", most_side), "make the picture smaller");
  }
  picture.kind = header->kind;
  picture.orientation = header->orientation;
  const bool lies = header->orientation > 4; // on its side
  picture.width_px = lies ? header->height : header->width;
  picture.height_px = lies ? header->width : header->height;
  context.project.pictures.push_back(std::move(picture));
  return static_cast<int>(context.project.pictures.size()) - 1;
}

} // namespace leafwright::reading
