#pragma once

#include "plan/cut/cut.h"

#include <chrono>
#include <cstdint>
#include <ctime>

namespace leafwright::cut {

/// Counts steps, watches the clock and the caller's stop wish.
class Budget {
 public:
  explicit Budget(const Effort& effort)
      : effort_(&effort), begin_(std::chrono::steady_clock::now()),
        begin_processor_(processor_now()) {}

  void spend(std::int64_t work) { work_ += work; }
  std::int64_t work() const { return work_; }
  double seconds() const {
    if (effort_->processor_time) return processor_now() - begin_processor_;
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
  }
  double seconds_left() const { return effort_->seconds - seconds(); }
  std::int64_t work_left() const { return effort_->work - work_; }

  /// Once true, stays true.
  bool out() {
    if (why_ != StoppedBy::Nothing) return true;
    if (work_ >= effort_->work) why_ = StoppedBy::Work;
    if (seconds() >= effort_->seconds) why_ = StoppedBy::Time;
    if (effort_->stop.stop_requested()) why_ = StoppedBy::Caller;
    return why_ != StoppedBy::Nothing;
  }
  StoppedBy why() const { return why_; }
  const Effort& effort() const { return *effort_; }

 private:
  static double processor_now() {
    return static_cast<double>(std::clock()) / static_cast<double>(CLOCKS_PER_SEC);
  }

  const Effort* effort_;
  std::chrono::steady_clock::time_point begin_;
  double begin_processor_;
  std::int64_t work_ = 0;
  StoppedBy why_ = StoppedBy::Nothing;
};

} // namespace leafwright::cut
