#include "app/progress.h"

#include <fmt/format.h>

#include <ostream>

namespace leafwright::app {

std::string progress_text(const cut::Progress& progress) {
  std::string text(progress.subject.empty() ? "Planning" : progress.subject);
  if (progress.best_sheets > 0) {
    text += fmt::format(": {} {}", progress.best_sheets,
                        progress.best_sheets == 1 ? "sheet" : "sheets");
    if (progress.bound_sheets > 0) text += fmt::format(", at least {}", progress.bound_sheets);
  }
  if (*progress.doing != '\0') text += fmt::format(" ({})", progress.doing);
  return text;
}

ProgressLine::ProgressLine(const Arguments& arguments, Surroundings& surroundings)
    : arguments_(arguments), surroundings_(surroundings) {}

ProgressLine::~ProgressLine() {
  if (width_ > 0) surroundings_.error << '\r' << std::string(width_, ' ') << '\r' << std::flush;
}

cut::Effort ProgressLine::effort() {
  cut::Effort effort;
  effort.seconds = arguments_.seconds;
  if (surroundings_.error_is_terminal && !arguments_.quiet)
    effort.progress = [this](const cut::Progress& progress) { show(progress); };
  return effort;
}

void ProgressLine::show(const cut::Progress& progress) {
  // A plan that is quickly done needs no words, and more than a few a second cannot be read.
  constexpr double pause = 0.3;
  if (progress.seconds < told_at_) told_at_ = 0; // the next stock
  if (progress.seconds < pause || progress.seconds < told_at_ + pause) return;
  told_at_ = progress.seconds;
  constexpr std::size_t widest = 78;
  std::string text = progress_text(progress).substr(0, widest);
  const std::size_t width = text.size();
  if (width < width_) text.append(width_ - width, ' ');
  width_ = width;
  surroundings_.error << '\r' << text << std::flush;
}

} // namespace leafwright::app
