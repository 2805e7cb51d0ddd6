#include "app/workers.h"

#include "measure/index.h"

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <exception>
#include <optional>
#include <thread>
#include <vector>

#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

namespace leafwright::app {

namespace {

// A worker begins again after so much work, so that memory which libraries keep goes back.
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

class Crew {
 public:
  Crew(std::size_t count, const std::function<std::string(std::size_t)>& work,
       const std::function<void(std::size_t, std::string)>& done)
      : count_(count), work_(work), done_(done) {}

  void run(std::size_t size) {
    workers_.resize(size);
    for (Worker& worker : workers_) give(worker);
    while (std::any_of(workers_.begin(), workers_.end(),
                       [](const Worker& one) { return one.busy.has_value(); }))
      wait();
    for (Worker& worker : workers_) dismiss(worker);
  }

 private:
  bool hire(Worker& worker) {
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
    if (worker.process < 0) dismiss(worker);
    return worker.process > 0;
  }

  void dismiss(Worker& worker) {
    if (worker.to >= 0) close(worker.to);
    if (worker.from >= 0) close(worker.from);
    if (worker.process > 0) waitpid(worker.process, nullptr, 0);
    worker.process = -1;
    worker.to = worker.from = -1;
  }

  void give(Worker& worker) {
    while (next_ < count_) {
      if (worker.served >= most_in_a_row) dismiss(worker);
      const std::uint64_t index = next_++;
      if ((worker.process > 0 || hire(worker)) && write_whole(worker.to, &index, sizeof index)) {
        worker.busy = as_index(index);
        return;
      }
      done_(as_index(index), "no process could be started for it\n");
      dismiss(worker);
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
      dismiss(worker);
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

} // namespace

int share_out(std::size_t count, int jobs, const std::function<std::string(std::size_t)>& work,
              const std::function<void(std::size_t, std::string)>& done) {
  std::size_t size =
      jobs > 0 ? as_index(jobs) : std::max<std::size_t>(std::thread::hardware_concurrency(), 1);
  size = std::min(size, count);
  Crew(count, work, done).run(size);
  return static_cast<int>(size);
}

} // namespace leafwright::app
