#include "read/edit/edit.h"

#include "read/document.h"
#include "read/edit/elements.h"
#include "read/edit/spans.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <new>

namespace leafwright::edit {

std::string applied(std::string_view text, const std::vector<Edit>& edits) {
  std::string out;
  std::size_t at = 0;
  for (const Edit& edit : edits) {
    out += text.substr(at, edit.at - at);
    out += edit.bytes;
    at = edit.at + edit.length;
  }
  out += text.substr(at);
  return out;
}

namespace {

using reading::Context;
using reading::Document;
using reading::Element;
using reading::Journal;

std::string_view property_of(std::string_view override_text) {
  const std::string_view left = override_text.substr(0, override_text.find('='));
  return left.substr(left.rfind('.') + 1);
}

// The sign between the two sides of a size, with the blanks around it.
struct Sides {
  std::size_t first_end = 0, second_begin = 0;
};
std::optional<Sides> sides_of(std::string_view size) {
  for (const std::string_view sign : {" x ", " × ", " X "}) {
    const std::size_t at = size.find(sign);
    if (at == std::string_view::npos || size.find(sign, at + 1) != std::string_view::npos) continue;
    return Sides{at, at + sign.size()};
  }
  return std::nullopt;
}

class Setter {
 public:
  Setter(Editing& out, const Document& document, std::string_view text, Journal& journal)
      : out_(out), document_(document), text_(text), journal_(journal) {}

  void run(const ElementSpan& root) {
    // A later option about the same thing wins, as it does when it is only tried.
    walk(document_.root(), root, "");
    for (auto& [at, found] : edits_) {
      out_.edits.push_back(std::move(found.edit));
      out_.written.push_back(std::move(found.written));
    }
  }

 private:
  void walk(const Element& element, const ElementSpan& span, const std::string& path) {
    const AttributeSpan* id = span.find("id");
    const std::string own =
        std::string(span.name) +
        (id ? " " + std::string(text_.substr(id->value, id->length)) : std::string());
    const std::string here = path.empty() || path == "project" ? own : path + " / " + own;
    for (std::size_t i = 1; i < out_.sources.size(); ++i) {
      const std::string property(property_of(out_.sources[i].text()));
      const std::int32_t* source = document_.override_of(element, property);
      if (source && *source == static_cast<std::int32_t>(i))
        set(span, property, i, here, document_.override_of(element, "size") != nullptr);
    }
    const std::vector<Element> children = element.children();
    for (std::size_t i = 0; i < children.size() && i < span.children.size(); ++i)
      walk(children[i], span.children[i], path.empty() ? "project" : here);
  }

  void set(const ElementSpan& span, const std::string& property, std::size_t source,
           const std::string& here, bool size_said) {
    const std::string_view whole = out_.sources[source].text();
    const std::string_view value = whole.substr(whole.find('=') + 1);
    const std::string where = here + ": " + property;
    if (const AttributeSpan* there = span.find(property)) {
      replace(there->value, there->length, escaped(value, there->quote), where);
      return;
    }
    if (const AttributeSpan* size = span.find("size");
        size && (property == "width" || property == "height")) {
      const std::string_view old = text_.substr(size->value, size->length);
      if (size_said) {
        refuse_twice(source, here, property);
        return;
      }
      const auto sides = sides_of(old);
      if (!sides) {
        refuse(source, here, old);
        return;
      }
      const bool width = property == "width";
      const std::size_t from = width ? 0 : sides->second_begin;
      const std::size_t to = width ? sides->first_end : old.size();
      replace(size->value + from, to - from, escaped(value, size->quote), where);
      return;
    }
    const std::size_t at = span.attributes_end();
    Found& found = edits_[at]; // several new attributes stand behind each other
    found.edit.at = at;
    found.edit.bytes += fmt::format(" {}=\"{}\"", property, escaped(value, '"'));
    found.written = {where, "", std::string(value), at};
  }

  void replace(std::size_t at, std::size_t length, std::string bytes, const std::string& where) {
    const std::string_view old = text_.substr(at, length);
    if (old == bytes) return;
    edits_[at] = {{at, length, bytes}, {where, std::string(old), std::move(bytes), at}};
  }

  void refuse(std::size_t source, const std::string& here, std::string_view size) {
    const SourceText& said = out_.sources[source];
    journal_.error("edit-size",
                   said.place(static_cast<std::int32_t>(source), 0, said.text().size()),
                   fmt::format("the size of {} is written as “{}”", here, size),
                   "a size of two sides, such as 4 x 5 1/2, of which one can be changed",
                   "set its size instead: …size=WIDTH x HEIGHT");
  }

  void refuse_twice(std::size_t source, const std::string& here, const std::string& property) {
    const SourceText& said = out_.sources[source];
    journal_.error("edit-twice",
                   said.place(static_cast<std::int32_t>(source), 0, said.text().size()),
                   fmt::format("the {} of {} beside its size", property, here),
                   "each side said once", "leave one of the two values out");
  }

  struct Found {
    Edit edit;
    Written written;
  };
  Editing& out_;
  const Document& document_;
  std::string_view text_;
  Journal& journal_;
  std::map<std::size_t, Found> edits_;
};

} // namespace

Editing set_values(std::string_view file_bytes, const std::string& path,
                   const std::vector<std::string>& overrides, const ReadOptions& options) {
  Editing out;
  Journal journal(options.most_findings);
  out.sources.reserve(1 + overrides.size());
  out.sources.emplace_back(path, std::string(file_bytes));
  for (const std::string& text : overrides) out.sources.emplace_back("--set", text);
  const SourceText& file = out.sources.front();
  Project project;
  Context context{options, out.sources, journal, project};
  Document document(out.sources, 0);
  if (check_encoding(file, 0, journal) && check_well_formed(file, 0, options.most_depth, journal) &&
      document.parse(journal) && check_structure(document, journal)) {
    apply_overrides(context, document, 1);
    const auto root = spans_of(file.text());
    if (root && !journal.has_errors()) Setter(out, document, file.text(), journal).run(*root);
  }
  out.findings = journal.take();
  if (!out.ok()) out.edits.clear();
  return out;
}

} // namespace leafwright::edit
