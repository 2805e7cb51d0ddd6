#pragma once

#include "app/system/arguments.h"
#include "app/system/environment.h"
#include "plan/cut/cut.h"

#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>

// How far long work is, on one line of a terminal that is written over and wiped at the end. Where
// the error stream is no terminal, and with --quiet, nothing is written.
//
//   ProgressLine line(arguments, environment);
//   line.show("tutorial (1 of 15)");
//   plan_run(planned, line.effort()); // 10pt kraft: 13 sheets, at least 12
//   line.clear();                     // before anything else is printed

namespace leafwright::app {

class ProgressLine {
 public:
  ProgressLine(const Arguments& arguments, Environment& environment);
  ~ProgressLine() { clear(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ProgressLine(ProgressLine&&) = delete;
  ProgressLine& operator=(ProgressLine&&) = delete;

  void show(std::string_view text); // at once, cut to the width of a narrow terminal
  void clear();

  // For plans: the brake that --seconds says, and this line as the listener.
  cut::Effort effort();

  // Of many equal pieces of work one more is done: "12 of 500, about 20 s left".
  void count(std::size_t done, std::size_t whole);
  double seconds() const; // since the line began

 private:
  void show_plan(const cut::Progress& progress);

  Environment& environment_;
  double brake_seconds_;
  bool visible_;
  std::chrono::steady_clock::time_point begin_;
  double shown_at_ = -1; // seconds of the plan
  std::size_t width_ = 0;
};

// What the line says while nothing is known of a plan yet.
inline constexpr std::string_view planning_words = "Planning the cuts";
// What the line says of a plan: the stock, the sheets of the best plan so far and what is proven.
std::string progress_text(const cut::Progress& progress);

// The same brake with nobody listening.
cut::Effort effort_of(const Arguments& arguments);

} // namespace leafwright::app
