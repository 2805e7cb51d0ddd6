#include "web_page.h"

#include "guide/tutorial.h"
#include "plan/supply/sheets.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <fstream>
#include <map>
#include <sstream>

using namespace leafwright;

namespace web_page {
namespace {

std::string file(const char* name) {
  std::ifstream in(std::string(LEAFWRIGHT_SOURCE_DIR) + "/" + name, std::ios::binary);
  std::ostringstream content;
  content << in.rdbuf();
  return std::move(content).str();
}

} // namespace

const text::Fonts& fonts() {
  static const Parsed<text::Fonts> read = text::standard_fonts(LEAFWRIGHT_SOURCE_DIR "/fonts");
  REQUIRE(read.ok());
  return read.value();
}

const page::Template& look() {
  static const page::TemplateReading read =
      page::read_template(file("templates/booklet.xml"), "booklet.xml");
  return read.page_template;
}

std::string style_sheet() { return file("templates/web.css"); }

html::Html of(const guide::Document& document, const Project& project) {
  const Parsed<html::Html> made =
      html::write_html(document, project, look(), fonts(), {style_sheet(), "leafwright"});
  REQUIRE(made.ok());
  return made.value();
}

const Made& of_sample(const std::string& name) {
  static std::map<std::string, Made> made;
  const auto known = made.find(name);
  if (known != made.end()) return known->second;
  Reading reading =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + name + "/project.xml");
  REQUIRE(reading.ok());
  const supply::CuttingPlan sheets = supply::sheets_for(reading.project);
  guide::Document document = guide::tutorial(reading.project, sheets);
  html::Html html = of(document, reading.project);
  return made.emplace(name, Made{std::move(reading.project), std::move(document), std::move(html)})
      .first->second;
}

pugi::xml_document parsed(const html::Html& html) {
  pugi::xml_document page;
  const pugi::xml_parse_result result = page.load_buffer(
      html.bytes.data(), html.bytes.size(), pugi::parse_full | pugi::parse_ws_pcdata_single);
  REQUIRE_MESSAGE(result, result.description(), " at byte ", result.offset);
  return page;
}

std::vector<pugi::xml_node> all(const pugi::xml_node& under, const char* tag) {
  std::vector<pugi::xml_node> found;
  for (const pugi::xpath_node& one : under.select_nodes((std::string(".//") + tag).c_str()))
    found.push_back(one.node());
  return found;
}

std::string words(const pugi::xml_node& node) {
  std::string out;
  for (const pugi::xpath_node& one : node.select_nodes(".//text()")) out += one.node().value();
  return out;
}

} // namespace web_page
