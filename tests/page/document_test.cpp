#include "sample.h"

#include "page/layout.h"

#include <doctest/doctest.h>

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <variant>
#include <vector>

using namespace leafwright;
using namespace leafwright::page;

namespace {

struct Words { // text on a page that is content, not furniture
  Rect box;
  std::string text;
  int node = -1;
};

std::vector<Words> words_on(const LaidPage& page, const text::Fonts& fonts,
                            bool furniture = false) {
  std::vector<Words> found;
  int node = -1;
  for (const DrawItem& item : page.items) {
    if (const auto* begin = std::get_if<Begin>(&item)) node = begin->node;
    const auto* run = std::get_if<TextRun>(&item);
    if (run == nullptr || (node < 0) != furniture || run->turned != Angle{}) continue;
    Length width = run->shaped.width;
    std::string_view text = run->shaped.text;
    if (text.ends_with(' ')) {
      text.remove_suffix(1);
      width -= fonts.width(run->shaped.face, run->shaped.size, " ");
    }
    const Length up = run->shaped.size * 62 / 100;
    found.push_back(
        {{{run->baseline.x, run->baseline.y - up}, {width, run->shaped.size * 64 / 100}},
         std::string(text),
         node});
  }
  return found;
}

std::string page_text(const LaidPage& page, const text::Fonts& fonts) {
  std::string text;
  for (const Words& words : words_on(page, fonts)) text += words.text + " ";
  return text;
}

Template one_section() {
  Template look = sample::booklet();
  look.sections = {SectionRule{"reading", SectionRule::Start::Page, true, true, {}}};
  return look;
}

std::string printed(const Laid& laid) { // all that matters, as text
  std::string all;
  for (const LaidPage& page : laid.pages)
    for (const DrawItem& item : page.items) {
      if (const auto* run = std::get_if<TextRun>(&item))
        all += fmt::format("{} {} {}\n", run->shaped.text, run->baseline.x.nm, run->baseline.y.nm);
      if (const auto* begin = std::get_if<Begin>(&item)) all += fmt::format("[{}]\n", begin->node);
    }
  for (const Node& node : laid.nodes) all += fmt::format("{} {}\n", node.type, node.parent);
  return all;
}

} // namespace

TEST_CASE("everything said stands inside the margins and no two words overlap") {
  const text::Fonts fonts = sample::fonts();
  const Template look = one_section();
  for (std::uint64_t start = 1; start <= 12; ++start) {
    CAPTURE(start);
    LayoutInput input;
    input.paper = start % 2 == 0 ? "a4" : "letter";
    const Laid laid = lay_out(sample::random_document(start, 24), look, fonts, input);
    REQUIRE_FALSE(laid.pages.empty());
    for (const LaidPage& page : laid.pages) {
      const Rect area{
          {look.inner, look.top},
          {page.size.width - look.inner - look.outer, page.size.height - look.top - look.bottom}};
      const std::vector<Words> all = words_on(page, fonts);
      for (const Words& words : all) {
        CAPTURE(words.text);
        CHECK(words.box.left() >= area.left() - points(0.2));
        CHECK(words.box.right() <= area.right() + points(0.2));
        CHECK(words.box.top() >= area.top() - points(0.2));
        CHECK(words.box.bottom() <= area.bottom() + points(4));
      }
      for (std::size_t i = 0; i < all.size(); ++i)
        for (std::size_t k = i + 1; k < all.size(); ++k) {
          if (!all[i].box.overlaps(all[k].box)) continue;
          FAIL_CHECK(all[i].text, " overlaps ", all[k].text);
        }
    }
  }
}

TEST_CASE("the same document gives the same pages twice") {
  const text::Fonts fonts = sample::fonts();
  const Template look = sample::booklet();
  const guide::Document document = sample::booklet_document();
  CHECK(printed(lay_out(document, look, fonts, {})) == printed(lay_out(document, look, fonts, {})));
}

TEST_CASE("no page ends with a heading") {
  const text::Fonts fonts = sample::fonts();
  for (std::uint64_t start = 20; start < 40; ++start) {
    CAPTURE(start);
    const Laid laid = lay_out(sample::random_document(start, 30), one_section(), fonts, {});
    for (std::size_t p = 0; p + 1 < laid.pages.size(); ++p) {
      const std::vector<Words> all = words_on(laid.pages[p], fonts);
      REQUIRE_FALSE(all.empty());
      const std::string& type = laid.nodes[static_cast<std::size_t>(all.back().node)].type;
      CHECK(type != "H2");
      CHECK(type != "H3");
    }
  }
}

