#include "page/internal/template_xml.h"

#include "basics/utf8.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/parse_length.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <functional>
#include <optional>

namespace leafwright::page {

namespace {

// A decimal number at the start of `text`; leaves the rest in `text`.
std::optional<double> leading_number(std::string_view& text) {
  double value = 0.0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc{}) return std::nullopt;
  text.remove_prefix(as_index(end - text.data()));
  return value;
}

std::optional<int> hex_pair(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::string listed(const std::vector<std::string_view>& choices) {
  return words::listed({choices.begin(), choices.end()}, "or");
}

} // namespace

TemplateSource::TemplateSource(std::string_view xml, std::string file_name, int file)
    : text_(xml), buffer_(xml), file_name_(std::move(file_name)), file_(file) {
  Place place{file_, 1, 1, 1};
  for (std::size_t i = 0; i < text_.size(); ++i) {
    if (i % mark_every == 0) marks_.push_back(place);
    step(place, text_[i]);
  }
}

void TemplateSource::step(Place& place, char byte) {
  if (byte == '\n') {
    ++place.line;
    place.column = 1;
  } else if (detail::begins_character(byte)) {
    ++place.column;
  }
}

bool TemplateSource::parse(pugi::xml_document& document) {
  if (text_.find('\0') != std::string::npos || text_.find("<!DOCTYPE") != std::string::npos) {
    fault({file_, 1, 1, 1}, "a NUL character or a document type", "plain XML in UTF-8",
          "save the template as plain text without a DOCTYPE");
    return false;
  }
  const pugi::xml_parse_result result = document.load_buffer_inplace(
      buffer_.data(), buffer_.size(), pugi::parse_default, pugi::encoding_utf8);
  if (result) return refuse_noncharacters(document);
  const auto at = std::min(as_index(std::max<std::ptrdiff_t>(result.offset, 0)), text_.size());
  fault(place_of(buffer_.data() + at, 1), fmt::format("broken XML: {}", result.description()),
        "a well-formed template", "close what was opened and quote every attribute");
  return false;
}

Place TemplateSource::place_of(const char* within, std::size_t length) const {
  Place place;
  place.file = file_;
  place.length = static_cast<std::int32_t>(length);
  if (within < buffer_.data() || within > buffer_.data() + buffer_.size()) return place;
  const auto offset = as_index(within - buffer_.data());
  const std::size_t mark = std::min(offset / mark_every, marks_.size() - 1);
  place.line = marks_.empty() ? 1 : marks_[mark].line;
  place.column = marks_.empty() ? 1 : marks_[mark].column;
  for (std::size_t i = mark * mark_every; i < offset && i < text_.size(); ++i)
    step(place, text_[i]);
  return place;
}

bool TemplateSource::refuse_noncharacters(const pugi::xml_document& document) {
  const std::size_t before = findings.size();
  const auto look_at = [this](const char* value) {
    for (detail::TextCursor cursor{value}; !cursor.done();) {
      const std::size_t at = cursor.at();
      const char32_t c = cursor.next();
      const bool broken = c == detail::not_a_letter;
      if (!broken && !detail::is_noncharacter(c)) continue;
      return fault(place_of(value + at, 1),
                   broken
                       ? std::string("bytes that are no UTF-8")
                       : fmt::format("U+{:04X}, which is no character", static_cast<unsigned>(c)),
                   "text in UTF-8", "take it away, or save the template anew as UTF-8");
    }
  };
  // What was spelled as a reference (&#xFFFF;) is told by its character too.
  struct Walker : pugi::xml_tree_walker {
    std::function<void(const char*)> look_at;
    bool for_each(pugi::xml_node& node) override {
      look_at(node.value());
      for (const pugi::xml_attribute attribute : node.attributes()) look_at(attribute.value());
      return true;
    }
  } walker;
  walker.look_at = look_at;
  pugi::xml_node root = document.root();
  root.traverse(walker);
  return findings.size() == before;
}

void TemplateSource::fault(Place place, std::string found, std::string expected, std::string fix,
                           Severity severity) {
  findings.push_back({severity,
                      "page-template",
                      place,
                      fmt::format("{}: {}", file_name_, found),
                      std::move(expected),
                      std::move(fix),
                      {}});
}

Attributes::Attributes(TemplateSource& source, pugi::xml_node element)
    : source_(source), element_(element) {}

Attributes::~Attributes() {
  for (const pugi::xml_attribute attribute : element_.attributes()) {
    const std::string_view name = attribute.name();
    if (name.starts_with("xmlns") || name.starts_with("xml:") ||
        std::ranges::find(taken_, name) != taken_.end())
      continue;
    source_.fault(source_.place_of(attribute.name(), name.size()),
                  fmt::format("unknown attribute “{}” on <{}>", name, element_.name()),
                  fmt::format("one of: {}", listed(taken_)), "correct its name or take it away");
  }
}

pugi::xml_attribute Attributes::take(const char* name) {
  taken_.emplace_back(name);
  return element_.attribute(name);
}

bool Attributes::has(const char* name) { return !element_.attribute(name).empty(); }

void Attributes::fault(const pugi::xml_attribute& attribute, std::string expected,
                       std::string fix) {
  const std::string_view value = attribute.value();
  source_.fault(source_.place_of(attribute.value(), std::max<std::size_t>(value.size(), 1)),
                fmt::format("{}=\"{}\"", attribute.name(), value), std::move(expected),
                std::move(fix));
}

void Attributes::text(const char* name, std::string& into) {
  if (const pugi::xml_attribute attribute = take(name)) into = attribute.value();
}

void Attributes::length(const char* name, Length& into) {
  const pugi::xml_attribute attribute = take(name);
  if (!attribute) return;
  std::string_view value = attribute.value();
  if (value.ends_with("pt")) {
    std::string_view rest = value;
    const std::optional<double> number = leading_number(rest);
    if (number && rest == "pt" && *number >= 0.0 && *number < 10'000.0) {
      into = points(*number);
      return;
    }
  } else if (const Parsed<Length> length = parse_length(value, Unit::Millimetre)) {
    into = *length;
    return;
  }
  fault(attribute, "a length such as 14pt, 20mm or 3/4 in", "write a number and its unit");
}

void Attributes::flag(const char* name, bool& into) {
  int index = into ? 0 : 1;
  choice(name, index, {"yes", "no"});
  into = index == 0;
}

void Attributes::number(const char* name, int& into, int low, int high) {
  const pugi::xml_attribute attribute = take(name);
  if (!attribute) return;
  const std::string_view value = attribute.value();
  int number = 0;
  const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), number);
  if (error == std::errc{} && end == value.data() + value.size() && number >= low &&
      number <= high) {
    into = number;
    return;
  }
  fault(attribute, fmt::format("a whole number from {} to {}", low, high), "write one of them");
}

