#include "read/source.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace leafwright {
namespace {

bool begins_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

std::int32_t narrow(std::size_t value) {
  constexpr auto most = static_cast<std::size_t>(std::numeric_limits<std::int32_t>::max());
  return static_cast<std::int32_t>(std::min(value, most));
}

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins_character));
}

} // namespace

std::size_t byte_order_mark(std::string_view text) {
  return text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
}

SourceText::SourceText(std::string name, std::string text)
    : name_(std::move(name)), text_(std::move(text)) {
  starts_.push_back(byte_order_mark(text_));
  for (std::size_t i = starts_.front(); i < text_.size(); ++i) {
    const bool lone_return = text_[i] == '\r' && (i + 1 == text_.size() || text_[i + 1] != '\n');
    if (text_[i] == '\n' || lone_return) starts_.push_back(i + 1);
  }
}

Place SourceText::place(std::int32_t file, std::size_t from, std::size_t length) const {
  if (starts_.empty()) return {file, 0, 0, 0};
  from = std::clamp(from, starts_.front(), std::max(text_.size(), starts_.front()));
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), from);
  const auto index = static_cast<std::size_t>(after - starts_.begin()) - 1;
  const std::string_view whole = line(narrow(index + 1));
  const std::size_t within = std::min(from - starts_[index], whole.size());
  const std::string_view marked = whole.substr(within, length);
  return {file, narrow(index + 1), narrow(characters(whole.substr(0, within)) + 1),
          std::max(narrow(characters(marked)), 1)};
}

std::string_view SourceText::line(std::int32_t number) const {
  if (number < 1 || static_cast<std::size_t>(number) > starts_.size()) return {};
  const auto index = static_cast<std::size_t>(number) - 1;
  const std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] : text_.size();
  std::string_view whole = std::string_view(text_).substr(starts_[index], end - starts_[index]);
  while (!whole.empty() && (whole.back() == '\n' || whole.back() == '\r')) whole.remove_suffix(1);
  return whole;
}

} // namespace leafwright