TEST_CASE("rows that run on to another page stand below the name of their group again") {
  const text::Fonts fonts = sample::fonts();
  guide::Document document;
  document.language = "en-US";
  guide::Section section;
  section.name = "reading";
  guide::Table table;
  table.columns = {{sample::words("Piece"), guide::Column::Align::Left, 1.0, true}};
  guide::Row group;
  group.kind = guide::Row::Kind::Group;
  group.cells = {sample::words("Amber")};
  table.rows.push_back(group);
  for (int r = 0; r < 90; ++r)
    table.rows.push_back({guide::Row::Kind::Plain, {sample::words(fmt::format("row{}", r))}});
  section.blocks.push_back({table});
  document.sections.push_back(section);
  const Laid laid = lay_out(document, one_section(), fonts, {});
  REQUIRE(laid.pages.size() > 1);
  for (std::size_t p = 0; p < laid.pages.size(); ++p) {
    std::string text;
    for (const bool furniture : {false, true})
      for (const Words& words : words_on(laid.pages[p], fonts, furniture)) text += words.text + " ";
    CHECK(text.find("Amber") != std::string::npos);
    CHECK((text.find("continued") != std::string::npos) == (p > 0));
  }
}

TEST_CASE("a table's head stands above its rows on every page, and no row is parted") {
  const text::Fonts fonts = sample::fonts();
  guide::Document document;
  document.language = "en-US";
  guide::Section section;
  section.name = "reading";
  guide::Table table;
  table.columns = {{sample::words("Zebra"), guide::Column::Align::Left, 1.0, true},
                   {sample::words("Count"), guide::Column::Align::Right, 0.2, false}};
  sample::Dice dice(9);
  for (int r = 0; r < 120; ++r) {
    guide::Row row;
    row.cells = {
        sample::words(fmt::format("first{} ", r) + sample::babble(dice, dice.between(2, 40))),
        sample::words(fmt::format("count{}", r))};
    table.rows.push_back(row);
  }
  section.blocks.push_back({table});
  document.sections.push_back(section);
  const Laid laid = lay_out(document, one_section(), fonts, {});
  REQUIRE(laid.pages.size() > 3);
  int rows = 0;
  for (std::size_t p = 0; p < laid.pages.size(); ++p) {
    bool head = false;
    for (const bool furniture : {false, true})
      for (const Words& words : words_on(laid.pages[p], fonts, furniture))
        head = head || words.text.find("Zebra") != std::string::npos;
    CHECK(head);
    // The words of a row's both cells, and all lines of the first, are on one page.
    const std::string text = page_text(laid.pages[p], fonts);
    for (int r = 0; r < 120; ++r) {
      const bool first = text.find(fmt::format("first{} ", r)) != std::string::npos;
      const bool count = text.find(fmt::format("count{} ", r)) != std::string::npos;
      CHECK(first == count);
      rows += first ? 1 : 0;
    }
  }
  CHECK(rows == 120);
  CHECK(std::ranges::count(laid.nodes, std::string("THead"), &Node::type) == 1);
  CHECK(std::ranges::count(laid.nodes, std::string("TR"), &Node::type) == 121);
  std::set<int> parents; // a row's lines lie in one TR, and a TR's words on one page
  std::vector<int> page_of(laid.nodes.size(), -1);
  for (std::size_t p = 0; p < laid.pages.size(); ++p)
    for (const Words& words : words_on(laid.pages[p], fonts)) {
      const int row = laid.nodes[static_cast<std::size_t>(words.node)].parent;
      int& seen = page_of[static_cast<std::size_t>(row)];
      if (laid.nodes[static_cast<std::size_t>(row)].type != "TR") continue;
      CHECK((seen == -1 || seen == static_cast<int>(p)));
      seen = static_cast<int>(p);
    }
}

