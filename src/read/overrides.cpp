#include "read/overrides.h"

#include "measure/index.h"
#include "measure/text_cursor.h"
#include "read/near.h"
#include "read/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::reading {
namespace {

struct Override {
  std::int32_t source = 0;
  std::string_view text, card, id, property;
  std::size_t id_at = 0, property_at = 0;
  bool used = false;        // some thing has the id
  bool unfit = false;       // … but none of them such an attribute
  std::string_view element; // the name of one that has not
};

std::vector<std::string_view> attributes_of(std::string_view key) {
  std::vector<std::string_view> names;
  const ElementRule* rule = rule_for(key);
  if (rule == nullptr) return names;
  std::string_view rest = rule->attributes;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find(' '), rest.size());
    std::string_view name = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    if (name.ends_with('!')) name.remove_suffix(1);
    if (!name.empty()) names.push_back(name);
  }
  return names;
}

class Applier {
 public:
  Applier(Context& context, Document& document, std::vector<Override> overrides)
      : context_(context), document_(document), overrides_(std::move(overrides)) {}

  void run() {
    const Element root = document_.root();
    match(root, "project", "", "");
    walk(root, "", false);
    for (const Override& one : overrides_) report(one);
  }

 private:
  void walk(const Element& parent, std::string_view card, bool in_supplies) {
    bool ribbon_seen = false;
    for (const Element& child : parent.children()) {
      const auto value = child.attribute("id");
      std::string id = value ? value->text() : "";
      if (id.empty() && (child.is("base") || child.is("run") || child.is("work") ||
                         child.is("labels") || child.is("class")))
        id = child.name();
      if (child.is("ribbon") && !in_supplies) {
        if (id.empty() && !ribbon_seen) id = "ribbon";
        ribbon_seen = true;
      }
      if (!id.empty()) {
        if (known_.size() < 2000) known_.push_back(id);
        const bool spool = in_supplies && (child.is("ribbon") || child.is("twine"));
        match(child, id, card, spool ? "spool" : child.name());
      }
      const bool is_card = child.is("card");
      walk(child, is_card && value ? std::string_view(id) : card,
           in_supplies || child.is("supplies"));
    }
  }

  void match(const Element& element, std::string_view id, std::string_view card,
             std::string_view key) {
    if (key.empty()) key = element.name();
    for (Override& one : overrides_) {
      if (one.id != id || (!one.card.empty() && one.card != card)) continue;
      const std::vector<std::string_view> allowed = attributes_of(key);
      if (std::find(allowed.begin(), allowed.end(), one.property) == allowed.end()) {
        one.unfit = true;
        one.element = element.name();
        continue;
      }
      one.used = true;
      document_.override_attribute(element, one.property, one.source);
    }
  }

  void report(const Override& one) {
    if (one.used) return;
    const SourceText& source = context_.sources.at(as_index(one.source));
    if (one.unfit) {
      const bool root = one.id == "project";
      const std::vector<std::string_view> allowed = attributes_of(root ? "project" : one.element);
      context_.journal.error(
          "read-override", source.place(one.source, one.property_at, one.property.size()),
          fmt::format("{} has no {}", one.id, detail::shown(one.property)),
          fmt::format("an attribute of <{}>", one.element), did_you_mean(one.property, allowed));
      return;
    }
    const std::vector<std::string_view> known(known_.begin(), known_.end());
    context_.journal.error("read-override", source.place(one.source, one.id_at, one.id.size()),
                           fmt::format("nothing is called {}", detail::shown(one.id)),
                           "the id of a thing of the project", did_you_mean(one.id, known));
  }

  Context& context_;
  Document& document_;
  std::vector<Override> overrides_;
  std::vector<std::string> known_;
};

} // namespace

void apply_overrides(Context& context, Document& document, std::int32_t first) {
  std::vector<Override> overrides;
  for (auto i = as_index(first); i < context.sources.size(); ++i) {
    Override one;
    one.source = static_cast<std::int32_t>(i);
    one.text = context.sources[i].text();
    const std::size_t sign = one.text.find('=');
    const std::string_view left = one.text.substr(0, sign);
    const std::size_t stop = left.rfind('.');
    if (sign == std::string_view::npos || stop == std::string_view::npos || stop == 0) {
      context.journal.error("read-override", context.sources[i].place(one.source, 0, left.size()),
                            detail::shown(one.text), "ID.ATTRIBUTE=VALUE, such as mat.width=4in",
                            "write an id, a full stop, an attribute, = and the new value");
      continue;
    }
    const std::size_t slash = left.substr(0, stop).find('/');
    const bool scoped = slash != std::string_view::npos;
    one.card = scoped ? left.substr(0, slash) : std::string_view{};
    one.id_at = scoped ? slash + 1 : 0;
    one.id = left.substr(one.id_at, stop - one.id_at);
    one.property_at = stop + 1;
    one.property = left.substr(stop + 1);
    overrides.push_back(one);
  }
  if (!overrides.empty()) Applier(context, document, std::move(overrides)).run();
}

} // namespace leafwright::reading
