#include "web_page.h"

#include <doctest/doctest.h>

#include <array>
#include <set>
#include <string_view>

using namespace web_page;

namespace {

constexpr std::array samples{"orchard-gate", "kelp-lantern", "five-minute"};

int level_of(const pugi::xml_node& node) {
  const std::string_view name = node.name();
  return name.size() == 2 && name[0] == 'h' && name[1] >= '1' && name[1] <= '6' ? name[1] - '0' : 0;
}

} // namespace

TEST_CASE("every sample's page is well-formed XML as well as HTML") {
  for (const char* sample : samples) {
    CAPTURE(sample);
    const pugi::xml_document page = parsed(of_sample(sample).html);
    const pugi::xml_node html = page.child("html");
    CHECK(html.attribute("lang").value() == of_sample(sample).project.language);
    CHECK(words(html.child("head").child("title")) == of_sample(sample).project.title);
    CHECK(of_sample(sample).html.bytes.starts_with("<!DOCTYPE html>"));
  }
}

TEST_CASE("a page has one h1, and no heading skips a level") {
  for (const char* sample : samples) {
    CAPTURE(sample);
    const pugi::xml_document page = parsed(of_sample(sample).html);
    int before = 0, firsts = 0;
    for (const pugi::xml_node& node : all(page, "*")) {
      const int level = level_of(node);
      if (level == 0) continue;
      CAPTURE(words(node));
      CHECK(level <= before + 1);
      CHECK_FALSE(words(node).empty());
      firsts += level == 1 ? 1 : 0;
      before = level;
    }
    CHECK(firsts == 1);
  }
}

TEST_CASE("a sheet that begins with its only largest heading is called by it, once") {
  using leafwright::guide::Heading;
  leafwright::guide::Document document;
  document.title = "Orchard Gate: Offer";
  document.sections = {{"one", "", {{Heading{1, "offer", "Orchard Gate", "", "Fenmoor"}}}},
                       {"two", "", {{Heading{2, "holds", "What it holds", "", ""}}}}};
  const pugi::xml_document page = parsed(of(document));
  CHECK(words(page.select_node("//h1[@id='offer']").node()) == "Orchard Gate");
  CHECK(words(page.select_node("//main//h2").node()) == "What it holds");
  CHECK(all(page, "h3").empty());
  CHECK(all(page, "nav").empty());

  document.sections.push_back({"three", "", {{Heading{1, "", "Another", "", ""}}}});
  const pugi::xml_document two = parsed(of(document));
  CHECK(words(two.select_node("//h1").node()) == "Orchard Gate: Offer");
  CHECK(all(two, "main//h2").size() == 2);
}

TEST_CASE("every id is there once, and every link within the page leads to one") {
  for (const char* sample : samples) {
    CAPTURE(sample);
    const pugi::xml_document page = parsed(of_sample(sample).html);
    std::set<std::string> ids;
    for (const pugi::xml_node& node : all(page, "*[@id]")) {
      CAPTURE(node.attribute("id").value());
      CHECK(ids.insert(node.attribute("id").value()).second);
    }
    for (const pugi::xml_node& node : all(page, "*[@href]")) {
      const std::string target = node.attribute("href").value();
      CAPTURE(target);
      if (target.starts_with("#")) CHECK(ids.contains(target.substr(1)));
    }
    for (const pugi::xml_node& node : all(page, "*[@aria-labelledby]"))
      CHECK(ids.contains(node.attribute("aria-labelledby").value()));
    for (const pugi::xml_node& node : all(page, "*[@clip-path]")) {
      const std::string clip = node.attribute("clip-path").value(); // url(#c1)
      CHECK(ids.contains(clip.substr(5, clip.size() - 6)));
    }
  }
}

TEST_CASE("every drawing is told, or hidden from those who are told") {
  for (const char* sample : samples) {
    CAPTURE(sample);
    const pugi::xml_document page = parsed(of_sample(sample).html);
    std::size_t told = 0;
    for (const pugi::xml_node& svg : all(page, "svg")) {
      if (std::string_view(svg.attribute("aria-hidden").value()) == "true") continue;
      CHECK(std::string_view(svg.attribute("role").value()) == "img");
      CHECK(std::string_view(svg.attribute("aria-label").value()).size() > 8);
      ++told;
    }
    CHECK(told > 5);
    CHECK(all(page, "img").empty());
  }
}

TEST_CASE("every table has a caption, and heads with their scope") {
  for (const char* sample : samples) {
    CAPTURE(sample);
    const pugi::xml_document page = parsed(of_sample(sample).html);
    CHECK_FALSE(all(page, "table").empty());
    for (const pugi::xml_node& table : all(page, "table")) {
      CHECK_FALSE(words(table.child("caption")).empty());
      for (const pugi::xml_node& head : all(table, "th")) {
        CHECK_FALSE(head.attribute("scope").empty());
        CHECK_FALSE(words(head).empty());
      }
    }
  }
}

TEST_CASE("every step is an item of an ordered list, under its title") {
  const Made& made = of_sample("orchard-gate");
  const pugi::xml_document page = parsed(made.html);
  std::size_t steps = 0;
  for (const auto& section : made.document.sections)
    for (const auto& block : section.blocks)
      if (const auto* run = std::get_if<leafwright::guide::Steps>(&block.what))
        for (const auto& step : run->steps) {
          CAPTURE(step.anchor);
          const pugi::xml_node item =
              page.select_node(("//ol/li[@id='" + step.anchor + "']").c_str()).node();
          REQUIRE(item);
          CHECK(words(item.child("h3")).find(step.title) != std::string::npos);
          CHECK(bool(item.child("figure").child("svg")) == step.figure.has_value());
          ++steps;
        }
  CHECK(steps > 15);
}

TEST_CASE("the contents lead to every chapter") {
  const pugi::xml_document page = parsed(of_sample("orchard-gate").html);
  const auto links = all(page.select_node("//nav").node(), "a");
  CHECK(links.size() == all(page, "main//h2").size());
}

TEST_CASE("there is nothing to run and nothing to fetch") {
  for (const char* sample : samples) {
    CAPTURE(sample);
    const pugi::xml_document page = parsed(of_sample(sample).html);
    CHECK(all(page, "script").empty());
    CHECK(all(page, "link").empty());
    CHECK(of_sample(sample).html.bytes.find("@import") == std::string::npos);
    CHECK(of_sample(sample).html.bytes.find("url(http") == std::string::npos);
    for (const pugi::xml_node& node : all(page, "*[@*[starts-with(name(), 'on')]]"))
      FAIL_CHECK(node.name());
    for (const pugi::xml_node& node : all(page, "*[@src]")) FAIL_CHECK(node.name());
  }
}