TEST_CASE("a reference names the page on which its target stands") {
  const text::Fonts fonts = sample::fonts();
  const Laid laid = lay_out(sample::booklet_document(), sample::booklet(), fonts, {});
  const auto anchor = std::ranges::find(laid.anchors, std::string("cut-list"), &Anchor::id);
  REQUIRE(anchor != laid.anchors.end());
  const std::string& label = laid.pages[static_cast<std::size_t>(anchor->page)].label;
  bool said = false;
  for (const LaidPage& page : laid.pages)
    said = said || page_text(page, fonts).find("on page\u00A0 " + label) != std::string::npos ||
           page_text(page, fonts).find("on page\u00A0" + label) != std::string::npos;
  CHECK(said);
  for (const Finding& finding : laid.findings) CHECK(finding.code != "page-restless");
}

TEST_CASE("the contents list every chapter with its page") {
  const text::Fonts fonts = sample::fonts();
  const Laid laid = lay_out(sample::booklet_document(), sample::booklet(), fonts, {});
  const std::string contents = page_text(laid.pages[1], fonts);
  for (const OutlineEntry& entry : laid.outline) {
    if (entry.level != 1 || entry.title == "Contents") continue;
    CAPTURE(entry.title);
    const std::string title = entry.title.substr(
        entry.title.find("  ") == std::string::npos ? 0 : entry.title.find("  ") + 2);
    CHECK(contents.find(title) != std::string::npos);
  }
  for (const LaidPage& page : laid.pages)
    for (const DrawItem& item : page.items)
      if (const auto* link = std::get_if<Link>(&item)) {
        CHECK(link->node > 0);
        CHECK(laid.nodes[static_cast<std::size_t>(link->node)].type == "Link");
      }
}

TEST_CASE("a link of the contents stands in a Reference and says where it leads") {
  // ISO 32000-1, 14.8.4.2: a TOCI holds Lbl, Reference, NonStruct, P and TOC, no Link.
  const text::Fonts fonts = sample::fonts();
  const Laid laid = lay_out(sample::booklet_document(), sample::booklet(), fonts, {});
  const auto node = [&](int index) -> const Node& {
    return laid.nodes[static_cast<std::size_t>(index)];
  };
  std::vector<std::string> said;
  for (const DrawItem& item : laid.pages[1].items)
    if (const auto* link = std::get_if<Link>(&item)) {
      const Node& reference = node(node(link->node).parent);
      CHECK(reference.type == "Reference");
      CHECK(node(reference.parent).type == "TOCI");
      said.push_back(link->says);
    }
  REQUIRE(said.size() > 5);
  const auto anchor = std::ranges::find(laid.anchors, std::string("card-2"), &Anchor::id);
  REQUIRE(anchor != laid.anchors.end());
  const std::string page = laid.pages[static_cast<std::size_t>(anchor->page)].label;
  CHECK(std::ranges::find(said, "2 The garden gate, page " + page) != said.end());
}

TEST_CASE("a reference to a drawing at full size gives the page where that drawing stands") {
  const text::Fonts fonts = sample::fonts();
  guide::Document document;
  guide::Section section;
  section.name = "reading";
  section.blocks.push_back({guide::Heading{1, "guides", "Guides", {}, {}}});
  section.blocks.push_back({guide::Paragraph{
      guide::Paragraph::Kind::Body, {guide::Words{"See page\u00A0"}, guide::PageOf{"third"}}}});
  for (const char* anchor : {"first", "second", "third"}) {
    guide::FullSize full;
    full.scene = sample::card_scene({inches(5), inches(7)}, inches(0, 1, 4), {}, {}, false);
    full.scene.fixed_scale = 1.0;
    full.title = std::string("The ") + anchor + " guide";
    full.anchor = anchor;
    section.blocks.push_back({full});
  }
  document.sections.push_back(section);
  const Laid laid = lay_out(document, one_section(), fonts, {});
  int page = 0; // on which the third guide stands
  for (std::size_t i = 0; i < laid.pages.size(); ++i)
    if (page_text(laid.pages[i], fonts).find("The third guide") != std::string::npos)
      page = static_cast<int>(i) + 1;
  REQUIRE(page > 2);
  // The link's words are a run of their own.
  CHECK(page_text(laid.pages[0], fonts).find("page\u00A0 " + std::to_string(page)) !=
        std::string::npos);
  int links = 0;
  for (const DrawItem& item : laid.pages[0].items)
    if (const auto* link = std::get_if<Link>(&item)) {
      ++links;
      CHECK(link->target == "third");
      CHECK(link->says == "The third guide, page " + std::to_string(page));
    }
  CHECK(links == 1);
}

