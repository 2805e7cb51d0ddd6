#include "web_page.h"

#include "guide/prose.h"
#include "output/html/internal/html_writer.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace web_page;

namespace {

guide::Document with(std::vector<guide::Block> blocks) {
  guide::Document document;
  document.title = "Fog & <Fern>";
  document.language = "en-GB";
  document.sections.push_back({"part", "", std::move(blocks)});
  return document;
}

std::string main_of(const html::Html& html) {
  const std::size_t begin = html.bytes.find("<main");
  return html.bytes.substr(begin, html.bytes.find("</main>") - begin);
}

} // namespace

TEST_CASE("signs of markup in a project stay words") {
  const html::Html html = of(with({{guide::Paragraph{
      guide::Paragraph::Kind::Body, {guide::Words{"a < b & \"c\" </style><script>"}}}}}));
  CHECK(html.bytes.find("<script>") == std::string::npos);
  const pugi::xml_document page = parsed(html);
  CHECK(words(page.select_node("//main//p").node()) == "a < b & \"c\" </style><script>");
  CHECK(words(page.select_node("//h1").node()) == "Fog & <Fern>");
}

TEST_CASE("an address that could run something is no link") {
  const html::Html html = of(with({{guide::Paragraph{
      guide::Paragraph::Kind::Body,
      {guide::Go{"javascript://%0aalert(1)", "one"}, guide::Go{"data:text/html,x", "two"},
       guide::Go{"https://example.org/", "three"}, guide::Go{"mailto:a@example.org", "four"},
       guide::Go{"nowhere", "five"}}}}}));
  const pugi::xml_document page = parsed(html);
  const auto links = all(page.select_node("//main").node(), "a");
  REQUIRE(links.size() == 2);
  CHECK(words(links[0]) == "three");
  CHECK(words(links[1]) == "four");
}

TEST_CASE("a reference to a page names what stands there") {
  const html::Html html =
      of(with({{guide::Heading{1, "guides", "Full-size guides", {}, {}}},
               {guide::Paragraph{guide::Paragraph::Kind::Body,
                                 {guide::Words{"the outline on page\u00A0"},
                                  guide::PageOf{"guides"}, guide::Words{", and cut"}}}}}));
  const pugi::xml_document page = parsed(html);
  CHECK(words(page.select_node("//main//p").node()) ==
        "the outline under Full-size guides, and cut");
}

TEST_CASE("a full-size guide can be led to") {
  guide::FullSize full;
  full.scene.box = {{}, {millimetres(60), millimetres(40)}};
  full.scene.fixed_scale = 1.0;
  full.scene.alternative = "Full-size outline of the tag.";
  full.title = "Outline of the tag";
  full.anchor = "guide-tag";
  const html::Html html =
      of(with({{full},
               {guide::Paragraph{guide::Paragraph::Kind::Body,
                                 {guide::Words{"the outline on page\u00A0"},
                                  guide::PageOf{"guide-tag"}, guide::Words{"."}}}}}));
  const pugi::xml_document page = parsed(html);
  CHECK(words(page.select_node("//main/section/p").node()) ==
        "the outline under Outline of the tag.");
  CHECK(all(page, "a[@href='#guide-tag']").size() == 1);
  CHECK(all(page, "*[@id='guide-tag']").size() == 1);
}

TEST_CASE("fractions are set as such, and a mixed number stays in one piece") {
  CHECK(html::text_markup("4\u00A01/4 in") ==
        "4<span class=\"and\">\u00A0</span><span class=\"part\">1/4</span> in");
  CHECK(html::text_markup("about 1/2") == "about <span class=\"part\">1/2</span>");
  CHECK(html::text_markup("12/25/26") == "12/25/26");
}

TEST_CASE("an anchor that comes twice is an id once") {
  const html::Html html = of(with(
      {{guide::Heading{1, "same", "One", {}, {}}}, {guide::Heading{2, "same", "Two", {}, {}}}}));
  CHECK(all(parsed(html), "*[@id='same']").size() == 1);
}

TEST_CASE("a column without a head is named for those who are told it") {
  guide::Table table;
  table.caption = "Pieces";
  table.columns = {{{}, guide::Column::Align::Centre, 1.0, false},
                   {{guide::Words{"Piece"}}, guide::Column::Align::Left, 1.0, true}};
  table.rows = {{guide::Row::Kind::Group, {{guide::Words{"Card 1"}}}},
                {guide::Row::Kind::Plain, {{guide::PieceLetter{"A"}}, {guide::Words{"base"}}}}};
  const pugi::xml_document page = parsed(of(with({{table}})));
  CHECK(words(page.select_node("//thead//th[1]").node()) == "Letter");
  CHECK(
      std::string(
          page.select_node("//tbody//th[@scope='rowgroup']").node().attribute("colspan").value()) ==
      "2");
  CHECK(words(page.select_node("//tbody//th[@scope='row']").node()) == "base");
}

TEST_CASE("a draft says so at the top") {
  guide::Document document = with({});
  document.draft = true;
  CHECK(of(document).bytes.find("draft-mark\">DRAFT") != std::string::npos);
  document.draft = false;
  CHECK(of(document).bytes.find("class=\"draft-mark\"") == std::string::npos);
}

TEST_CASE("what is new since an earlier edition is said, not only marked") {
  guide::Block block{guide::Paragraph{guide::Paragraph::Kind::Body, {guide::Words{"New size"}}}};
  block.changed = true;
  CHECK(main_of(of(with({block}))).find("Changed since an earlier edition") != std::string::npos);
}

TEST_CASE("the same document gives the same bytes") {
  const Made& made = of_sample("five-minute");
  CHECK(of(made.document, made.project).bytes == made.html.bytes);
}

TEST_CASE("a word that many drawings carry is spelt once") {
  const pugi::xml_document page = parsed(of_sample("orchard-gate").html);
  const pugi::xml_node shared = page.select_node("//svg[@aria-hidden]/defs").node();
  std::size_t glyphs = 0;
  for (const pugi::xml_node& node : all(page, "path[@id]"))
    if (node.parent() == shared) ++glyphs;
  CHECK(glyphs > 20);
  CHECK(glyphs == all(page, "path[@id]").size());
}

TEST_CASE("every sample's page is small enough to send by mail") {
  for (const char* sample : {"orchard-gate", "kelp-lantern", "five-minute"})
    CHECK(of_sample(sample).html.bytes.size() < 4'000'000);
}

TEST_CASE("a style sheet that would end itself is refused") {
  const Parsed<html::Html> made =
      html::write_html(with({}), {}, look(), fonts(), {"p{} </style><b>", ""});
  CHECK_FALSE(made.ok());
}

TEST_CASE("full-size guides have their true width on paper") {
  const Made& made = of_sample("orchard-gate");
  const pugi::xml_document page = parsed(made.html);
  const auto guides = all(page, "figure[@class='true']/svg");
  REQUIRE(guides.size() > 2);
  for (const pugi::xml_node& svg : guides) {
    // viewBox is in millimetres.
    const std::string box = svg.attribute("viewBox").value();
    const std::string width = box.substr(4, box.find(' ', 4) - 4);
    CHECK(std::string(svg.attribute("style").value()) == "width:" + width + "mm");
  }
}
