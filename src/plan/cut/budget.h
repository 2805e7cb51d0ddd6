#pragma once

#include "plan/cut/cut.h"

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <functional>
#include <utility>

namespace leafwright::cut {

/// Counts steps; watches the clock and the caller's stop wish, which alone may end a plan otherwise
/// than its work does.
class Budget {
 public:
  explicit Budget(const Effort& effort) : effort_(&effort), begin_(now()) {}

  void spend(std::int64_t work) { work_ += work; }
  std::int64_t work() const { return work_; }
  double seconds() const { return now() - begin_; }
  double seconds_left() const { return effort_->seconds - seconds(); }
  std::int64_t work_left() const { return std::max<std::int64_t>(0, effort_->work - work_); }

  /// Once true, stays true.
  bool out() {
    if (why_ != StoppedBy::Nothing) return true;
    if (work_ >= effort_->work) why_ = StoppedBy::Work;
    if (looked() >= effort_->seconds) why_ = StoppedBy::Time;
    if (effort_->stop.stop_requested()) why_ = StoppedBy::Caller;
    return why_ != StoppedBy::Nothing;
  }
  StoppedBy why() const { return why_; }
  /// The clock or the caller wants it to end; work spent is not looked at.
  bool hurried() { return looked() >= effort_->seconds || effort_->stop.stop_requested(); }
  /// Called now and then while the clock is looked at: to tell how far the plan is. Returns the one
  /// before.
  std::function<void()> on_tick(std::function<void()> tick) {
    return std::exchange(tick_, std::move(tick));
  }
  const Effort& effort() const { return *effort_; }

 private:
  double now() const {
    if (effort_->clock) return effort_->clock();
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
  }

  double looked() {
    constexpr double pause = 0.2;
    const double at = seconds();
    if (effort_->progress && tick_ && at >= ticked_ + pause) {
      ticked_ = at;
      tick_();
    }
    return at;
  }

  const Effort* effort_;
  std::function<void()> tick_;
  double ticked_ = 0;
  double begin_;
  std::int64_t work_ = 0;
  StoppedBy why_ = StoppedBy::Nothing;
};

} // namespace leafwright::cut