TEST_CASE("a step's words and its figure are on one page") {
  const text::Fonts fonts = sample::fonts();
  const Laid laid = lay_out(sample::booklet_document(), sample::booklet(), fonts, {});
  std::vector<int> page_of(laid.nodes.size(), -1);
  for (std::size_t p = 0; p < laid.pages.size(); ++p)
    for (const DrawItem& item : laid.pages[p].items)
      if (const auto* begin = std::get_if<Begin>(&item); begin != nullptr && begin->node > 0)
        for (int node = begin->node; node > 0;
             node = laid.nodes[static_cast<std::size_t>(node)].parent)
          if (laid.nodes[static_cast<std::size_t>(node)].type == "LI") {
            int& seen = page_of[static_cast<std::size_t>(node)];
            CHECK((seen == -1 || seen == static_cast<int>(p)));
            seen = static_cast<int>(p);
          }
}

TEST_CASE("each figure has words for those who cannot see it, and a box on its page") {
  const text::Fonts fonts = sample::fonts();
  const Laid laid = lay_out(sample::booklet_document(), sample::booklet(), fonts, {});
  int figures = 0;
  for (const Node& node : laid.nodes) {
    if (node.type != "Figure") continue;
    ++figures;
    CHECK_FALSE(node.alternative.empty());
    REQUIRE(node.page >= 0);
    const Size page = laid.pages[static_cast<std::size_t>(node.page)].size;
    CHECK(Rect{{}, page}.contains(node.box));
  }
  CHECK(figures > 30);
}

TEST_CASE("marked content is opened and closed in turn, and every content node is in the tree") {
  const text::Fonts fonts = sample::fonts();
  const Laid laid = lay_out(sample::booklet_document(), sample::booklet(), fonts, {});
  for (const LaidPage& page : laid.pages) {
    bool open = false;
    for (const DrawItem& item : page.items) {
      if (const auto* begin = std::get_if<Begin>(&item)) {
        CHECK_FALSE(open);
        CHECK(begin->node < static_cast<int>(laid.nodes.size()));
        open = true;
      } else if (std::holds_alternative<End>(item)) {
        CHECK(open);
        open = false;
      } else if (!std::holds_alternative<Link>(item)) {
        CHECK(open); // everything drawn says what it is
      }
    }
    CHECK_FALSE(open);
  }
  for (std::size_t n = 1; n < laid.nodes.size(); ++n) {
    CHECK(laid.nodes[n].parent >= 0);
    CHECK(laid.nodes[n].parent < static_cast<int>(n));
  }
}

TEST_CASE("a draft says so on every page") {
  const text::Fonts fonts = sample::fonts();
  guide::Document document = sample::booklet_document();
  document.draft = true;
  const Laid laid = lay_out(document, sample::booklet(), fonts, {});
  for (const LaidPage& page : laid.pages) {
    bool said = false;
    for (const Words& words : words_on(page, fonts, true))
      said = said || words.text.find("DRAFT") != std::string::npos;
    CHECK(said);
  }
}

TEST_CASE("pages drawn to scale are marked, and a full-size drawing keeps its size") {
  const text::Fonts fonts = sample::fonts();
  const Laid laid = lay_out(sample::booklet_document(), sample::booklet(), fonts, {});
  int templates = 0;
  for (const LaidPage& page : laid.pages)
    for (const DrawItem& item : page.items) {
      const auto* mark = std::get_if<Mark>(&item);
      if (mark == nullptr || mark->kind != "template") continue;
      ++templates;
      CHECK(page.scaled);
      CHECK(mark->box.size == mark->real);
    }
  CHECK(templates == 3);
}

