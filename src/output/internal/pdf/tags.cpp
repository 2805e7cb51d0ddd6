#include "output/internal/pdf/tags.h"

#include "measure/index.h"
#include "output/internal/pdf/syntax.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <optional>
#include <tuple>

namespace leafwright::pdf {
namespace {

// One thing below a node: marked content of a page, a link's annotation, or another node.
struct Kid {
  enum class Kind { Marked, Annotation, Node } kind = Kind::Marked;
  int page = 0;
  int number = 0; // MCID, index into links, or node
};

// Where something first shows in reading order: page, then marked piece.
using Position = std::pair<int, int>;
constexpr Position nowhere{std::numeric_limits<int>::max(), 0};

struct Entry {
  std::vector<std::pair<Position, Kid>> content; // in reading order
  std::vector<int> children;                     // in the order of their indices
  Position first = nowhere;                      // of all below
};

class Tree {
 public:
  Tree(Haru& haru, const TagInput& input) : haru_(haru), input_(input) {}

  std::string add() {
    gather();
    for (std::size_t i = 0; i < input_.nodes.size(); ++i) refs_.push_back(haru_.reserve());
    const Ref root = haru_.reserve();
    for (std::size_t i = 0; i < input_.nodes.size(); ++i) haru_.fill(refs_[i], element(i, root));
    haru_.fill(root, fmt::format("/Type/StructTreeRoot/K {}/ParentTree {}/ParentTreeNextKey {}",
                                 ref_text(refs_.front()), ref_text(parent_tree()),
                                 input_.pages.size() + input_.links.size()));
    return fmt::format("/MarkInfo<</Marked true>>/StructTreeRoot {}", ref_text(root));
  }

 private:
  void gather();
  std::vector<Kid> kids(std::size_t node) const;
  std::string element(std::size_t node, Ref root) const;
  std::string attributes(const page::Node& node) const;
  Ref parent_tree();