void Attributes::share(const char* name, double& into) {
  const pugi::xml_attribute attribute = take(name);
  if (!attribute) return;
  std::string_view rest = attribute.value();
  const std::optional<double> number = leading_number(rest);
  if (number && rest == "%" && *number >= 0.0 && *number <= 100.0) {
    into = *number / 100.0;
    return;
  }
  fault(attribute, "a share such as 45%", "write a number from 0 to 100 and %");
}

void Attributes::choice(const char* name, int& into, const std::vector<std::string_view>& words) {
  const pugi::xml_attribute attribute = take(name);
  if (!attribute) return;
  const auto found = std::ranges::find(words, std::string_view(attribute.value()));
  if (found != words.end()) {
    into = static_cast<int>(found - words.begin());
    return;
  }
  fault(attribute, listed(words), "write one of these words");
}

void Attributes::tint(const char* name, Tint& into, const Template& known) {
  const pugi::xml_attribute attribute = take(name);
  if (!attribute) return;
  const std::string_view value = attribute.value();
  if (value.starts_with('#') && value.size() == 7) {
    const auto red = hex_pair(value.substr(1, 2));
    const auto green = hex_pair(value.substr(3, 2));
    const auto blue = hex_pair(value.substr(5, 2));
    if (red && green && blue) {
      into.accent = false;
      into.fixed = {static_cast<std::uint8_t>(*red), static_cast<std::uint8_t>(*green),
                    static_cast<std::uint8_t>(*blue)};
      return;
    }
  } else if (value == "accent") {
    into.accent = true;
    return;
  } else if (const auto found = known.colours.find(value); found != known.colours.end()) {
    into = found->second;
    return;
  }
  fault(attribute, "#rrggbb, accent, or the name of a colour defined above",
        "define the colour under <colours>");
}

} // namespace leafwright::page
