#include "page/internal/writer.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::page;

namespace {

DrawItem line() { return DrawItem{Fill{rectangle({{}, {points(1), points(1)}}), {}, 1.0}}; }

std::vector<int> marks(const LaidPage& page) {
  std::vector<int> nodes;
  for (const DrawItem& item : page.items)
    if (const auto* begin = std::get_if<Begin>(&item)) nodes.push_back(begin->node);
  return nodes;
}

} // namespace

TEST_CASE("content belongs to the innermost node; what lies in a mere group is furniture") {
  Laid laid;
  Writer writer(laid);
  writer.begin_page({points(100), points(100)}, "1");
  Frame frame;
  frame.ops = {OpenNode{node_of("Table"), false},
               line(),
               OpenNode{node_of("TR"), false},
               OpenNode{node_of("TD"), false},
               line(),
               CloseNode{},
               CloseNode{},
               CloseNode{}};
  writer.place(frame, {});
  writer.end_page();
  writer.finish();
  REQUIRE(laid.nodes.size() == 4);
  CHECK(laid.nodes[3].type == "TD");
  CHECK(laid.nodes[3].parent == 2);
  CHECK(marks(laid.pages[0]) == std::vector<int>{-1, 3});
}

TEST_CASE("a node may go on over the end of a page") {
  Laid laid;
  Writer writer(laid);
  Frame first;
  first.ops = {OpenNode{node_of("P"), false}, line()};
  Frame second;
  second.ops = {line(), CloseNode{}};
  writer.begin_page({points(100), points(100)}, "1");
  writer.place(first, {});
  writer.end_page();
  writer.begin_page({points(100), points(100)}, "2");
  writer.place(second, {});
  writer.end_page();
  CHECK(laid.nodes.size() == 2);
  CHECK(marks(laid.pages[0]) == std::vector<int>{1});
  CHECK(marks(laid.pages[1]) == std::vector<int>{1});
}

TEST_CASE("furniture makes no nodes, anchors or links") {
  Laid laid;
  Writer writer(laid);
  writer.begin_page({points(100), points(100)}, "1");
  Frame head;
  head.ops = {OpenNode{node_of("TH"), false}, AnchorHere{"a"}, LinkHere{{}, "a"}, line(),
              CloseNode{}};
  writer.place_furniture(head, {});
  writer.end_page();
  CHECK(laid.nodes.size() == 1);
  CHECK(laid.anchors.empty());
  CHECK(marks(laid.pages[0]) == std::vector<int>{-1});
}

TEST_CASE("a figure's box lies where the figure was placed") {
  Laid laid;
  Writer writer(laid);
  writer.begin_page({points(100), points(100)}, "1");
  Node figure = node_of("Figure");
  figure.box = {{points(2), points(3)}, {points(10), points(10)}};
  Frame frame;
  frame.ops = {OpenNode{figure, true}, line(), CloseNode{}};
  writer.place(frame, {points(20), points(30)});
  writer.end_page();
  CHECK(laid.nodes[1].page == 0);
  CHECK(laid.nodes[1].box.origin == Point{points(2) + points(20), points(3) + points(30)});
}

TEST_CASE("the running foot names the section that begins a page") {
  Laid laid;
  Writer writer(laid);
  Frame one;
  one.ops = {RunningHere{"One"}, OpenNode{node_of("P"), false}, line(), CloseNode{}};
  Frame two = one;
  two.ops[0] = RunningHere{"Two"};
  writer.begin_page({points(100), points(100)}, "1");
  writer.place(one, {});
  writer.place(two, {});
  CHECK(writer.page_running() == "One");
  writer.end_page();
  writer.begin_page({points(100), points(100)}, "2");
  CHECK(writer.page_running() == "Two");
}

TEST_CASE("headings nest without a gap, whatever sizes a document uses") {
  Laid laid;
  Writer writer(laid);
  writer.begin_page({points(100), points(100)}, "1");
  Frame frame;
  for (const char* level : {"H2", "H1", "H3", "H3", "H4", "H2", "H3"}) {
    frame.ops.emplace_back(OpenNode{node_of(level), false});
    frame.ops.emplace_back(line());
    frame.ops.emplace_back(CloseNode{});
  }
  writer.place(frame, {});
  writer.end_page();
  writer.finish();
  std::vector<std::string> types;
  for (std::size_t i = 1; i < laid.nodes.size(); ++i) types.push_back(laid.nodes[i].type);
  CHECK(types == std::vector<std::string>{"H1", "H1", "H2", "H2", "H3", "H2", "H3"});
}
