#include "read/document.h"

#include "measure/index.h"

#include <fmt/format.h>

#include <cstring>
#include <new>

namespace leafwright::reading {

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
    if (attribute.name() != name) continue;
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
    if (attribute.name() == name) return true;
  return false;
}

Place Element::attribute_place(std::string_view name) const {
  for (const pugi::xml_attribute attribute : node_.attributes()) {
    if (attribute.name() != name) continue;
    return document_->source().place(document_->file(), document_->offset(attribute.name()),
                                     name.size());
  }
  return place();
}

Element Element::child(std::string_view name) const {
  if (!node_) return {};
  for (const pugi::xml_node child : node_.children())
    if (child.type() == pugi::node_element && child.name() == name) return {*document_, child};
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
    if (child.type() == pugi::node_element && child.name() == name)
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
