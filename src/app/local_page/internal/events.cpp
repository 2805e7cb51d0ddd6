#include "app/local_page/internal/events.h"

#include <fmt/format.h>

#include <chrono>
#include <utility>

namespace leafwright::local_page {

namespace {

constexpr std::size_t most_listeners = 12;      // tabs; each holds a connection
constexpr std::size_t most_waiting = 1'000'000; // bytes, of one that does not read
constexpr std::chrono::seconds still_here{10};

} // namespace

std::shared_ptr<Events::Listener> Events::listen() {
  const std::lock_guard lock(busy_);
  if (listeners_.size() >= most_listeners) return nullptr;
  return listeners_.emplace_back(std::make_shared<Listener>(Listener{": hello\n\n"}));
}

void Events::leave(const std::shared_ptr<Listener>& listener) {
  const std::lock_guard lock(busy_);
  listeners_.remove(listener);
}

void Events::tell(std::string_view name, std::string_view data) {
  const std::lock_guard lock(busy_);
  for (const auto& one : listeners_)
    if (one->waiting.size() < most_waiting)
      one->waiting += fmt::format("event: {}\ndata: {}\n\n", name, data);
  news_.notify_all();
}

std::string Events::next(Listener& listener) {
  std::unique_lock lock(busy_);
  news_.wait_for(lock, still_here, [&] { return ended_ || !listener.waiting.empty(); });
  if (ended_) return {};
  if (listener.waiting.empty()) return ": still here\n\n";
  return std::exchange(listener.waiting, {});
}

void Events::end() {
  const std::lock_guard lock(busy_);
  ended_ = true;
  news_.notify_all();
}

} // namespace leafwright::local_page
