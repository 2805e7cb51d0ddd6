#include "output/mail.h"

#include "basics/utf8.h"
#include "measure/letters.h"
#include "output/pdf.h"
#include "output/pictures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace leafwright::mail {

namespace {

constexpr std::string_view line_end = "\r\n";
constexpr std::size_t base64_line = 76; // RFC 2045, 6.8

bool is_ascii(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

// One line without controls.
std::string one_line(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool control = static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
    if (!control)
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  return out;
}

// As encoded words of whole characters (RFC 2047, section 5 rule 3), each on a line of its own.
std::string encoded_words(std::string_view text) {
  constexpr std::size_t most_bytes = 39; // 52 characters of base64 in a word of 64
  std::string out;
  while (!text.empty()) {
    std::size_t end = std::min(most_bytes, text.size());
    while (end > 1 && end < text.size() && !detail::begins_character(text[end])) --end;
    out += (out.empty() ? "" : "\r\n ") +
           fmt::format("=?UTF-8?B?{}?=", svg::base64(text.substr(0, end)));
    text.remove_prefix(end);
  }
  return out;
}

// Words of a subject or a name.
std::string words_of(std::string_view text) {
  const std::string line = one_line(text);
  constexpr std::size_t most_plain = 60;
  const bool plain =
      is_ascii(line) && line.size() <= most_plain && line.find("=?") == std::string::npos;
  return plain ? line : encoded_words(line);
}

std::string address_text(const Address& one) {
  std::string bracketed = "<" + one.address + ">";
  if (trimmed(one.name).empty()) return bracketed;
  std::string name = words_of(one.name);
  if (!name.starts_with("=?")) {
    std::string quoted = "\"";
    for (const char c : name) {
      if (c == '"' || c == '\\') quoted += '\\';
      quoted += c;
    }
    name = quoted + "\"";
  }
  return name + "\r\n " + bracketed;
}

std::string date_text(std::int64_t seconds) {
  using namespace std::chrono;
  constexpr std::array<std::string_view, 7> days = {"Sun", "Mon", "Tue", "Wed",
                                                    "Thu", "Fri", "Sat"};
  constexpr std::array<std::string_view, 12> months = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const sys_seconds at{std::chrono::seconds(seconds)};
  const sys_days day = floor<std::chrono::days>(at);
  const year_month_day date{day};
  const hh_mm_ss time{at - day};
  return fmt::format("{}, {:02} {} {} {:02}:{:02}:{:02} +0000", days.at(weekday(day).c_encoding()),
                     static_cast<unsigned>(date.day()),
                     months.at(static_cast<unsigned>(date.month()) - 1),
                     static_cast<int>(date.year()), time.hours().count(), time.minutes().count(),
                     time.seconds().count());
}

std::string base64_lines(std::string_view bytes) {
  const std::string all = svg::base64(bytes);
  std::string out;
  for (std::size_t at = 0; at < all.size(); at += base64_line)
    out.append(all, at, base64_line).append(line_end);
  return out;
}

// RFC 2231, section 4: anything but plain letters and digits as %xx.
std::string file_name_text(std::string_view name) {
  std::string out = "utf-8''";
  for (const char c : one_line(name)) {
    if (is_letter(c) || is_digit(c) || c == '-' || c == '.' || c == '_')
      out += c;
    else
      out += fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
  }
  return out;
}

std::string with_line_ends(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\r') continue;
    if (c == '\n') out += '\r';
    out += c;
  }
  return out;
}

} // namespace

std::string written(const Letter& letter) {
  std::string out;
  const auto header = [&](std::string_view name, const std::string& value) {
    out += fmt::format("{}: {}\r\n", name, value);
  };
  if (!letter.from.address.empty()) header("From", address_text(letter.from));
  if (!letter.to.address.empty()) header("To", address_text(letter.to));
  header("Subject", words_of(letter.subject));
  header("Date", date_text(letter.date));
  header("X-Unsent", "1"); // mail programs open it as a draft
  header("MIME-Version", "1.0");
  const std::string text = "Content-Type: text/plain; charset=utf-8\r\n"
                           "Content-Transfer-Encoding: base64\r\n\r\n" +
                           base64_lines(with_line_ends(letter.text));
  if (letter.attached.empty()) return out + text;
  // No line of base64 begins with hyphens, so this stands in none of the parts.
  const std::string boundary = "part-" + digest::sha256(letter.text).substr(0, 24);
  header("Content-Type", fmt::format("multipart/mixed; boundary=\"{}\"", boundary));
  out += fmt::format("\r\n--{}\r\n{}", boundary, text);
  for (const Attached& one : letter.attached)
    out += fmt::format("--{}\r\nContent-Type: {}\r\nContent-Transfer-Encoding: base64\r\n"
                       "Content-Disposition: attachment;\r\n filename*={}\r\n\r\n{}",
                       boundary, one.type, file_name_text(one.name), base64_lines(*one.bytes));
  return out + fmt::format("--{}--\r\n", boundary);
}

} // namespace leafwright::mail
