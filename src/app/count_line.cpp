#include "app/count_line.h"

#include <fmt/format.h>

#include <cmath>
#include <ostream>
#include <string>

namespace leafwright::app {

namespace {

std::string time_words(double seconds) {
  const long long whole = std::llround(seconds);
  if (whole < 90) return fmt::format("{} s", whole);
  return fmt::format("{} min", (whole + 30) / 60);
}

} // namespace

CountLine::CountLine(std::size_t whole, bool quiet, Surroundings& surroundings)
    : surroundings_(surroundings), begin_(std::chrono::steady_clock::now()), whole_(whole),
      shows_(surroundings.error_is_terminal && !quiet) {}

CountLine::~CountLine() {
  if (shows_) surroundings_.error << "\r\x1b[K" << std::flush;
}

double CountLine::seconds() const {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
}

void CountLine::one_done() {
  ++done_;
  if (!shows_ || done_ > whole_) return;
  const double left = seconds() / static_cast<double>(done_) * static_cast<double>(whole_ - done_);
  surroundings_.error << fmt::format("\r{} of {}, about {} left \x1b[K", done_, whole_,
                                     time_words(left))
                      << std::flush;
}

} // namespace leafwright::app
