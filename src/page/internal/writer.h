#pragma once

#include "page/flow.h"

#include <string>
#include <string_view>
#include <vector>

namespace leafwright::page {

// Turns frames into pages: the only place that appends to a Laid. Keeps the stack of open structure
// nodes over page ends, opens and closes marked content, and notes where anchors came to stand.
class Writer {
 public:
  explicit Writer(Laid& laid);

  void begin_page(Size size, std::string label);
  void end_page(); // closes marked content; open nodes stay open
  void place(const Frame& frame, Point at);
  // Items that belong to no node: rules, running heads.
  void place_furniture(const Frame& frame, Point at);
  void open(Node node);
  void close();
  // What the running foot of this page says: the section that begins it.
  std::string_view page_running() const { return page_running_; }
  // Finishes the document: trailing marks, Mark boxes that ask for unscaled printing.
  void finish();

 private:
  void mark_for(int node);
  void end_mark();
  int holder() const; // the node that content belongs to now, -1 for artefacts
  void put(const Op& op, Point at);

  Laid& laid_;
  std::vector<int> open_;
  int furniture_ = 0;
  int marked_ = -2; // -2: no marked content open
  std::string running_, page_running_;
  bool anything_on_page_ = false;
};

} // namespace leafwright::page
