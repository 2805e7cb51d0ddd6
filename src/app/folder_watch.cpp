#include "app/folder_watch.h"

#include <array>
#include <cstring>

#include <poll.h>
#include <sys/inotify.h>
#include <unistd.h>

namespace leafwright::app {

FolderWatch::FolderWatch() : descriptor_(inotify_init1(IN_NONBLOCK | IN_CLOEXEC)) {}

FolderWatch::~FolderWatch() {
  if (descriptor_ >= 0) close(descriptor_);
}

void FolderWatch::add(const std::string& folder) {
  const int watch = inotify_add_watch(descriptor_, folder.c_str(),
                                      IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_DELETE |
                                          IN_CREATE | IN_ONLYDIR);
  if (watch >= 0) folders_[watch] = folder;
}

// Reads what has come; false when nothing had.
bool FolderWatch::take(std::vector<std::string>& names) {
  alignas(inotify_event) std::array<char, 16384> buffer{};
  bool any = false;
  for (;;) {
    const ssize_t length = read(descriptor_, buffer.data(), buffer.size());
    if (length <= 0) return any;
    any = true;
    for (ssize_t at = 0; at < length;) {
      inotify_event event{};
      std::memcpy(&event, buffer.data() + at, sizeof event);
      if (event.len > 0) {
        const auto folder = folders_.find(event.wd);
        const char* name = buffer.data() + at + static_cast<ssize_t>(sizeof event);
        if (folder != folders_.end()) names.push_back(folder->second + "/" + name);
      }
      at += static_cast<ssize_t>(sizeof event) + static_cast<ssize_t>(event.len);
    }
  }
}

std::vector<std::string> FolderWatch::wait(std::chrono::milliseconds quiet,
                                           std::chrono::milliseconds most) {
  std::vector<std::string> names;
  pollfd waiting{descriptor_, POLLIN, 0};
  if (poll(&waiting, 1, static_cast<int>(most.count())) <= 0) return names;
  while (take(names) || !names.empty()) {
    if (poll(&waiting, 1, static_cast<int>(quiet.count())) <= 0) break;
  }
  return names;
}

} // namespace leafwright::app
