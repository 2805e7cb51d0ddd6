#pragma once

#include "guide/block.h"
#include "output/html/html.h"

#include <pugixml.hpp>

#include <string>
#include <vector>

// Pages to look at: the samples' tutorials, and small documents.

namespace web_page {

const leafwright::text::Fonts& fonts();
const leafwright::page::Template& look();
std::string style_sheet(); // templates/web.css

struct Made {
  leafwright::Project project;
  leafwright::guide::Document document;
  leafwright::html::Html html;
};
// Made once for each sample.
const Made& of_sample(const std::string& name);
leafwright::html::Html of(const leafwright::guide::Document& document,
                          const leafwright::Project& project = {});

// The page read as XML; anything that is not well-formed fails the test.
pugi::xml_document parsed(const leafwright::html::Html& html);
std::vector<pugi::xml_node> all(const pugi::xml_node& under, const char* tag);
std::string words(const pugi::xml_node& node); // all text below it

} // namespace web_page