TEST_CASE("a small full-size drawing stands below what ends a chapter, with its ruler") {
  Template look = sample::booklet();
  look.sections = {SectionRule{"reading", SectionRule::Start::Page, true, true, {}},
                   SectionRule{"templates", SectionRule::Start::Page, true, true, {}}};
  guide::Document document;
  guide::Section end{"reading", "", {}};
  end.blocks.push_back({guide::Paragraph{guide::Paragraph::Kind::Body, sample::words("The end.")}});
  guide::Section guides{"templates", "", {}};
  guide::FullSize full;
  full.scene = sample::card_scene({inches(3), inches(2)}, inches(0, 1, 4), {}, {}, false);
  full.scene.fixed_scale = 1.0;
  full.title = "A strip";
  guides.blocks.push_back({full});
  document.sections = {end, guides};
  const text::Fonts fonts = sample::fonts();
  const Laid pages = lay_out(document, look, fonts, {});
  REQUIRE(pages.pages.size() == 1);
  std::string furniture;
  for (const Words& words : words_on(pages.pages.front(), fonts, true))
    furniture += words.text + " ";
  CHECK(furniture.find("Printed at 100 %") != std::string::npos);
  // One as tall as the page has a page of its own.
  std::get<guide::FullSize>(document.sections[1].blocks[0].what).scene =
      sample::card_scene({inches(3), inches(8)}, inches(0, 1, 4), {}, {}, false);
  CHECK(lay_out(document, look, fonts, {}).pages.size() == 2);
}

TEST_CASE("pictures give way so that what follows them stands on their page") {
  Template look = sample::booklet();
  look.sections = {SectionRule{"contents", SectionRule::Start::Page, true, true, {}},
                   SectionRule{"colophon", SectionRule::Start::Follow, true, true, {}}};
  const text::Fonts fonts = sample::fonts();
  const auto pages_with = [&](int lines) {
    guide::Document document;
    guide::Section first{"contents", "", {}};
    guide::FigureRow row;
    for (int i = 0; i < 2; ++i)
      row.figures.push_back(
          {sample::card_scene({inches(4), inches(7)}, inches(0, 1, 4), {}, {}, false), {}});
    first.blocks.push_back({row});
    guide::Section last{"colophon", "", {}};
    for (int i = 0; i < lines; ++i)
      last.blocks.push_back(
          {guide::Paragraph{guide::Paragraph::Kind::Body, sample::words("One line.")}});
    document.sections = {first, last};
    return lay_out(document, look, fonts, {}).pages.size();
  };
  // A row drawn as large as its room leaves 15 lines below it.
  CHECK(pages_with(19) == 1);
  CHECK(pages_with(40) == 2);
}

TEST_CASE("a full-size drawing larger than the paper is parted over sheets, each in true size") {
  const text::Fonts fonts = sample::fonts();
  guide::Document document;
  guide::Section section;
  section.name = "reading";
  guide::FullSize full;
  full.scene =
      sample::card_scene({millimetres(420), millimetres(180)}, millimetres(10), {}, {}, false);
  full.scene.fixed_scale = 1.0;
  full.title = "Long card";
  section.blocks.push_back({full});
  document.sections.push_back(section);
  const Laid laid = lay_out(document, one_section(), fonts, {});
  REQUIRE(laid.findings.size() == 1);
  CHECK(laid.findings[0].code == "page-too-large");
  CHECK(laid.findings[0].severity == Severity::Note);
  CHECK(laid.pages.size() >= 2);
  std::size_t parts = 0;
  for (const LaidPage& page : laid.pages) {
    CHECK(page_text(page, fonts).find("Long card, sheet") != std::string::npos);
    for (const DrawItem& item : page.items)
      if (const auto* clip = std::get_if<PushClip>(&item)) {
        ++parts;
        for (const Segment& segment : clip->path) {
          if (segment.kind == Segment::Kind::Close) continue;
          CHECK(segment.end.x <= page.size.width - millimetres(15));
          CHECK(segment.end.y <= page.size.height - millimetres(15));
        }
      }
  }
  CHECK(parts >= 2);
}

TEST_CASE("a reference to nothing is a finding and no link") {
  const text::Fonts fonts = sample::fonts();
  guide::Document document;
  guide::Section section;
  section.name = "reading";
  section.blocks.push_back(
      {guide::Paragraph{guide::Paragraph::Kind::Body, {guide::Go{"nowhere", "See there"}}}});
  document.sections.push_back(section);
  const Laid laid = lay_out(document, one_section(), fonts, {});
  REQUIRE(laid.findings.size() == 1);
  CHECK(laid.findings[0].code == "page-unknown-anchor");
  for (const DrawItem& item : laid.pages[0].items) CHECK_FALSE(std::holds_alternative<Link>(item));
}

TEST_CASE("an empty document has no pages") {
  const text::Fonts fonts = sample::fonts();
  CHECK(lay_out(guide::Document{}, sample::booklet(), fonts, {}).pages.empty());
}
