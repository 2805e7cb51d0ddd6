#pragma once

#include "guide/block.h"
#include "output/html/figures.h"
#include "output/html/inlines.h"

#include <set>
#include <span>
#include <string>
#include <vector>

namespace leafwright::html {

// Blocks as markup. The page's only h1 is its title: headings are one level deeper than in the
// document, unless the title is a heading of it; that one is passed over.
class Writer {
 public:
  Writer(const Project& project, Figures& figures, const InlineWriter& inlines,
         const guide::Heading* title = nullptr)
      : project_(project), figures_(figures), inlines_(inlines), title_(title) {}

  std::string blocks(std::span<const guide::Block> blocks);
  // " id=…" for an element that can be led to; empty where the anchor has been used.
  std::string id(const std::string& anchor);
  // The drawings of the cover's cards.
  std::string cards(const guide::Cover& cover);

 private:
  void write(const guide::Heading& heading);
  void write(const guide::Paragraph& paragraph);
  void write(const guide::List& list);
  void write(const guide::Table& table);
  void write(const guide::Figure& figure);
  void write(const guide::FigureRow& row);
  void write(const guide::Beside& beside);
  void write(const guide::Notice& notice);
  void write(const guide::Steps& steps);
  void write(const guide::Contents&) {} // the page has its own
  void write(const guide::Cover&) {}    // stands in the page's head
  void write(const guide::ScaleBar&);
  void write(const guide::FullSize& what);
  void write(const guide::NoteLines& lines);
  void write(const guide::PageBreak&) {}
  void write(const guide::Ticks& ticks);
  void write(const guide::Slips& slips);
  void write(const guide::Labels& labels);

  void add(const guide::Figure& figure, Size room, double scale, std::string_view kind);
  void add(const guide::Step& step, double scale);
  void add(const guide::Row& row, const guide::Table& table);

  const Project& project_;
  Figures& figures_;
  const InlineWriter& inlines_;
  const guide::Heading* title_;
  std::string out_;
  std::set<std::string, std::less<>> ids_;
  int level_ = 1; // of the last heading written
};

// Said to those who do not see the bar beside it.
inline constexpr const char* changed_words =
    "<span class=\"unseen\">Changed since an earlier edition: </span>";

} // namespace leafwright::html
