#include "language/lists.h"
#include "measure/index.h"
#include "read/edit/edit.h"
#include "read/edit/spans.h"

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace leafwright::edit {
namespace {

// What is said between tags: without comments, runs of blanks as one.
std::string said(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    if (text.substr(at).starts_with("<!--")) {
      const std::size_t end = text.find("-->", at);
      at = end == std::string_view::npos ? text.size() : end + 3;
      continue;
    }
    const char c = text[at++];
    const bool blank = c == ' ' || c == '\t' || c == '\r' || c == '\n';
    if (!blank)
      out += c;
    else if (!out.empty() && out.back() != ' ')
      out += ' ';
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

class Differ {
 public:
  Differ(std::string_view a, std::string_view b, Editing& out) : a_(a), b_(b), out_(out) {}

  void element(const ElementSpan& a, const ElementSpan& b, const std::string& path) {
    attributes(a, b, path.empty() ? std::string(a.name) : path);
    if (a.empty_tag != b.empty_tag) {
      // Only the tag's end differs: attributes are dealt with.
      const std::size_t a_end = tag_end(a), b_end = tag_end(b);
      const std::string_view before = a_.substr(a_end, a.end - a_end);
      const std::string_view after = b_.substr(b_end, b.end - b_end);
      change(a_end, before, after, path);
      return;
    }
    if (a.empty_tag) return;
    children(a, b, path);
  }

 private:
  static std::size_t tag_end(const ElementSpan& span) {
    return span.empty_tag ? span.end - 2 : span.inner_begin - 1;
  }

  std::string name(const ElementSpan& span, std::string_view text) const {
    const AttributeSpan* id = span.find("id");
    return std::string(span.name) +
           (id ? " " + std::string(text.substr(id->value, id->length)) : std::string());
  }
  std::string joined(const std::string& path, const std::string& own) const {
    return path.empty() ? own : path + " / " + own;
  }

  void change(std::size_t at, std::string_view before, std::string_view after,
              const std::string& where) {
    if (before == after) return;
    out_.edits.push_back({at, before.size(), std::string(after)});
    out_.written.push_back({where, said(before), said(after), at});
  }

  void attributes(const ElementSpan& a, const ElementSpan& b, const std::string& path) {
    for (const AttributeSpan& old : a.attributes) {
      const AttributeSpan* now = b.find(old.name);
      const std::string where = path + ": " + std::string(old.name);
      if (!now) {
        const std::size_t from = a_.find_last_not_of(" \t\r\n", old.begin - 1) + 1;
        change(from, a_.substr(from, old.end() - from), "", where);
      } else if (a_.substr(old.value, old.length) != b_.substr(now->value, now->length)) {
        // With the quotes: the other file may use those that this one would have to escape.
        const std::string_view before = a_.substr(old.value - 1, old.length + 2);
        const std::string_view after = b_.substr(now->value - 1, now->length + 2);
        if (old.quote == now->quote)
          change(old.value, before.substr(1, old.length), after.substr(1, now->length), where);
        else
          change(old.value - 1, before, after, where);
      }
    }
    std::string added;
    for (const AttributeSpan& now : b.attributes)
      if (!a.find(now.name))
        added += " " + std::string(b_.substr(now.begin, now.end() - now.begin));
    if (!added.empty()) change(a.attributes_end(), "", added, path);
  }

  // Children by name and id; those without one by their number among their kind.
  std::vector<std::string> keys(const ElementSpan& parent, std::string_view text) const {
    std::vector<std::string> keys;
    std::map<std::string, int> count;
    for (const ElementSpan& child : parent.children) {
      std::string key = name(child, text);
      const int n = ++count[key];
      if (n > 1 || !child.find("id")) key += " #" + std::to_string(n);
      keys.push_back(std::move(key));
    }
    return keys;
  }

  std::vector<std::string_view> gaps(const ElementSpan& parent, std::string_view text) const {
    std::vector<std::string_view> gaps;
    std::size_t at = parent.inner_begin;
    for (const ElementSpan& child : parent.children) {
      gaps.push_back(text.substr(at, child.begin - at));
      at = child.end;
    }
    gaps.push_back(text.substr(at, parent.inner_end - at));
    return gaps;
  }

  void children(const ElementSpan& a, const ElementSpan& b, const std::string& path) {
    const std::vector<std::string> old_keys = keys(a, a_), new_keys = keys(b, b_);
    const std::vector<std::string_view> old_gaps = gaps(a, a_), new_gaps = gaps(b, b_);
    if (old_keys == new_keys) {
      for (std::size_t i = 0; i < old_gaps.size(); ++i) {
        if (said(old_gaps[i]) != said(new_gaps[i]))
          change(as_index(old_gaps[i].data() - a_.data()), old_gaps[i], new_gaps[i], path);
        if (i < a.children.size())
          element(a.children[i], b.children[i], joined(path, name(a.children[i], a_)));
      }
      return;
    }
    const auto silent = [](const std::vector<std::string_view>& all) {
      return std::all_of(all.begin(), all.end(), [](auto gap) { return said(gap).empty(); });
    };
    constexpr std::size_t most = 3000; // the table below is their product
    if (!silent(old_gaps) || !silent(new_gaps) || old_keys.size() > most ||
        new_keys.size() > most) {
      change(a.inner_begin, a_.substr(a.inner_begin, a.inner_end - a.inner_begin),
             b_.substr(b.inner_begin, b.inner_end - b.inner_begin), path);
      return;
    }
    align(a, b, old_keys, new_keys, new_gaps, path);
  }

  // The longest run of children in common, in order (dynamic programming); others go or come.
  void align(const ElementSpan& a, const ElementSpan& b, const std::vector<std::string>& old_keys,
             const std::vector<std::string>& new_keys,
             const std::vector<std::string_view>& new_gaps, const std::string& path) {
    const std::size_t n = old_keys.size(), m = new_keys.size();
    std::vector<std::vector<int>> best(n + 1, std::vector<int>(m + 1, 0));
    for (std::size_t i = n; i-- > 0;)
      for (std::size_t j = m; j-- > 0;)
        best[i][j] = old_keys[i] == new_keys[j] ? best[i + 1][j + 1] + 1
                                                : std::max(best[i + 1][j], best[i][j + 1]);
    std::size_t i = 0, j = 0, at = a.inner_begin;
    while (i < n || j < m) {
      if (i < n && j < m && old_keys[i] == new_keys[j]) {
        element(a.children[i], b.children[j], joined(path, name(a.children[i], a_)));
        at = a.children[i].end;
        ++i, ++j;
      } else if (j < m && (i == n || best[i][j + 1] >= best[i + 1][j])) {
        // All that come here, in one edit: they begin at the same byte.
        std::string bytes;
        std::vector<std::string> names;
        for (; j < m && (i == n || old_keys[i] != new_keys[j]) &&
               (i == n || best[i][j + 1] >= best[i + 1][j]);
             ++j) {
          bytes += new_gaps[j];
          bytes += b_.substr(b.children[j].begin, b.children[j].end - b.children[j].begin);
          names.push_back(name(b.children[j], b_));
        }
        out_.edits.push_back({at, 0, bytes});
        out_.written.push_back({joined(path, words::series(names)), "", said(bytes), at});
      } else {
        const ElementSpan& old = a.children[i];
        const std::string_view gone = a_.substr(at, old.end - at);
        out_.edits.push_back({at, gone.size(), ""});
        out_.written.push_back({joined(path, name(old, a_)),
                                said(a_.substr(old.begin, old.end - old.begin)), "", old.begin});
        at = old.end;
        ++i;
      }
    }
  }

  std::string_view a_, b_;
  Editing& out_;
};

} // namespace

Editing patch(std::string_view a, std::string_view b) {
  Editing out;
  const auto old_root = spans_of(a), new_root = spans_of(b);
  if (!old_root || !new_root || old_root->name != new_root->name) {
    if (a != b) {
      out.edits.push_back({0, a.size(), std::string(b)});
      out.written.push_back({"the whole file", "", "", 0});
    }
    return out;
  }
  Differ(a, b, out).element(*old_root, *new_root, "");
  std::stable_sort(out.edits.begin(), out.edits.end(),
                   [](const Edit& x, const Edit& y) { return x.at < y.at; });
  std::stable_sort(out.written.begin(), out.written.end(),
                   [](const Written& x, const Written& y) { return x.at < y.at; });
  return out;
}

} // namespace leafwright::edit
