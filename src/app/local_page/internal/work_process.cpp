#include "app/local_page/internal/work_process.h"

#include "measure/index.h"

#include <array>
#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdint>
#include <cstring>
#include <optional>
#include <stdexcept>

#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

namespace leafwright::local_page {

namespace {

constexpr std::uint64_t longest_message = 512'000'000;

bool send_all(int to, const void* data, std::size_t length) {
  const auto* at = static_cast<const char*>(data);
  while (length > 0) {
    const ssize_t n = ::send(to, at, length, MSG_NOSIGNAL);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    at += n;
    length -= as_index(n);
  }
  return true;
}

bool receive_all(int from, void* data, std::size_t length) {
  auto* at = static_cast<char*>(data);
  while (length > 0) {
    const ssize_t n = ::recv(from, at, length, 0);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    at += n;
    length -= as_index(n);
  }
  return true;
}

bool send_message(int to, std::string_view message) {
  const std::uint64_t length = message.size();
  return send_all(to, &length, sizeof length) && send_all(to, message.data(), message.size());
}

std::optional<std::string> receive_message(int from) {
  std::uint64_t length = 0;
  if (!receive_all(from, &length, sizeof length) || length > longest_message) return std::nullopt;
  std::string message(length, '\0');
  if (!receive_all(from, message.data(), message.size())) return std::nullopt;
  return message;
}

// A descriptor through a socket (unix(7), SCM_RIGHTS).
struct Parcel {
  char byte = 'w';
  iovec part{&byte, 1};
  alignas(cmsghdr) std::array<char, CMSG_SPACE(sizeof(int))> room{};
  msghdr head{};
  Parcel() {
    head.msg_iov = &part;
    head.msg_iovlen = 1;
    head.msg_control = room.data();
    head.msg_controllen = room.size();
  }
  Parcel(const Parcel&) = delete;
  Parcel& operator=(const Parcel&) = delete;
};

bool send_descriptor(int to, int descriptor) {
  Parcel parcel;
  cmsghdr* control = CMSG_FIRSTHDR(&parcel.head);
  control->cmsg_level = SOL_SOCKET;
  control->cmsg_type = SCM_RIGHTS;
  control->cmsg_len = CMSG_LEN(sizeof(int));
  std::memcpy(CMSG_DATA(control), &descriptor, sizeof descriptor);
  return ::sendmsg(to, &parcel.head, MSG_NOSIGNAL) == 1;
}

// -1 when the other end is gone.
int receive_descriptor(int from) {
  for (;;) {
    Parcel parcel;
    const ssize_t n = ::recvmsg(from, &parcel.head, MSG_CMSG_CLOEXEC);
    if (n < 0 && errno == EINTR) continue;
    const cmsghdr* control = n == 1 ? CMSG_FIRSTHDR(&parcel.head) : nullptr;
    if (control == nullptr || control->cmsg_type != SCM_RIGHTS) return -1;
    int descriptor = -1;
    std::memcpy(&descriptor, CMSG_DATA(control), sizeof descriptor);
    return descriptor;
  }
}

[[noreturn]] void do_work(int with, const WorkProcess::Work& work) {
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  const pid_t own = getpid();
  if (!send_all(with, &own, sizeof own)) _exit(1);
  const auto order = receive_message(with);
  if (!order) _exit(1);
  try {
    work(*order, [&](std::string_view message) {
      if (!send_message(with, message)) _exit(1); // nobody listens any more
    });
  } catch (const std::exception& fault) {
    send_message(with, std::string("e") + fault.what());
  }
  _exit(0); // nothing of the parent's is flushed twice
}

[[noreturn]] void divide(int orders, const WorkProcess::Work& work) {
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  // Ctrl-C in a terminal reaches all; the parent says when it is over.
  std::signal(SIGINT, SIG_IGN);
  std::signal(SIGCHLD, SIG_IGN); // ended work is gone at once
  for (int with = receive_descriptor(orders); with >= 0; with = receive_descriptor(orders)) {
    const pid_t child = fork();
    if (child == 0) {
      ::close(orders);
      std::signal(SIGCHLD, SIG_DFL);
      do_work(with, work);
    }
    ::close(with);
  }
  _exit(0);
}

} // namespace

struct WorkProcess::Running {
  int with = -1;
  std::atomic<pid_t> process = -1;
  std::atomic<bool> unwanted = false, over = false;
  std::thread thread;
};

WorkProcess::WorkProcess(const Work& work) {
  int ends[2];
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0)
    throw std::runtime_error("the system gives no sockets");
  process_ = fork();
  if (process_ == 0) {
    ::close(ends[0]);
    divide(ends[1], work);
  }
  ::close(ends[1]);
  if (process_ < 0) {
    ::close(ends[0]);
    throw std::runtime_error("the system gives no more processes");
  }
  to_parent_of_work_ = ends[0];
}

WorkProcess::~WorkProcess() {
  ::close(to_parent_of_work_);
  {
    const std::lock_guard lock(busy_);
    for (auto& [number, running] : running_)
      if (const pid_t child = running->process; child > 0) kill(child, SIGKILL);
  }
  for (auto& [number, running] : running_) running->thread.join();
  waitpid(process_, nullptr, 0);
}

void WorkProcess::listen(Running& running, const Listener& listener) {
  while (const auto message = receive_message(running.with)) listener.heard(*message);
  running.process = -1; // its number may soon be another's
  ::close(running.with);
  listener.ended();
  running.over = true;
}

int WorkProcess::begin(const std::string& order, Listener listener) {
  int ends[2];
  if (socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0) return 0;
  const bool sent = send_descriptor(to_parent_of_work_, ends[1]);
  ::close(ends[1]);
  if (!sent) {
    ::close(ends[0]);
    return 0;
  }
  const std::lock_guard lock(busy_);
  std::erase_if(running_, [](auto& one) { // those that ended
    if (!one.second->over) return false;
    one.second->thread.join();
    return true;
  });
  const int number = next_++;
  auto& running = *(running_[number] = std::make_unique<Running>());
  running.with = ends[0];
  running.thread = std::thread([this, &running, order, listener = std::move(listener)] {
    pid_t child = -1;
    if (receive_all(running.with, &child, sizeof child)) running.process = child;
    if (running.unwanted && child > 0) kill(child, SIGKILL);
    send_message(running.with, order);
    listen(running, listener);
  });
  return number;
}

void WorkProcess::stop(int number) {
  const std::lock_guard lock(busy_);
  const auto found = running_.find(number);
  if (found == running_.end()) return;
  found->second->unwanted = true;
  if (const pid_t child = found->second->process; child > 0) kill(child, SIGKILL);
}

} // namespace leafwright::local_page
