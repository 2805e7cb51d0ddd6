#include "read/edit/spans.h"

#include "read/vocabulary.h"

#include <utility>

namespace leafwright::edit {

const AttributeSpan* ElementSpan::find(std::string_view attribute) const {
  for (const AttributeSpan& one : attributes)
    if (reading::one_spelling(one.name) == attribute) return &one;
  return nullptr;
}

std::size_t ElementSpan::attributes_end() const {
  return attributes.empty() ? begin + 1 + name.size() : attributes.back().end();
}

namespace {

constexpr std::string_view blanks = " \t\r\n";

class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::optional<ElementSpan> run() {
    if (!to_element()) return std::nullopt;
    ElementSpan root;
    if (!element(root, 0)) return std::nullopt;
    return root;
  }

 private:
  static constexpr std::size_t npos = std::string_view::npos;
  static constexpr int deepest = 1000;

  bool skip(std::string_view opening, std::string_view closing) {
    if (!text_.substr(at_).starts_with(opening)) return false;
    const std::size_t end = text_.find(closing, at_ + opening.size());
    at_ = end == npos ? text_.size() : end + closing.size();
    return true;
  }
  bool skip_other() {
    return skip("<!--", "-->") || skip("<![CDATA[", "]]>") || skip("<?", "?>") || skip("<!", ">");
  }
  // To the next tag of an element.
  bool to_element() {
    for (;;) {
      at_ = text_.find('<', at_);
      if (at_ == npos) return false;
      if (!skip_other()) return true;
    }
  }
  void skip_blanks() { at_ = std::min(text_.find_first_not_of(blanks, at_), text_.size()); }

  bool element(ElementSpan& into, int depth) {
    if (depth > deepest) return false;
    into.begin = at_;
    const std::size_t name_end = text_.find_first_of(" \t\r\n/>", at_ + 1);
    if (name_end == npos) return false;
    into.name = text_.substr(at_ + 1, name_end - at_ - 1);
    at_ = name_end;
    for (skip_blanks(); at_ < text_.size(); skip_blanks()) {
      if (text_[at_] == '>') break;
      if (text_.substr(at_).starts_with("/>")) {
        at_ += 2;
        into.empty_tag = true;
        into.end = into.inner_begin = into.inner_end = at_;
        return true;
      }
      if (!attribute(into)) return false;
    }
    if (at_ >= text_.size()) return false;
    into.inner_begin = ++at_;
    while (to_element()) {
      if (text_.substr(at_).starts_with("</")) {
        into.inner_end = at_;
        const std::size_t close = text_.find('>', at_);
        if (close == npos) return false;
        into.end = at_ = close + 1;
        return true;
      }
      ElementSpan child;
      if (!element(child, depth + 1)) return false;
      into.children.push_back(std::move(child));
    }
    return false;
  }

  bool attribute(ElementSpan& into) {
    AttributeSpan one;
    one.begin = at_;
    const std::size_t name_end = text_.find_first_of(" \t\r\n=", at_);
    if (name_end == npos) return false;
    one.name = text_.substr(at_, name_end - at_);
    const std::size_t quote = text_.find_first_of("\"'", name_end);
    if (quote == npos) return false;
    one.quote = text_[quote];
    one.value = quote + 1;
    const std::size_t end = text_.find(one.quote, one.value);
    if (end == npos) return false;
    one.length = end - one.value;
    at_ = end + 1;
    into.attributes.push_back(one);
    return true;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

} // namespace

std::optional<ElementSpan> spans_of(std::string_view text) { return Scanner(text).run(); }

} // namespace leafwright::edit
