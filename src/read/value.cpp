#include "read/value.h"

#include <algorithm>
#include <charconv>
#include <cstdint>

namespace leafwright::reading {
namespace {

std::string utf8(std::uint32_t code) {
  const auto byte = [](std::uint32_t value) { return static_cast<char>(value); };
  std::string out;
  if (code < 0x80) {
    out += byte(code);
  } else if (code < 0x800) {
    out += byte(0xC0U | code >> 6U);
    out += byte(0x80U | (code & 0x3FU));
  } else if (code < 0x10000) {
    out += byte(0xE0U | code >> 12U);
    out += byte(0x80U | (code >> 6U & 0x3FU));
    out += byte(0x80U | (code & 0x3FU));
  } else {
    out += byte(0xF0U | code >> 18U);
    out += byte(0x80U | (code >> 12U & 0x3FU));
    out += byte(0x80U | (code >> 6U & 0x3FU));
    out += byte(0x80U | (code & 0x3FU));
  }
  return out;
}

// Char of XML 1.0, 2.2.
bool is_xml_character(std::uint32_t code) {
  return code == 0x9 || code == 0xA || code == 0xD || (code >= 0x20 && code <= 0xD7FF) ||
         (code >= 0xE000 && code <= 0xFFFD) || (code >= 0x10000 && code <= 0x10FFFF);
}

} // namespace

std::string entity_text(std::string_view name) {
  if (name == "lt") return "<";
  if (name == "gt") return ">";
  if (name == "amp") return "&";
  if (name == "quot") return "\"";
  if (name == "apos") return "'";
  if (name.size() < 2 || name[0] != '#') return {};
  const bool hex = name[1] == 'x';
  const std::string_view digits = name.substr(hex ? 2 : 1);
  std::uint32_t code = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, fault] = std::from_chars(digits.data(), end, code, hex ? 16 : 10);
  if (fault != std::errc{} || stop != end || !is_xml_character(code)) return {};
  return utf8(code);
}

Value::Value(const SourceText& source, std::int32_t file, std::size_t from, std::size_t length,
             As as)
    : source_(&source), file_(file), from_(from), length_(length) {
  const std::string_view raw = source.text().substr(from, length);
  for (std::size_t i = 0; i < raw.size();) {
    std::string decoded;
    std::size_t taken = 1;
    bool written_out = false; // by a reference: a blank given so is meant
    if (raw[i] == '&') {
      const std::size_t end = raw.find(';', i);
      if (end != std::string_view::npos) decoded = entity_text(raw.substr(i + 1, end - i - 1));
      if (!decoded.empty()) {
        taken = end - i + 1;
        written_out = true;
      }
    } else if (raw[i] == '\r') {
      decoded = "\n";
      if (i + 1 < raw.size() && raw[i + 1] == '\n') taken = 2;
    }
    if (decoded.empty()) decoded = raw.substr(i, 1);
    const bool blank = decoded == " " || decoded == "\t" || decoded == "\n";
    if (blank && as == As::Attribute && !written_out) decoded = " ";
    if (blank && as == As::Prose && !written_out) {
      if (!text_.empty() && text_.back() != ' ') push(" ", from + i);
    } else {
      push(decoded, from + i);
      if (taken != decoded.size()) joints_.push_back({text_.size(), from + i + taken});
    }
    i += taken;
  }
  if (as == As::Prose && !text_.empty() && text_.back() == ' ') text_.pop_back();
}

void Value::push(std::string_view bytes, std::size_t source_at) {
  const bool in_step = !joints_.empty() && joints_.back().source_at + text_.size() ==
                                               source_at + joints_.back().text_at;
  if (!in_step) joints_.push_back({text_.size(), source_at});
  text_ += bytes;
}

std::size_t Value::source_at(std::size_t at) const {
  const auto after =
      std::upper_bound(joints_.begin(), joints_.end(), at,
                       [](std::size_t value, const Joint& joint) { return value < joint.text_at; });
  if (after == joints_.begin()) return from_ + length_;
  const Joint& joint = *(after - 1);
  return joint.source_at + (at - joint.text_at);
}

Place Value::place(std::size_t at, std::size_t length) const {
  if (source_ == nullptr) return {};
  const std::size_t from = at < text_.size() ? source_at(at) : from_ + length_;
  std::size_t to = from;
  if (length > 0 && at < text_.size()) {
    const std::size_t last = std::min(at + length, text_.size());
    to = last < text_.size() ? source_at(last) : from_ + length_;
  }
  return source_->place(file_, from, to > from ? to - from : 1);
}

Place Value::place() const {
  if (source_ == nullptr) return {};
  if (!text_.empty()) return place(0, text_.size());
  return source_->place(file_, from_, std::max<std::size_t>(length_, 1));
}

void Value::append(const Value& more) {
  if (source_ == nullptr) {
    *this = more;
    return;
  }
  if (more.text_.empty()) return;
  if (!text_.empty()) text_ += ' ';
  for (const Joint& joint : more.joints_)
    joints_.push_back({joint.text_at + text_.size(), joint.source_at});
  text_ += more.text_;
  length_ = more.from_ + more.length_ - from_;
}

} // namespace leafwright::reading
