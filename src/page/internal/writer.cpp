#include "page/internal/writer.h"

#include "measure/index.h"

#include <algorithm>
#include <array>
#include <type_traits>

namespace leafwright::page {

namespace {

// Nodes that hold other nodes only: what is drawn directly within them is a rule or a ground.
bool only_groups(std::string_view type) {
  constexpr std::array<std::string_view, 10> groups = {
      "Document", "Sect", "Table", "THead", "TBody", "TR", "L", "LI", "TOC", "TOCI"};
  return std::ranges::find(groups, type) != groups.end();
}

// Headings are chosen for their looks, and a document may pass over one; in the tree they nest
// without a gap (ISO 14289-1, 7.4.2), so each is one below the nearest larger one before it.
void nest_headings(std::vector<Node>& nodes) {
  std::vector<char> above;
  for (Node& node : nodes) {
    if (node.type.size() != 2 || node.type[0] != 'H') continue;
    while (!above.empty() && above.back() >= node.type[1]) above.pop_back();
    above.push_back(node.type[1]);
    node.type[1] = static_cast<char>('0' + above.size());
  }
}

} // namespace

Writer::Writer(Laid& laid) : laid_(laid) {
  Node document;
  document.type = "Document";
  laid_.nodes.push_back(std::move(document));
  open_.push_back(0);
}

void Writer::begin_page(Size size, std::string label) {
  LaidPage page;
  page.size = size;
  page.label = std::move(label);
  laid_.pages.push_back(std::move(page));
  marked_ = -2;
  page_running_ = running_;
  anything_on_page_ = false;
}

void Writer::end_page() {
  end_mark();
  laid_.pages.back().items.shrink_to_fit();
}

void Writer::end_mark() {
  if (marked_ == -2) return;
  laid_.pages.back().items.emplace_back(End{});
  marked_ = -2;
}

void Writer::mark_for(int node) {
  if (furniture_ == 0) anything_on_page_ = true;
  if (marked_ == node) return;
  end_mark();
  laid_.pages.back().items.emplace_back(Begin{node});
  marked_ = node;
}

int Writer::holder() const {
  if (furniture_ > 0) return -1;
  const int node = open_.back();
  return only_groups(laid_.nodes[as_index(node)].type) ? -1 : node;
}

void Writer::open(Node node) {
  end_mark();
  node.parent = open_.back();
  laid_.nodes.push_back(std::move(node));
  open_.push_back(static_cast<int>(laid_.nodes.size()) - 1);
}

void Writer::close() {
  end_mark();
  if (open_.size() > 1) open_.pop_back();
}

void Writer::place(const Frame& frame, Point at) {
  for (const Op& op : frame.ops) put(op, at);
}

void Writer::place_furniture(const Frame& frame, Point at) {
  ++furniture_;
  place(frame, at);
  --furniture_;
  end_mark();
}

void Writer::put(const Op& op, Point at) {
  LaidPage& page = laid_.pages.back();
  const int page_index = static_cast<int>(laid_.pages.size()) - 1;
  std::visit(
      [&](const auto& command) {
        using Command = std::decay_t<decltype(command)>;
        if constexpr (std::is_same_v<Command, OpenNode>) {
          if (furniture_ > 0) return;
          Node node = command.node;
          if (command.boxed) {
            node.page = page_index;
            node.box.origin = node.box.origin + at;
          }
          open(std::move(node));
        } else if constexpr (std::is_same_v<Command, CloseNode>) {
          if (furniture_ == 0) close();
        } else if constexpr (std::is_same_v<Command, Furniture>) {
          furniture_ += command.on ? 1 : -1;
        } else if constexpr (std::is_same_v<Command, Inset>) {
          place(*command.frame, at + command.at);
        } else if constexpr (std::is_same_v<Command, InsetDrawing>) {
          mark_for(holder());
          for (const DrawItem& item : command.drawing->items) {
            if (std::holds_alternative<Begin>(item) || std::holds_alternative<End>(item)) continue;
            page.items.push_back(moved_item(item, at + command.at));
          }
        } else if constexpr (std::is_same_v<Command, AnchorHere>) {
          if (furniture_ == 0 && !command.id.empty())
            laid_.anchors.push_back({command.id, page_index, at, command.title});
        } else if constexpr (std::is_same_v<Command, OutlineHere>) {
          if (furniture_ == 0)
            laid_.outline.push_back({command.level, command.title, page_index, at});
        } else if constexpr (std::is_same_v<Command, LinkHere>) {
          if (furniture_ > 0) return;
          Link link;
          link.box = {command.box.origin + at, command.box.size};
          link.target = command.target;
          link.node = open_.back();
          page.items.emplace_back(std::move(link));
        } else if constexpr (std::is_same_v<Command, RunningHere>) {
          running_ = command.words;
          if (!anything_on_page_) page_running_ = running_;
        } else {
          static_assert(std::is_same_v<Command, DrawItem>);
          mark_for(holder());
          page.items.push_back(moved_item(command, at));
        }
      },
      op);
}

void Writer::finish() {
  if (!laid_.pages.empty()) end_mark();
  nest_headings(laid_.nodes);
  for (LaidPage& page : laid_.pages)
    page.scaled = std::ranges::any_of(page.items, [](const DrawItem& item) {
      const Mark* mark = std::get_if<Mark>(&item);
      return mark != nullptr && (mark->kind == "template" || mark->kind == "scale-bar" ||
                                 mark->kind == "sheet" || mark->kind == "label");
    });
}

} // namespace leafwright::page
