#pragma once

#include "plan/cut/cut.h"

#include <algorithm>
#include <chrono>
#include <cstdint>

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
    if (seconds() >= effort_->seconds) why_ = StoppedBy::Time;
    if (effort_->stop.stop_requested()) why_ = StoppedBy::Caller;
    return why_ != StoppedBy::Nothing;
  }
  StoppedBy why() const { return why_; }
  /// The clock or the caller wants it to end; work spent is not looked at.
  bool hurried() { return seconds() >= effort_->seconds || effort_->stop.stop_requested(); }
  const Effort& effort() const { return *effort_; }

 private:
  double now() const {
    if (effort_->clock) return effort_->clock();
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
        .count();
  }

  const Effort* effort_;
  double begin_;
  std::int64_t work_ = 0;
  StoppedBy why_ = StoppedBy::Nothing;
};

} // namespace leafwright::cut
