#include "app/local_page/internal/wishes.h"

#include "measure/index.h"
#include "read/document.h"
#include "read/edit/elements.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

namespace leafwright::local_page {

namespace {

NewElement element_of(const app::JsonValue& said) {
  NewElement element{said.text_at("tag"), said.text_at("text"), {}, {}};
  if (const app::JsonValue* attributes = said.find("attributes"))
    for (const std::string& name : attributes->names)
      if (const app::JsonValue* value = attributes->find(name);
          value->kind == app::JsonValue::Kind::Text)
        element.attributes.emplace_back(name, value->text);
  if (const app::JsonValue* children = said.find("children"))
    for (const app::JsonValue& child : children->list)
      element.children.push_back(element_of(child));
  return element;
}

} // namespace

std::variant<Wish, Refusal> wish_of(const app::JsonValue& said) {
  static constexpr std::array<std::string_view, 7> names{"set",    "text", "add", "duplicate",
                                                         "remove", "move", "fix"};
  const Refusal not_understood{"This change is not understood.", "Reload the page.", 400};
  Wish wish;
  const std::string op = said.text_at("op");
  const auto found = std::ranges::find(names, op);
  if (found == names.end()) return not_understood;
  wish.what = static_cast<Wish::What>(found - names.begin());
  if (wish.what == Wish::What::Fix) {
    const auto number = said.number_at("finding");
    if (!number || *number < 0 || *number > 1e6) return not_understood;
    wish.finding = static_cast<std::size_t>(*number);
    return wish;
  }
  const auto key = key_of(said.text_at(wish.what == Wish::What::Add ? "parent" : "key"));
  if (!key) return not_understood;
  wish.key = *key;
  if (const app::JsonValue* before = said.find("before");
      before != nullptr && before->kind == app::JsonValue::Kind::Text) {
    wish.before = key_of(before->text);
    if (!wish.before) return not_understood;
  }
  wish.name = said.text_at("attribute");
  wish.words = said.text_at("value");
  wish.remove = said.truth_at("remove");
  if (wish.what == Wish::What::Add) wish.element = element_of(said);
  return wish;
}

namespace {

using Made = std::variant<Change, Refusal>;
constexpr std::string_view reload = "Reload the page: it shows an older state of the file.";

std::string known_value(const KeyedText& text, const edit::AttributeSpan* span) {
  return span == nullptr ? std::string() : text.bytes.substr(span->value, span->length);
}

const reading::Attribute* attribute_row(const std::vector<reading::Attribute>& rows,
                                        std::string_view name) {
  const auto row = std::ranges::find(rows, name, &reading::Attribute::name);
  return row == rows.end() ? nullptr : &*row;
}

class ChangeMaker {
 public:
  ChangeMaker(const KeyedText& text, const Wish& wish)
      : text_(text), wish_(wish), tree_(text.bytes) {}

  Made make() {
    const auto number = text_.number_of(wish_.key);
    if (!number || *number >= tree_.nodes.size())
      return Refusal{"The element that this change is about is not there any more.",
                     std::string(reload), 409};
    number_ = *number;
    if (node().rule == nullptr && wish_.what != Wish::What::Remove &&
        wish_.what != Wish::What::Bytes)
      return Refusal{fmt::format("A project holds no <{}> there.", node().span->name),
                     "Take it out, or move it in the file."};
    switch (wish_.what) {
    case Wish::What::Set: return set();
    case Wish::What::Text: return words();
    case Wish::What::Add: return add();
    case Wish::What::Duplicate: return duplicate();
    case Wish::What::Remove: return remove();
    case Wish::What::Move: return move();
    case Wish::What::Bytes: return bytes();
    case Wish::What::Fix: break;
    }
    return Refusal{"This change is not understood.", std::string(reload), 400};
  }

 private:
  const ElementTree::Node& node() const { return tree_.nodes[number_]; }
  const edit::ElementSpan& span() const { return *node().span; }
  std::string name() const { return short_path(tree_, number_, text_.bytes); }

  Change said(std::vector<edit::Edit> edits, std::string words, std::string_view after_path,
              std::string before, std::string after) const {
    const std::size_t at = edits.empty() ? 0 : edits.front().at;
    const std::string where = whole_path(tree_, number_, text_.bytes).append(after_path);
    return {
        {std::move(edits), {}}, std::move(words), {where, std::move(before), std::move(after), at}};
  }

