#pragma once

#include "app/arguments.h"
#include "app/run.h"
#include "plan/cut/cut.h"

#include <cstddef>
#include <string>

namespace leafwright::app {

// Tells on one line of a terminal how far long planning is: the stock, the sheets of the best plan
// so far and what is proven. Wipes the line when it goes. Elsewhere, and when it is to be quiet, it
// says nothing.
class ProgressLine {
 public:
  ProgressLine(const Arguments& arguments, Surroundings& surroundings);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ProgressLine(ProgressLine&&) = delete;
  ProgressLine& operator=(ProgressLine&&) = delete;

  // For plans: the brake that the arguments say, and this line as the listener.
  cut::Effort effort();

 private:
  void show(const cut::Progress& progress);

  const Arguments& arguments_;
  Surroundings& surroundings_;
  double told_at_ = -1;
  std::size_t width_ = 0;
};

// What the line says.
std::string progress_text(const cut::Progress& progress);

} // namespace leafwright::app
