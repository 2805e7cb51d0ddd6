#pragma once

#include "guide/block.h"
#include "measure/print_length.h"
#include "output/pictures.h"
#include "page/context.h"
#include "page/layout.h"

#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::html {

// Drawings of one page: composed once for all screens, so that even a phone, which shows the
// widest ones smaller, can show their words. A printed millimetre is 0.3 rem: lettering of 7.5 pt
// is then as large as a caption.
class Figures {
 public:
  Figures(const guide::Document& document, const page::Template& look,
          const page::LayoutInput& input, const text::Fonts& fonts,
          std::span<const Picture> pictures, bool grey);

  // An <svg> that is an image with its alternative text. `scale` 0 = as large as the room allows,
  // or the scale of its group.
  std::string svg(const figure::Scene& scene, Size room, double scale = 0);
  double fitting(const figure::Scene& scene, Size room) { return cache_.fitting(scene, room); }
  // At true size on paper; on its side where only so it fits `sheet`, and empty where it does not.
  std::string true_size(const figure::Scene& scene, Size sheet);
  std::string photograph(int picture, const std::string& words);

  // The room that a drawing gets beside or below words.
  static Size room_of(const guide::Figure& figure);

  std::string definitions() const { return parts_.definitions(); }
  const std::optional<ParseError>& failed() const { return parts_.failed(); }
  Findings take_findings() { return std::move(findings_); }

  Place place{}; // of the block being written

 private:
  void note_scales(std::span<const guide::Block> blocks);
  std::string element(const Drawing& drawing, const std::string& alternative,
                      const std::string& width);
  void tell(Severity severity, std::string code, std::string found, std::string expected,
            std::string fix);

  std::span<const Picture> pictures_;
  page::FigureCache cache_;
  svg::SvgParts parts_;
  Printing printing_;
  bool grey_;
  std::map<std::string, double, std::less<>> group_scales_;
  Findings findings_;
};

// Text as it stands between tags, with true fractions.
std::string text_markup(std::string_view text);

// What can be led to: the title of each anchor that the page has.
using Anchors = std::map<std::string, std::string, std::less<>>;

// Markup of what stands inside a line.
class InlineWriter {
 public:
  InlineWriter(const page::LayoutInput& input, const page::Template& look, const Anchors& anchors,
               bool grey)
      : input_(input), look_(look), anchors_(anchors), grey_(grey) {}

  std::string markup(const guide::Inlines& inlines) const;

 private:
  std::string chip(int ink) const;
  std::string link(std::string_view target, std::string words) const;

  const page::LayoutInput& input_;
  const page::Template& look_;
  const Anchors& anchors_;
  bool grey_;
};

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
  void write(const guide::SideBySide& abreast);
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