  Made set() {
    const std::vector<reading::Attribute> rows = reading::attributes_of(*node().rule);
    const edit::AttributeSpan* there = span().find(wish_.name);
    // What the vocabulary does not know may be taken out, and that is all.
    if (attribute_row(rows, wish_.name) == nullptr && !(wish_.remove && there != nullptr))
      return Refusal{fmt::format("<{}> has no attribute “{}”.", span().name, wish_.name),
                     "Choose one of those that the form shows."};
    std::vector<edit::Edit> edits = wish_.remove
                                        ? edit::without_attribute(text_.bytes, span(), wish_.name)
                                        : edit::with_attribute(span(), wish_.name, wish_.words);
    return said(std::move(edits), fmt::format("{} of {}", wish_.name, name()), ": " + wish_.name,
                known_value(text_, there), wish_.remove ? std::string() : wish_.words);
  }

  Made bytes() {
    if (wish_.at < span().begin || wish_.at + wish_.length > span().end)
      return Refusal{"The place of this change is not there any more.", std::string(reload), 409};
    return said({{wish_.at, wish_.length, edit::escaped(wish_.words, '"')}},
                fmt::format("a name in {}", name()), "", text_.bytes.substr(wish_.at, wish_.length),
                wish_.words);
  }

  Made words() {
    if (!node().rule->prose)
      return Refusal{fmt::format("<{}> holds no words of its own.", span().name),
                     "Write them into a step, a tip or an introduction."};
    return said(edit::with_words(text_.bytes, span(), wish_.words),
                fmt::format("words of {}", name()), "", "", wish_.words);
  }

  std::size_t count_of(std::string_view tag) const {
    return as_index(std::ranges::count(span().children, tag, &edit::ElementSpan::name));
  }

  // An id that nothing in the file has.
  std::string free_id(std::string base) const {
    std::set<std::string> taken;
    for (const ElementTree::Node& one : tree_.nodes)
      taken.insert(known_value(text_, one.span->find("id")));
    if (!taken.contains(base)) return base;
    const std::size_t digits = base.find_last_not_of("0123456789");
    if (digits != std::string::npos && digits + 1 < base.size() && base[digits] == '-')
      base.resize(digits);
    for (int number = 2;; ++number)
      if (std::string id = fmt::format("{}-{}", base, number); !taken.contains(id)) return id;
  }

  // Behind the last of its kind; a card's things, whose order is that of the layers, behind all.
  std::size_t usual_place(std::string_view tag) const {
    const std::vector<reading::ChildRule> known = reading::children_of(*node().rule);
    const auto rank = [&](std::string_view one) {
      return std::ranges::find(known, one, &reading::ChildRule::name) - known.begin();
    };
    const bool layers = span().name == "card" && tag != "intro" && tag != "base";
    for (std::size_t i = span().children.size(); i-- > 0;)
      if (layers || rank(span().children[i].name) <= rank(tag)) return i + 1;
    return 0;
  }

  // The element as bytes, its children below it; or why it may not stand there.
  std::variant<std::string, Refusal> written(const NewElement& element,
                                             const reading::ElementRule& parent,
                                             const std::string& lead) const {
    const std::vector<reading::ChildRule> known = reading::children_of(parent);
    const auto child = std::ranges::find(known, element.tag, &reading::ChildRule::name);
    if (child == known.end())
      return Refusal{fmt::format("<{}> holds no <{}>.", parent.key, element.tag),
                     "Choose one of those that are offered there."};
    const reading::ElementRule& rule = *reading::rule_for(child->key);
    const std::vector<reading::Attribute> rows = reading::attributes_of(rule);
    auto attributes = element.attributes;
    for (const auto& one : attributes)
      if (attribute_row(rows, one.first) == nullptr)
        return Refusal{fmt::format("<{}> has no attribute “{}”.", element.tag, one.first),
                       "Leave it out."};
    const bool named = std::ranges::any_of(attributes, [](auto& one) { return one.first == "id"; });
    if (const auto* id = attribute_row(rows, "id"); id != nullptr && id->required && !named)
      attributes.insert(attributes.begin(), {"id", free_id(element.tag)});
    std::string bytes = edit::written_element(element.tag, attributes, element.words);
    if (element.children.empty()) return bytes;
    if (element.words.empty())
      bytes.replace(bytes.size() - 2, 2, ">");
    else
      bytes.resize(bytes.size() - element.tag.size() - 3);
    for (const NewElement& one : element.children) {
      auto inner = written(one, rule, lead + "  ");
      if (std::holds_alternative<Refusal>(inner)) return inner;
      bytes += lead + "  " + std::get<std::string>(inner);
    }
    return bytes + lead + "</" + element.tag + ">";
  }

