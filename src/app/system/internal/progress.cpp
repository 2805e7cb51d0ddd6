#include "app/system/progress.h"

#include "language/agreement.h"
#include "language/english.h"

#include <fmt/format.h>

#include <cmath>
#include <ostream>

namespace leafwright::app {

namespace {

constexpr std::size_t widest = 78; // one line even of a terminal of 80 columns

std::string time_words(double seconds) {
  const long long whole = std::llround(seconds);
  if (whole < 90) return fmt::format("{} s", whole);
  return words::duration_text((whole + 30) / 60 * 60);
}

} // namespace

std::string progress_text(const cut::Progress& progress) {
  std::string text(progress.subject.empty() ? "Planning" : progress.subject);
  if (progress.best_sheets > 0) {
    text += fmt::format(": {} {}", progress.best_sheets,
                        words::noun_for(progress.best_sheets, "sheet"));
    if (progress.bound_sheets > 0) text += fmt::format(", at least {}", progress.bound_sheets);
  }
  if (*progress.doing != '\0') text += fmt::format(" ({})", progress.doing);
  return text;
}

cut::Effort effort_of(const Arguments& arguments) {
  cut::Effort effort;
  effort.seconds = arguments.seconds;
  return effort;
}

ProgressLine::ProgressLine(const Arguments& arguments, Environment& environment)
    : environment_(environment), brake_seconds_(arguments.seconds),
      visible_(environment.error_is_terminal && !arguments.quiet),
      begin_(std::chrono::steady_clock::now()) {}

void ProgressLine::show(std::string_view text) {
  if (!visible_) return;
  std::string line(text.substr(0, widest));
  const std::size_t width = line.size();
  if (width < width_) line.append(width_ - width, ' ');
  width_ = width;
  environment_.error << '\r' << line << std::flush;
}

void ProgressLine::clear() {
  if (width_ > 0) environment_.error << '\r' << std::string(width_, ' ') << '\r' << std::flush;
  width_ = 0;
}

cut::Effort ProgressLine::effort() {
  cut::Effort effort;
  effort.seconds = brake_seconds_;
  if (visible_) effort.progress = [this](const cut::Progress& progress) { show_plan(progress); };
  return effort;
}

void ProgressLine::show_plan(const cut::Progress& progress) {
  // A plan that is quickly done needs no words, and more than a few a second cannot be read.
  constexpr double pause = 0.3;
  if (progress.seconds < shown_at_) shown_at_ = 0; // the next stock
  if (progress.seconds < pause || progress.seconds < shown_at_ + pause) return;
  shown_at_ = progress.seconds;
  show(progress_text(progress));
}

double ProgressLine::seconds() const {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
}

void ProgressLine::count(std::size_t done, std::size_t whole) {
  if (done == 0 || done > whole) return show(fmt::format("{} of {}", done, whole));
  const double left = seconds() / static_cast<double>(done) * static_cast<double>(whole - done);
  show(fmt::format("{} of {}, about {} left", done, whole, time_words(left)));
}

} // namespace leafwright::app
