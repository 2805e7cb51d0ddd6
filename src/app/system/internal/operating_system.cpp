#include "app/system/operating_system.h"

#include "measure/index.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdint>
#include <cstring>
#include <exception>
#include <filesystem>
#include <optional>
#include <system_error>
#include <thread>
#include <vector>

#include <poll.h>
#include <spawn.h>
#include <sys/inotify.h>
#include <sys/wait.h>
#include <unistd.h>

namespace leafwright::app {

namespace fs = std::filesystem;

namespace {

// A process is replaced after so much work, so that memory which libraries keep goes back.
constexpr int most_in_a_row = 100;

bool write_whole(int descriptor, const void* data, std::size_t length) {
  const auto* at = static_cast<const char*>(data);
  while (length > 0) {
    const ssize_t n = ::write(descriptor, at, length);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    at += n;
    length -= as_index(n);
  }
  return true;
}
bool read_whole(int descriptor, void* data, std::size_t length) {
  auto* at = static_cast<char*>(data);
  while (length > 0) {
    const ssize_t n = ::read(descriptor, at, length);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    at += n;
    length -= as_index(n);
  }
  return true;
}

struct Worker {
  pid_t process = -1;
  int to = -1, from = -1;
  std::optional<std::size_t> busy;
  int served = 0;
};

[[noreturn]] void serve(int from, int to, const std::function<std::string(std::size_t)>& work) {
  std::uint64_t index = 0;
  while (read_whole(from, &index, sizeof index)) {
    std::string answer;
    try {
      answer = work(as_index(index));
    } catch (const std::exception& fault) {
      answer = std::string(fault.what()) + "\n";
    }
    const std::uint64_t length = answer.size();
    if (!write_whole(to, &length, sizeof length) || !write_whole(to, answer.data(), answer.size()))
      break;
  }
  _exit(0); // nothing of the parent's is flushed twice
}

// A pipe whose reader is gone must not end this process: what write() answers says enough.
class WithoutPipeSignal {
 public:
  WithoutPipeSignal() {
    struct sigaction ignore {};
    ignore.sa_handler = SIG_IGN;
    sigaction(SIGPIPE, &ignore, &before_);
  }
  ~WithoutPipeSignal() { sigaction(SIGPIPE, &before_, nullptr); }
  WithoutPipeSignal(const WithoutPipeSignal&) = delete;
  WithoutPipeSignal& operator=(const WithoutPipeSignal&) = delete;

 private:
  struct sigaction before_ {};
};

class ProcessPool {
 public:
  ProcessPool(std::size_t count, const std::function<std::string(std::size_t)>& work,
              const std::function<void(std::size_t, std::string)>& done)
      : count_(count), work_(work), done_(done) {}

  void run(std::size_t size) {
    const WithoutPipeSignal without;
    workers_.resize(size);
    for (Worker& worker : workers_) give(worker);
    while (std::any_of(workers_.begin(), workers_.end(),
                       [](const Worker& one) { return one.busy.has_value(); }))
      wait();
    for (Worker& worker : workers_) stop(worker);
  }

 private:
  bool start(Worker& worker) {
    int down[2], up[2];
    if (pipe(down) != 0) return false;
    if (pipe(up) != 0) {
      close(down[0]);
      close(down[1]);
      return false;
    }
    worker.process = fork();
    if (worker.process == 0) {
      close(down[1]);
      close(up[0]);
      for (const Worker& other : workers_) { // or their ends would never be seen
        if (other.to >= 0) close(other.to);
        if (other.from >= 0) close(other.from);
      }
      serve(down[0], up[1], work_);
    }
    close(down[0]);
    close(up[1]);
    worker.to = down[1];
    worker.from = up[0];
    worker.served = 0;
    if (worker.process < 0) stop(worker);
    return worker.process > 0;
  }

  void stop(Worker& worker) {
    if (worker.to >= 0) close(worker.to);
    if (worker.from >= 0) close(worker.from);
    if (worker.process > 0) waitpid(worker.process, nullptr, 0);
    worker.process = -1;
    worker.to = worker.from = -1;
  }

  void give(Worker& worker) {
    while (next_ < count_) {
      if (worker.served >= most_in_a_row) stop(worker);
      const std::uint64_t index = next_++;
      // One that was killed while it had nothing to do costs no work: another takes its place.
      const auto send = [&] {
        if (!write_whole(worker.to, &index, sizeof index)) return false;
        worker.busy = as_index(index);
        return true;
      };
      if (worker.process > 0) {
        if (send()) return;
        stop(worker);
      }
      if (start(worker) && send()) return;
      done_(as_index(index), "no process could be started for it\n");
      stop(worker);
    }
  }

  void wait() {
    std::vector<pollfd> waiting;
    std::vector<Worker*> whose;
    for (Worker& worker : workers_) {
      if (!worker.busy) continue;
      waiting.push_back({worker.from, POLLIN, 0});
      whose.push_back(&worker);
    }
    if (poll(waiting.data(), waiting.size(), -1) <= 0) return;
    for (std::size_t i = 0; i < waiting.size(); ++i)
      if (waiting[i].revents != 0) take(*whose[i]);
  }

  void take(Worker& worker) {
    const std::size_t index = *worker.busy;
    worker.busy.reset();
    std::uint64_t length = 0;
    std::string answer;
    bool whole = read_whole(worker.from, &length, sizeof length);
    if (whole) {
      answer.resize(as_index(length));
      whole = read_whole(worker.from, answer.data(), answer.size());
    }
    ++worker.served;
    if (!whole) {
      stop(worker);
      answer = "the program failed at it; please report this\n";
    }
    done_(index, std::move(answer));
    give(worker);
  }

  std::size_t count_, next_ = 0;
  const std::function<std::string(std::size_t)>& work_;
  const std::function<void(std::size_t, std::string)>& done_;
  std::vector<Worker> workers_;
};

bool holds_data(const fs::path& folder) {
  std::error_code failed;
  return fs::is_directory(folder / "fonts", failed) &&
         fs::is_directory(folder / "templates", failed);
}

} // namespace

int run_in_processes(std::size_t count, int jobs,
                     const std::function<std::string(std::size_t)>& work,
                     const std::function<void(std::size_t, std::string)>& done) {
  std::size_t size =
      jobs > 0 ? as_index(jobs) : std::max<std::size_t>(std::thread::hardware_concurrency(), 1);
  size = std::min(size, count);
  ProcessPool(count, work, done).run(size);
  return static_cast<int>(size);
}

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

bool open_with_system(std::string what) {
  std::string program = "xdg-open";
  std::array<char*, 3> words{program.data(), what.data(), nullptr};
  pid_t process = -1;
  return posix_spawnp(&process, program.c_str(), nullptr, nullptr, words.data(), environ) == 0;
}

std::optional<std::string> find_data_folder(const char* variable) {
  if (variable != nullptr && *variable != '\0')
    return holds_data(variable) ? std::optional<std::string>(variable) : std::nullopt;
  std::error_code failed;
  const fs::path program = fs::read_symlink("/proc/self/exe", failed);
  if (failed) return std::nullopt;
  const fs::path installed = program.parent_path().parent_path() / "share" / "leafwright";
  if (holds_data(installed)) return installed.string();
  for (fs::path folder = program.parent_path(); folder != folder.parent_path();
       folder = folder.parent_path())
    if (holds_data(folder)) return folder.string();
  return std::nullopt;
}

} // namespace leafwright::app
