#include "read/document.h"

#include "measure/index.h"
#include "measure/letters.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <string_view>
#include <utility>

namespace leafwright::reading {
namespace {

constexpr std::size_t longest = 40; // names beyond are not compared: nobody means them by mistake

std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c == '-' || c == '_') continue;
    out += small_letter(c);
  }
  return out;
}

// Optimal string alignment; three rows are enough because a swap looks back two.
std::size_t distance(std::string_view a, std::string_view b) {
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};
  const auto row = [&](std::size_t i) -> auto& { return rows.at(i % 3); };
  for (std::size_t j = 0; j <= b.size(); ++j) row(0).at(j) = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row(i).at(0) = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = row(i - 1).at(j - 1) + (a[i - 1] == b[j - 1] ? 0 : 1);
      std::size_t best = std::min({replaced, row(i - 1).at(j) + 1, row(i).at(j - 1) + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) best = std::min(best, row(i - 2).at(j - 2) + 1);
      row(i).at(j) = best;
    }
  }
  return row(a.size()).at(b.size());
}

} // namespace

std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string wanted = plain(word);
  if (wanted.empty() || wanted.size() > longest) return {};
  std::size_t best = std::max<std::size_t>(1, (wanted.size() + 1) / 3) + 1;
  std::string_view nearest;
  for (const std::string_view candidate : candidates) {
    const std::string other = plain(candidate);
    if (other.empty() || other.size() > longest) continue;
    const std::size_t apart =
        other.size() > wanted.size() ? other.size() - wanted.size() : wanted.size() - other.size();
    if (apart >= best) continue;
    const std::size_t d = distance(wanted, other);
    if (d < best && d < wanted.size()) {
      best = d;
      nearest = candidate;
    }
  }
  return nearest;
}

namespace {

constexpr std::string_view asks = "did you mean ";

// The name that did_you_mean() suggests, in place of the one that was found. An element is named at
// both of its ends, so one place will not do.
void mend_by_name(Finding& finding) {
  const std::string_view fix = finding.fix;
  if (finding.code == "read-unknown-element" || finding.place.length < 1) return;
  if (fix.starts_with(asks) && fix.ends_with('?'))
    finding.mend = {
        finding.place, {}, std::string(fix.substr(asks.size(), fix.size() - asks.size() - 1))};
}

} // namespace

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string_view near = nearest_name(word, candidates);
  if (!near.empty()) return fmt::format("{}{}?", asks, near);
  if (candidates.empty()) return "there is none to choose from";
  constexpr std::size_t most = 8;
  std::string list;
  for (std::size_t i = 0; i < candidates.size() && i < most; ++i)
    list += fmt::format("{}{}", i == 0 ? "" : ", ", candidates[i]);
  return fmt::format("choose one of: {}{}", list, candidates.size() > most ? " …" : "");
}

namespace {

constexpr std::string_view utf8_wanted = "text in UTF-8";

// UTF-16 and UTF-32 show themselves by a mark or by the NUL in every second byte.
bool looks_wide(std::string_view text) {
  using namespace std::string_view_literals;
  return text.starts_with("\xFF\xFE"sv) || text.starts_with("\xFE\xFF"sv) ||
         text.starts_with("<\0"sv) || text.starts_with("\0<"sv) || text.starts_with("\0\0"sv);
}

} // namespace

bool check_encoding(const SourceText& source, std::int32_t file, Journal& journal,
                    std::string_view mend_bytes) {
  const std::string_view text = source.text();
  const auto fault = [&](std::size_t at, std::string found, std::string expected, std::string fix) {
    journal.error("read-encoding", source.place(file, at, 1), std::move(found), std::move(expected),
                  std::move(fix));
    return false;
  };
  if (looks_wide(text)) {
    return fault(0, "a file in UTF-16 or UTF-32", std::string(utf8_wanted),
                 "save the file again with the encoding UTF-8");
  }
  detail::TextCursor cursor(text);
  while (!cursor.done()) {
    const std::size_t at = cursor.at();
    const auto byte = static_cast<std::uint8_t>(text[at]);
    if (byte >= 0x20 && byte < 0x7F) { // the common case, without decoding
      cursor.go_to(at + 1);
      continue;
    }
    const char32_t c = cursor.peek();
    if (c == 0) {
      return fault(at, "a NUL byte", "text", "the file is damaged or not a text file; restore it");
    }
    if (c == detail::not_a_letter) {
      return fault(at, fmt::format("the byte {:02X}, which is not UTF-8", unsigned{byte}),
                   std::string(utf8_wanted), std::string(mend_bytes));
    }
    const bool control = c < 0x20 && c != U'\t' && c != U'\n' && c != U'\r';
    if (detail::is_noncharacter(c)) {
      return fault(at, fmt::format("U+{:04X}, which is no character", static_cast<unsigned>(c)),
                   "text", "delete it, or write the letter that was meant");
    }
    if (control) {
      return fault(at, fmt::format("the control character U+{:04X}", static_cast<unsigned>(c)),
                   "characters that XML allows", "delete the character");
    }
    cursor.advance();
  }
  return true;
}

} // namespace leafwright::reading

namespace leafwright {
namespace {

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
    if (detail::begins_character(text_[i])) ++count;
  }
}

// Characters that begin in bytes from..to.
std::size_t SourceText::characters(std::size_t from, std::size_t to) const {
  const auto before = [&](std::size_t at) {
    if (at == 0) return std::size_t{0};
    const std::size_t whole = (at - 1) / block;
    std::size_t count = characters_.at(whole);
    for (std::size_t i = whole * block; i < at; ++i)
      if (detail::begins_character(text_[i])) ++count;
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
  while (low < whole.size() && !detail::begins_character(whole[low])) ++low;
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

namespace leafwright::reading {

void Journal::add(Finding finding) {
  if (finding.severity == Severity::Error) ++errors_;
  if (full()) {
    ++left_away_;
    return;
  }
  Key key{finding.place.file, finding.place.line, finding.place.column, finding.code,
          finding.found};
  if (!seen_.insert(std::move(key)).second) return;
  if (!finding.mend) mend_by_name(finding);
  findings_.push_back(std::move(finding));
}

void Journal::error(std::string_view code, Place place, std::string found, std::string expected,
                    std::string fix) {
  add({Severity::Error,
       std::string(code),
       place,
       std::move(found),
       std::move(expected),
       std::move(fix),
       {}});
}

void Journal::warning(std::string_view code, Place place, std::string found, std::string expected,
                      std::string fix) {
  add({Severity::Warning,
       std::string(code),
       place,
       std::move(found),
       std::move(expected),
       std::move(fix),
       {}});
}

Findings Journal::take() {
  const auto key = [](const Finding& f) {
    return std::tuple(f.place.file, f.place.line, f.place.column);
  };
  std::stable_sort(findings_.begin(), findings_.end(),
                   [&](const Finding& a, const Finding& b) { return key(a) < key(b); });
  if (left_away_ > 0) {
    findings_.push_back({Severity::Note,
                         "read-more",
                         {},
                         fmt::format("{} more findings are not shown", left_away_),
                         "fewer faults at a time",
                         "mend those above first",
                         {}});
  }
  return std::move(findings_);
}

} // namespace leafwright::reading
