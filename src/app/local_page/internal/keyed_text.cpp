#include "app/local_page/internal/keyed_text.h"

#include "measure/index.h"
#include "output/pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

namespace leafwright::local_page {

namespace {

void flatten(const edit::ElementSpan& span, std::vector<std::size_t>& into) {
  into.push_back(span.begin);
  for (const edit::ElementSpan& child : span.children) flatten(child, into);
}

std::vector<std::size_t> begins_of(std::string_view bytes) {
  std::vector<std::size_t> begins;
  if (const auto root = edit::spans_of(bytes)) flatten(*root, begins);
  return begins;
}

} // namespace

std::optional<std::size_t> KeyedText::number_of(Key key) const {
  const auto found = std::ranges::find(keys, key);
  if (found == keys.end()) return std::nullopt;
  return as_index(found - keys.begin());
}

KeyedText keyed(std::string bytes) {
  KeyedText text;
  text.begins = begins_of(bytes);
  text.bytes = std::move(bytes);
  for (std::size_t i = 0; i < text.begins.size(); ++i) text.keys.push_back(text.next++);
  return text;
}

Patch apply(KeyedText& text, const Patch& patch) {
  Patch back;
  std::string after = edit::applied(text.bytes, patch.edits);
  std::size_t grown = 0, shrunk = 0;
  for (const edit::Edit& one : patch.edits) {
    back.edits.push_back(
        {one.at + grown - shrunk, one.bytes.size(), text.bytes.substr(one.at, one.length)});
    grown += one.bytes.size();
    shrunk += one.length;
  }
  // Where elements that stay begin now.
  std::vector<std::pair<std::size_t, Key>> kept;
  std::size_t edit = 0;
  grown = shrunk = 0;
  for (std::size_t i = 0; i < text.begins.size(); ++i) {
    const std::size_t begin = text.begins[i];
    for (; edit < patch.edits.size(); ++edit) {
      const edit::Edit& one = patch.edits[edit];
      if (one.at + one.length > begin) break;
      grown += one.bytes.size();
      shrunk += one.length;
    }
    if (edit < patch.edits.size() && patch.edits[edit].at <= begin)
      back.keys.push_back(text.keys[i]); // it is gone
    else
      kept.emplace_back(begin + grown - shrunk, text.keys[i]);
  }
  std::vector<std::size_t> begins = begins_of(after);
  std::vector<Key> keys;
  std::size_t next_kept = 0, next_new = 0;
  for (const std::size_t begin : begins) {
    while (next_kept < kept.size() && kept[next_kept].first < begin) ++next_kept;
    if (next_kept < kept.size() && kept[next_kept].first == begin)
      keys.push_back(kept[next_kept++].second);
    else
      keys.push_back(next_new < patch.keys.size() ? patch.keys[next_new++] : text.next++);
  }
  text.bytes = std::move(after);
  text.begins = std::move(begins);
  text.keys = std::move(keys);
  return back;
}

std::string key_words(Key key) { return fmt::format("k{}", key); }

std::optional<Key> key_of(std::string_view words) {
  Key key = 0;
  if (!words.starts_with('k')) return std::nullopt;
  const char* const end = words.data() + words.size();
  const auto [after, fault] = std::from_chars(words.data() + 1, end, key);
  if (fault != std::errc() || after != end || key < 1) return std::nullopt;
  return key;
}

std::string revision_of(std::string_view bytes) { return digest::sha256(bytes).substr(0, 32); }

ElementTree::ElementTree(std::string_view text) : root(edit::spans_of(text)) {
  if (root) add(*root, -1, 0, root->name == "project" ? reading::rule_for("project") : nullptr);
}

void ElementTree::add(const edit::ElementSpan& span, int parent, std::size_t index,
                      const reading::ElementRule* rule) {
  const int own = static_cast<int>(nodes.size());
  nodes.push_back({&span, parent, index, rule});
  std::vector<reading::ChildRule> known;
  if (rule != nullptr) known = reading::children_of(*rule);
  for (std::size_t i = 0; i < span.children.size(); ++i) {
    const auto child = std::ranges::find(known, reading::one_spelling(span.children[i].name),
                                         &reading::ChildRule::name);
    add(span.children[i], own, i, child == known.end() ? nullptr : reading::rule_for(child->key));
  }
}

std::string short_path(const ElementTree& tree, std::size_t node, std::string_view text) {
  const edit::ElementSpan& span = *tree.nodes.at(node).span;
  std::string words(span.name);
  if (const edit::AttributeSpan* id = span.find("id"))
    words += " " + std::string(text.substr(id->value, id->length));
  return words;
}

std::string whole_path(const ElementTree& tree, std::size_t node, std::string_view text) {
  std::string words = short_path(tree, node, text);
  for (int up = tree.nodes.at(node).parent; up > 0; up = tree.nodes.at(as_index(up)).parent)
    words = short_path(tree, as_index(up), text) + " / " + words;
  return words;
}

} // namespace leafwright::local_page
