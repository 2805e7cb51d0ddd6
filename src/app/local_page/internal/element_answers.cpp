#include "app/local_page/internal/answers.h"
#include "measure/index.h"
#include "measure/parse_length.h"
#include "measure/print_length.h"
#include "output/pictures.h"
#include "read/document.h"
#include "read/vocabulary.h"

#include <algorithm>
#include <map>
#include <optional>

namespace leafwright::local_page {

void write_number(Json& json, double value) {
  std::string words;
  constexpr int decimals = 3;
  svg::append_real(words, value, decimals);
  json.decimal(words);
}

void write_mm(Json& json, Length length) { json.decimal(records::millimetre_text(length)); }

std::string plain_blanks(std::string words) {
  for (std::size_t at = words.find("\u00A0"); at != std::string::npos;
       at = words.find("\u00A0", at))
    words.replace(at, 2, " ");
  return words;
}

namespace {

Printing other_unit(const Printing& how) {
  Printing other = how;
  other.unit = how.unit == Unit::Inch ? Unit::Millimetre : Unit::Inch;
  other.step = how.other_step;
  return other;
}

struct ReadAs {
  std::string own, other;
};

// Of a plain length or size; calculations and names say what they are worth elsewhere.
std::optional<ReadAs> read_as(const std::string& value, std::string_view type,
                              const Printing& how) {
  if (type == "measure") {
    const auto length = parse_length(value, how.unit);
    if (!length) return std::nullopt;
    return ReadAs{unrounded(*length, how), length_text(*length, other_unit(how))};
  }
  if (type == "sides") {
    const auto size = parse_size(value, how.unit);
    if (!size) return std::nullopt;
    return ReadAs{unrounded(*size, how), other_size_text(*size, how)};
  }
  return std::nullopt;
}

class ElementWriter {
 public:
  ElementWriter(Json& json, const Shown& shown) : json_(json), shown_(shown) {}

  void write() { element(0); }

 private:
  std::size_t element(std::size_t number) {
    const ElementTree::Node& node = shown_.tree.nodes[number];
    json_.open_object().key("key").text(key_words(shown_.text.keys.at(number)));
    const std::string_view tag = reading::one_spelling(node.span->name);
    json_.key("tag").text(tag);
    if (node.rule != nullptr && node.rule->key != tag) json_.key("rule").text(node.rule->key);
    if (const edit::AttributeSpan* id = node.span->find("id"))
      json_.key("id").text(shown_.value_of(*id));
    attributes(node);
    if (node.rule != nullptr && node.rule->prose) json_.key("text").text(words(node));
    json_.key("line").number(line_of(node.span->begin));
    json_.key("children").open_array();
    ++number;
    for (std::size_t i = 0; i < node.span->children.size(); ++i) number = element(number);
    json_.close_array().close_object();
    return number;
  }

  void attributes(const ElementTree::Node& node) {
    const Printing& how = shown_.project().printing;
    json_.key("attributes").open_array();
    for (const edit::AttributeSpan& one : node.span->attributes) {
      const std::string value = shown_.value_of(one);
      const std::string_view name = reading::one_spelling(one.name);
      json_.open_array().text(name).text(value);
      const std::string_view type = type_of(node.rule, name);
      if (const auto read = read_as(value, type, how))
        json_.text(plain_blanks(read->own)).text(plain_blanks(read->other));
      json_.close_array();
    }
    json_.close_array();
  }

  // As reading::value_type() says, asked once for each kind of element.
  std::string_view type_of(const reading::ElementRule* rule, std::string_view name) {
    if (rule == nullptr) return {};
    auto [rows, is_new] = rows_.try_emplace(rule);
    if (is_new) rows->second = reading::attributes_of(*rule);
    const auto row = std::ranges::find(rows->second, name, &reading::Attribute::name);
    return row == rows->second.end() ? std::string_view() : row->type;
  }

  std::string words(const ElementTree::Node& node) const {
    const SourceText& source = shown_.planned.reading.sources.front();
    reading::Value all;
    std::size_t at = node.span->inner_begin;
    const auto gap = [&](std::size_t to) {
      while (at < to) { // comments are no words
        const std::size_t comment = std::min(shown_.text.bytes.find("<!--", at), to);
        all.append(reading::Value(source, 0, at, comment - at, reading::Value::As::Prose));
        if (comment == to) break;
        const std::size_t end = shown_.text.bytes.find("-->", comment);
        at = end == std::string::npos ? to : end + 3;
      }
    };
    for (const edit::ElementSpan& child : node.span->children) {
      gap(child.begin);
      at = child.end;
    }
    gap(node.span->inner_end);
    return all.text();
  }

  std::int64_t line_of(std::size_t byte) {
    const std::string_view bytes = shown_.text.bytes;
    line_ += std::count(bytes.begin() + static_cast<std::ptrdiff_t>(counted_),
                        bytes.begin() + static_cast<std::ptrdiff_t>(byte), '\n');
    counted_ = byte;
    return line_;
  }

  Json& json_;
  const Shown& shown_;
  std::map<const reading::ElementRule*, std::vector<reading::Attribute>> rows_; // only looked up
  std::size_t counted_ = 0; // bytes, up to the element before
  std::int64_t line_ = 1;
};

void write_attribute_row(Json& json, const reading::Attribute& row) {
  json.open_object().key("name").text(row.name);
  const bool choice = row.type.find('|') != std::string_view::npos;
  json.key("type").text(choice ? std::string_view("choice") : row.type);
  json.key("default").text(row.fallback).key("help").text(row.help);
  if (choice) {
    json.key("choices").open_array();
    for (const std::string_view word : reading::parted(row.type, '|')) json.text(word);
    json.close_array();
  }
  json.key("required").truth(row.required).close_object();
}

} // namespace

void write_elements(Json& json, const Shown& shown) {
  if (shown.tree.nodes.empty() || shown.planned.reading.sources.empty())
    json.nothing();
  else
    ElementWriter(json, shown).write();
}

void write_tags(Json& json) {
  json.open_object();
  for (const reading::ElementRule& rule : reading::element_rules()) {
    json.key(rule.key).open_object();
    json.key("text").truth(rule.prose);
    json.key("children").open_array();
    for (const reading::ChildRule& child : reading::children_of(rule)) json.text(child.name);
    json.close_array().key("rules").open_array();
    for (const reading::ChildRule& child : reading::children_of(rule)) json.text(child.key);
    json.close_array().key("counts").open_array();
    for (const reading::ChildRule& child : reading::children_of(rule))
      json.text(std::string(1, child.count));
    json.close_array().key("either").open_array();
    for (const std::string_view group : reading::parted(rule.either, ' ')) json.text(group);
    json.close_array().key("attributes").open_array();
    for (const reading::Attribute& row : reading::attributes_of(rule))
      write_attribute_row(json, row);
    json.close_array().close_object();
  }
  json.close_object();
}

} // namespace leafwright::local_page