  Haru& haru_;
  const TagInput& input_;
  std::vector<Entry> entries_;
  std::vector<Ref> refs_;
};

void Tree::gather() {
  const std::size_t count = input_.nodes.size();
  entries_.resize(count);
  for (std::size_t page = 0; page < input_.contents.size(); ++page) {
    const auto& marked = input_.contents[page].marked;
    for (std::size_t id = 0; id < marked.size(); ++id) {
      const Position at{static_cast<int>(page), static_cast<int>(id)};
      entries_[as_index(marked[id].node)].content.push_back(
          {at, {Kid::Kind::Marked, at.first, at.second}});
    }
  }
  for (std::size_t i = 0; i < input_.links.size(); ++i) {
    const LinkObject& link = input_.links[i];
    if (link.node < 0 || as_index(link.node) >= count) continue;
    entries_[as_index(link.node)].content.push_back(
        {{link.page, link.marked_before}, {Kid::Kind::Annotation, link.page, static_cast<int>(i)}});
  }
  for (Entry& entry : entries_) {
    std::stable_sort(entry.content.begin(), entry.content.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    if (!entry.content.empty()) entry.first = entry.content.front().first;
  }
  // A parent's index is below its children's, so walking backwards every child is done first.
  for (std::size_t i = count; i-- > 1;) {
    const int parent = input_.nodes[i].parent;
    const std::size_t above = parent < 0 || as_index(parent) >= i ? 0 : as_index(parent);
    entries_[above].children.push_back(static_cast<int>(i));
    entries_[above].first = std::min(entries_[above].first, entries_[i].first);
  }
  for (Entry& entry : entries_) std::reverse(entry.children.begin(), entry.children.end());
}

// Children keep their order; the node's own content goes before the first child that shows later.
std::vector<Kid> Tree::kids(std::size_t node) const {
  const Entry& entry = entries_[node];
  std::vector<Kid> list;
  std::size_t own = 0;
  for (const int child : entry.children) {
    const Position begins = entries_[as_index(child)].first;
    if (begins != nowhere)
      while (own < entry.content.size() && entry.content[own].first < begins)
        list.push_back(entry.content[own++].second);
    list.push_back({Kid::Kind::Node, 0, child});
  }
  for (; own < entry.content.size(); ++own) list.push_back(entry.content[own].second);
  return list;
}

std::string Tree::attributes(const page::Node& node) const {
  std::string table;
  if (!node.scope.empty()) table += "/Scope" + name(node.scope);
  if (node.column_span > 1) table += fmt::format("/ColSpan {}", node.column_span);
  std::string all;
  if (!table.empty()) all += "<</O/Table" + table + ">>";
  if (!node.list_numbering.empty())
    all += "<</O/List/ListNumbering" + name(node.list_numbering) + ">>";
  if (node.page >= 0 && as_index(node.page) < input_.laid_pages.size()) {
    all += "<</O/Layout/Placement/Block/BBox";
    append_box(all, node.box, input_.laid_pages[as_index(node.page)].size.height);
    all += ">>";
  }
  return all.empty() ? all : "/A[" + all + "]";
}

std::string Tree::element(std::size_t index, Ref root) const {
  const page::Node& node = input_.nodes[index];
  const std::vector<Kid> list = kids(index);
  const auto of_page = std::find_if(list.begin(), list.end(),
                                    [](const Kid& kid) { return kid.kind != Kid::Kind::Node; });
  const int own_page = of_page == list.end() ? -1 : of_page->page;

  std::string out = "/S" + name(node.type) + "/P ";
  const bool has_parent = node.parent >= 0 && as_index(node.parent) < index && index != 0;
  append_ref(out, index == 0 ? root : refs_[has_parent ? as_index(node.parent) : 0]);
  if (own_page >= 0) out += "/Pg " + ref_text(input_.pages[as_index(own_page)]);
  if (!node.alternative.empty()) out += "/Alt" + text_string(node.alternative);
  if (!node.actual.empty()) out += "/ActualText" + text_string(node.actual);
  // PDF/UA wants notes to have an identifier (ISO 14289-1, 7.9).
  if (node.type == "Note") out += fmt::format("/ID(note-{})", index);
  out += attributes(node);
  if (list.empty()) return out;

  out += list.size() == 1 ? "/K " : "/K[";
  bool between = false;
  for (const Kid& kid : list) {
    if (between) out.push_back(' ');
    between = true;
    const Ref page = kid.kind == Kid::Kind::Node ? Ref{} : input_.pages[as_index(kid.page)];
    switch (kid.kind) {
    case Kid::Kind::Node: append_ref(out, refs_[as_index(kid.number)]); break;
    case Kid::Kind::Marked:
      if (kid.page == own_page)
        append_number(out, kid.number);
      else
        out += fmt::format("<</Type/MCR/Pg {}/MCID {}>>", ref_text(page), kid.number);
      break;
    case Kid::Kind::Annotation:
      out += fmt::format("<</Type/OBJR/Pg {}/Obj {}>>", ref_text(page),
                         ref_text(input_.links[as_index(kid.number)].annotation));
      break;
    }
  }
  if (list.size() > 1) out.push_back(']');
  return out;
}

// A number tree from StructParents and StructParent to elements, in leaves of a readable size.
Ref Tree::parent_tree() {
  constexpr std::size_t per_leaf = 256;
  const std::size_t total = input_.pages.size() + input_.links.size();
  std::string kids;
  for (std::size_t begin = 0; begin < total; begin += per_leaf) {
    const std::size_t end = std::min(total, begin + per_leaf);
    std::string leaf = fmt::format("/Limits[{} {}]/Nums[", begin, end - 1);
    for (std::size_t key = begin; key < end; ++key) {
      append_number(leaf, static_cast<std::int64_t>(key));
      if (key < input_.pages.size()) {
        leaf.push_back('[');
        for (const MarkedPiece& piece : input_.contents[key].marked) {
          append_ref(leaf, refs_[as_index(piece.node)]);
          leaf.push_back(' ');
        }
        leaf += "]\n";
      } else {
        const int node = input_.links[key - input_.pages.size()].node;
        const bool known = node >= 0 && as_index(node) < refs_.size();
        leaf += known ? " " + ref_text(refs_[as_index(node)]) + "\n" : " null\n";
      }
    }
    leaf.push_back(']');
    kids += ref_text(haru_.add(std::move(leaf))) + " ";
  }
  return haru_.add("/Kids[" + kids + "]");
}

} // namespace

std::string add_structure(Haru& haru, const TagInput& input) {
  return input.nodes.empty() ? std::string() : Tree(haru, input).add();
}

} // namespace leafwright::pdf