  Made add() {
    const std::string& tag = wish_.element.tag;
    const std::vector<reading::ChildRule> known = reading::children_of(*node().rule);
    const auto child = std::ranges::find(known, tag, &reading::ChildRule::name);
    if (child != known.end() && (child->count == '?' || child->count == '!') && count_of(tag) > 0)
      return Refusal{fmt::format("{} has a <{}> already.", name(), tag),
                     "Change that one instead."};
    auto bytes = written(wish_.element, *node().rule, edit::lead_for_child(text_.bytes, span()));
    if (const Refusal* no = std::get_if<Refusal>(&bytes)) return *no;
    std::size_t place = usual_place(tag);
    if (wish_.before) {
      const auto before = child_number(*wish_.before);
      if (!before) return out_of_place();
      place = *before;
    }
    const std::string& made = std::get<std::string>(bytes);
    return said(edit::with_child(text_.bytes, span(), place, made),
                fmt::format("a new {} in {}", tag, name()), "", "", made);
  }

  std::optional<std::size_t> child_number(Key key) const {
    const auto other = text_.number_of(key);
    if (!other || tree_.nodes[*other].parent != static_cast<int>(number_)) return std::nullopt;
    return tree_.nodes[*other].index;
  }
  static Refusal out_of_place() {
    return {"The element that it should come in front of is not there any more.",
            std::string(reload), 409};
  }

  Made duplicate() {
    if (node().parent < 0)
      return Refusal{"A project cannot hold itself.", "Copy the file instead."};
    std::string copy = text_.bytes.substr(span().begin, span().end - span().begin);
    if (const edit::AttributeSpan* id = span().find("id"))
      copy.replace(id->value - span().begin, id->length, free_id(known_value(text_, id)));
    const edit::ElementSpan& parent = *tree_.nodes.at(as_index(node().parent)).span;
    return said(edit::with_child(text_.bytes, parent, node().index + 1, copy),
                fmt::format("a copy of {}", name()), "", "", copy);
  }

  Made remove() {
    if (node().parent < 0)
      return Refusal{"The project itself cannot be taken out.", "Take out what it holds."};
    return said(edit::without_element(text_.bytes, span()), fmt::format("{} taken out", name()), "",
                text_.bytes.substr(span().begin, span().end - span().begin), "");
  }

  bool within_itself(std::size_t other) const {
    for (int up = static_cast<int>(other); up >= 0; up = tree_.nodes.at(as_index(up)).parent)
      if (up == static_cast<int>(number_)) return true;
    return false;
  }

  Made move() {
    if (node().parent < 0) return Refusal{"The project itself cannot be moved.", "Move a part."};
    std::size_t parent = as_index(node().parent);
    std::size_t place = tree_.nodes[parent].span->children.size();
    if (wish_.before) {
      const auto before = text_.number_of(*wish_.before);
      if (!before || tree_.nodes[*before].parent < 0) return out_of_place();
      parent = as_index(tree_.nodes[*before].parent);
      place = tree_.nodes[*before].index;
    }
    if (within_itself(parent))
      return Refusal{"A thing cannot be moved into itself.", "Choose another place."};
    const reading::ElementRule* rule = tree_.nodes[parent].rule;
    if (rule == nullptr || !std::ranges::any_of(reading::children_of(*rule), [&](const auto& one) {
          return one.name == span().name;
        }))
      return Refusal{fmt::format("<{}> cannot lie there.", span().name), "Choose another place."};
    const bool here = parent == as_index(node().parent);
    const bool stays = here && (place == node().index || place == node().index + 1);
    Change change =
        said(stays ? std::vector<edit::Edit>()
                   : edit::moved_element(text_.bytes, span(), *tree_.nodes[parent].span, place),
             fmt::format("the place of {}", name()), "", "", "");
    // It is the same element in another place.
    for (std::size_t i = number_; i < tree_.nodes.size() && tree_.nodes[i].span->begin < span().end;
         ++i)
      change.patch.keys.push_back(text_.keys[i]);
    return change;
  }

  const KeyedText& text_;
  const Wish& wish_;
  const ElementTree tree_;
  std::size_t number_ = 0;
};

} // namespace

std::variant<Change, Refusal> change_of(const KeyedText& text, const Wish& wish) {
  return ChangeMaker(text, wish).make();
}

std::optional<Refusal> broken(const std::string& bytes) {
  const ReadOptions limits;
  reading::Journal journal(1);
  const SourceText source("the project", bytes);
  if (bytes.size() > limits.most_bytes)
    return Refusal{"The project would be larger than 32 MB.", "Divide it into several.", 413};
  if (check_encoding(source, 0, journal) &&
      check_well_formed(source, 0, limits.most_depth, journal))
    return std::nullopt;
  const Findings findings = journal.take();
  if (findings.empty()) return Refusal{"This cannot be written into the file.", "Write it anew."};
  return Refusal{fmt::format("This cannot be written into the file: {}.", findings.front().found),
                 findings.front().fix};
}

} // namespace leafwright::local_page
