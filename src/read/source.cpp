#include "read/source.h"

#include "measure/index.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace leafwright {
namespace {

bool begins_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

std::int32_t narrow(std::size_t value) {
  constexpr auto most = as_index(std::numeric_limits<std::int32_t>::max());
  return static_cast<std::int32_t>(std::min(value, most));
}

constexpr std::size_t block = 256; // bytes between two counts

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
  std::size_t count = 0;
  for (std::size_t i = 0; i < text_.size(); ++i) {
    if (i % block == 0) characters_.push_back(count);
    if (begins_character(text_[i])) ++count;
  }
}

// Characters that begin in bytes from..to.
std::size_t SourceText::characters(std::size_t from, std::size_t to) const {
  const auto before = [&](std::size_t at) {
    if (at == 0) return std::size_t{0};
    const std::size_t whole = (at - 1) / block;
    std::size_t count = characters_.at(whole);
    for (std::size_t i = whole * block; i < at; ++i)
      if (begins_character(text_[i])) ++count;
    return count;
  };
  return before(to) - before(from);
}

std::size_t SourceText::bytes_before(std::int32_t number, std::int32_t column) const {
  const std::string_view whole = line(number);
  if (whole.empty() || column < 2) return 0;
  const auto from = as_index(whole.data() - text_.data());
  const auto wanted = as_index(column) - 1;
  std::size_t low = 0, high = whole.size(); // fewest bytes that hold that many characters
  while (low < high) {
    const std::size_t middle = low + (high - low) / 2;
    if (characters(from, from + middle) < wanted)
      low = middle + 1;
    else
      high = middle;
  }
  while (low < whole.size() && !begins_character(whole[low])) ++low;
  return low;
}

Place SourceText::place(std::int32_t file, std::size_t from, std::size_t length) const {
  if (starts_.empty()) return {file, 0, 0, 0};
  from = std::clamp(from, starts_.front(), std::max(text_.size(), starts_.front()));
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), from);
  const auto index = as_index(after - starts_.begin()) - 1;
  const std::string_view whole = line(narrow(index + 1));
  const std::size_t begin = starts_[index];
  const std::size_t end = begin + whole.size();
  const std::size_t at = std::min(from, end);
  const std::size_t marked_end = std::min(at + std::min(length, end - at), end);
  return {file, narrow(index + 1), narrow(characters(begin, at) + 1),
          std::max(narrow(characters(at, marked_end)), 1)};
}

std::string_view SourceText::line(std::int32_t number) const {
  if (number < 1 || as_index(number) > starts_.size()) return {};
  const auto index = as_index(number) - 1;
  const std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] : text_.size();
  std::string_view whole = std::string_view(text_).substr(starts_[index], end - starts_[index]);
  while (!whole.empty() && (whole.back() == '\n' || whole.back() == '\r')) whole.remove_suffix(1);
  return whole;
}

} // namespace leafwright
