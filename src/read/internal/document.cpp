#include "read/document.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "read/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <new>
#include <utility>

namespace leafwright::reading {
namespace {

std::string character(std::uint32_t code) {
  std::string out;
  detail::append_character(out, code);
  return out;
}

// Char of XML 1.0, 2.2, without those it discourages as no characters.
bool is_xml_character(std::uint32_t code) {
  return code == 0x9 || code == 0xA || code == 0xD || (code >= 0x20 && code <= 0xD7FF) ||
         (code >= 0xE000 && code <= 0x10FFFF && !detail::is_noncharacter(code));
}

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
  return character(code);
}

bool belongs_to_reference(char c) {
  return is_letter(c) || is_digit(c) || c == '#' || c == '_' || c == ':' || c == '-' || c == '.' ||
         static_cast<unsigned char>(c) >= 0x80;
}

} // namespace

Reference reference_at(std::string_view text, std::size_t at) {
  const std::size_t limit = std::min(text.size(), at + longest_reference);
  std::size_t end = at + 1;
  while (end < limit && belongs_to_reference(text[end])) ++end;
  Reference one;
  one.name = text.substr(at + 1, end - at - 1);
  one.closed = end < limit && text[end] == ';';
  one.length = end - at + (one.closed ? 1 : 0);
  one.looked_at = std::min(end + 1, limit) - at;
  if (one.closed) one.text = entity_text(one.name);
  return one;
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
      Reference reference = reference_at(raw, i);
      if (!reference.text.empty()) {
        decoded = std::move(reference.text);
        taken = reference.length;
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

Document::Document(const Sources& sources, std::int32_t file)
    : sources_(&sources), file_(file), buffer_(source().text()) {}

bool Document::parse(Journal& journal) {
  // Without the library's own decoding, so that values keep the offsets of the file.
  constexpr unsigned options = pugi::parse_minimal | pugi::parse_cdata;
  const std::size_t mark = byte_order_mark(buffer_);
  const pugi::xml_parse_result result = tree_.load_buffer_inplace(
      buffer_.data() + mark, buffer_.size() - mark, options, pugi::encoding_utf8);
  if (result) return true;
  const auto at = as_index(result.offset < 0 ? 0 : result.offset) + mark;
  journal.error("read-xml", source().place(file_, at, 1), result.description(), "well-formed XML",
                "mend the tag at this place");
  return false;
}

std::size_t Document::offset(const char* inside) const {
  const char* begin = buffer_.data();
  if (inside == nullptr || std::less<>()(inside, begin) ||
      std::less<>()(begin + buffer_.size(), inside))
    return 0;
  return as_index(inside - begin);
}

void Document::override_attribute(const Element& element, std::string_view name,
                                  std::int32_t source) {
  overrides_[{element.node().internal_object(), std::string(name)}] = source;
}

const std::int32_t* Document::override_of(const Element& element, std::string_view name) const {
  if (overrides_.empty()) return nullptr;
  const auto found = overrides_.find({element.node().internal_object(), std::string(name)});
  return found == overrides_.end() ? nullptr : &found->second;
}

Value Document::source_value(std::int32_t source) const {
  const SourceText& text = sources_->at(as_index(source));
  // An option reads `trees/mat.width=4 in`; what stands behind the sign is the value.
  const std::size_t sign = text.text().find('=');
  const std::size_t from = sign == std::string_view::npos ? text.text().size() : sign + 1;
  return {text, source, from, text.text().size() - from, Value::As::Verbatim};
}

std::string_view Element::name() const { return one_spelling(node_.name()); }

Place Element::place() const {
  if (!node_) return {};
  const std::size_t at = document_->offset(node_.name());
  return document_->source().place(document_->file(), at, std::strlen(node_.name()));
}

std::optional<Value> Element::attribute(std::string_view name) const {
  if (!node_) return std::nullopt;
  if (const std::int32_t* source = document_->override_of(*this, name))
    return document_->source_value(*source);
  for (const pugi::xml_attribute attribute : node_.attributes()) {
    if (one_spelling(attribute.name()) != name) continue;
    const std::size_t length = std::strlen(attribute.value());
    // An empty value may be the library's own "" rather than a place in the text.
    if (length == 0) {
      const std::size_t name_at = document_->offset(attribute.name());
      const std::size_t quote = document_->source().text().find_first_of("\"'", name_at);
      return Value(document_->source(), document_->file(), quote + 1, 0, Value::As::Attribute);
    }
    return Value(document_->source(), document_->file(), document_->offset(attribute.value()),
                 length, Value::As::Attribute);
  }
  return std::nullopt;
}

bool Element::overridden(std::string_view name) const {
  return node_ && document_->override_of(*this, name) != nullptr;
}

bool Element::has(std::string_view name) const {
  if (!node_) return false;
  if (overridden(name)) return true;
  for (const pugi::xml_attribute attribute : node_.attributes())
    if (one_spelling(attribute.name()) == name) return true;
  return false;
}

Place Element::attribute_place(std::string_view name) const {
  for (const pugi::xml_attribute attribute : node_.attributes()) {
    if (one_spelling(attribute.name()) != name) continue;
    return document_->source().place(document_->file(), document_->offset(attribute.name()),
                                     std::strlen(attribute.name()));
  }
  return place();
}

Place Element::end() const {
  for (pugi::xml_node node = node_; node; node = node.parent())
    for (pugi::xml_node next = node.next_sibling(); next; next = next.next_sibling())
      if (next.type() == pugi::node_element) return Element{*document_, next}.place();
  return {};
}

Element Element::child(std::string_view name) const {
  if (!node_) return {};
  for (const pugi::xml_node child : node_.children())
    if (child.type() == pugi::node_element && one_spelling(child.name()) == name)
      return {*document_, child};
  return {};
}

std::vector<Element> Element::children() const {
  std::vector<Element> list;
  if (!node_) return list;
  for (const pugi::xml_node child : node_.children())
    if (child.type() == pugi::node_element) list.emplace_back(*document_, child);
  return list;
}

std::vector<Element> Element::children(std::string_view name) const {
  std::vector<Element> list;
  if (!node_) return list;
  for (const pugi::xml_node child : node_.children())
    if (child.type() == pugi::node_element && one_spelling(child.name()) == name)
      list.emplace_back(*document_, child);
  return list;
}

Value Element::prose() const {
  Value all;
  if (!node_) return all;
  for (const pugi::xml_node child : node_.children()) {
    if (child.type() != pugi::node_pcdata && child.type() != pugi::node_cdata) continue;
    const char* text = child.value();
    all.append(Value(document_->source(), document_->file(), document_->offset(text),
                     std::strlen(text), Value::As::Prose));
  }
  return all;
}

} // namespace leafwright::reading
