#pragma once

#include "app/run.h"

#include <chrono>
#include <cstddef>

namespace leafwright::app {

// How far work of many equal parts is, on one line of a terminal: "12 of 500, about 20 s left".
// Wipes the line when it goes. Elsewhere, and when it is to be quiet, it says nothing.
class CountLine {
 public:
  CountLine(std::size_t whole, bool quiet, Surroundings& surroundings);
  ~CountLine();
  CountLine(const CountLine&) = delete;
  CountLine& operator=(const CountLine&) = delete;
  CountLine(CountLine&&) = delete;
  CountLine& operator=(CountLine&&) = delete;

  void one_done();
  double seconds() const; // since it began

 private:
  Surroundings& surroundings_;
  std::chrono::steady_clock::time_point begin_;
  std::size_t whole_, done_ = 0;
  bool shows_;
};

} // namespace leafwright::app
