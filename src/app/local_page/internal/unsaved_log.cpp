#include "app/local_page/internal/unsaved_log.h"

#include "read/read.h"

#include <fmt/format.h>

#include <cerrno>
#include <charconv>
#include <filesystem>
#include <variant>

#include <fcntl.h>
#include <unistd.h>

namespace leafwright::local_page {

namespace {

namespace fs = std::filesystem;
constexpr std::size_t most_bytes = 256'000'000;
constexpr std::string_view first_line = "leafwright unsaved 1\n";

// A length, a sum by which a record that was cut off is known, a line end, and the bytes.
std::string record(std::string_view bytes) {
  return fmt::format("{} {}\n{}\n", bytes.size(), revision_of(bytes), bytes);
}

std::optional<std::string_view> take_record(std::string_view& from) {
  std::size_t length = 0;
  const auto [after, fault] = std::from_chars(from.data(), from.data() + from.size(), length);
  if (fault != std::errc()) return std::nullopt;
  const auto head = static_cast<std::size_t>(after - from.data());
  constexpr std::size_t sum_digits = 32;
  const std::size_t begin = head + 1 + sum_digits + 1;
  if (from.size() < begin || length > from.size() - begin || from.size() - begin - length < 1)
    return std::nullopt;
  const std::string_view bytes = from.substr(begin, length);
  if (from.substr(head + 1, sum_digits) != revision_of(bytes)) return std::nullopt;
  from.remove_prefix(begin + length + 1);
  return bytes;
}

std::string words_of(const Patch& patch) {
  std::string out;
  for (const edit::Edit& one : patch.edits)
    out += fmt::format("{} {} {} ", one.at, one.length, one.bytes.size()) + one.bytes;
  return out;
}

std::optional<std::vector<edit::Edit>> edits_of(std::string_view words, std::size_t whole) {
  std::vector<edit::Edit> edits;
  const auto number = [&](std::size_t& into) {
    const auto [after, fault] = std::from_chars(words.data(), words.data() + words.size(), into);
    if (fault != std::errc() || after == words.data() + words.size() || *after != ' ') return false;
    words.remove_prefix(static_cast<std::size_t>(after - words.data()) + 1);
    return true;
  };
  std::size_t behind = 0;
  while (!words.empty()) {
    edit::Edit one;
    std::size_t length = 0;
    if (!number(one.at) || !number(one.length) || !number(length) || length > words.size())
      return std::nullopt;
    if (one.at < behind || one.at > whole || one.length > whole - one.at) return std::nullopt;
    behind = one.at + one.length;
    one.bytes = words.substr(0, length);
    words.remove_prefix(length);
    edits.push_back(std::move(one));
  }
  return edits;
}

bool write_whole(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(descriptor, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

} // namespace

UnsavedLog::UnsavedLog(const std::string& project_path) {
  const fs::path project(project_path);
  path_ = (project.parent_path() / ("." + project.filename().string() + ".unsaved")).string();
}

UnsavedLog::~UnsavedLog() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

std::optional<UnsavedLog::Kept> UnsavedLog::read() const {
  FileBytes file = disk_access().read(path_, most_bytes);
  const auto* text = std::get_if<std::string>(&file);
  if (text == nullptr || !text->starts_with(first_line)) return std::nullopt;
  std::string_view rest = *text;
  rest.remove_prefix(first_line.size());
  const auto base = take_record(rest);
  if (!base) return std::nullopt;
  Kept kept{std::string(*base), std::string(*base)};
  while (const auto words = take_record(rest)) {
    const auto edits = edits_of(*words, kept.bytes.size());
    if (!edits) break;
    kept.bytes = edit::applied(kept.bytes, *edits);
  }
  return kept;
}

bool UnsavedLog::begin(std::string_view base) {
  // Made beside its place and renamed, so that an older log is whole until this one is.
  const std::string fresh = path_ + ".new";
  const int made = ::open(fresh.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_APPEND | O_CLOEXEC, 0600);
  if (made < 0) return false;
  if (!write_whole(made, first_line) || !write_whole(made, record(base)) ||
      ::rename(fresh.c_str(), path_.c_str()) != 0) {
    ::close(made);
    ::unlink(fresh.c_str());
    return false;
  }
  if (descriptor_ >= 0) ::close(descriptor_);
  descriptor_ = made;
  return true;
}

bool UnsavedLog::append(std::string_view base, const std::vector<Patch>& patches) {
  if (patches.empty()) return true;
  if (descriptor_ < 0 && !begin(base)) return false;
  std::string bytes;
  for (const Patch& patch : patches) bytes += record(words_of(patch));
  return write_whole(descriptor_, bytes);
}

void UnsavedLog::clear() {
  if (descriptor_ >= 0) ::close(descriptor_);
  descriptor_ = -1;
  ::unlink(path_.c_str());
}

} // namespace leafwright::local_page
