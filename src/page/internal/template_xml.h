#pragma once

#include "model/finding.h"
#include "page/template.h"

#include <cstddef>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

// Reading attributes of a template with their places, and gathering findings.

namespace leafwright::page {

class TemplateSource {
 public:
  TemplateSource(std::string_view xml, std::string file_name, int file);

  bool parse(pugi::xml_document& document); // false: a finding says why
  Place place_of(const char* within, std::size_t length) const;
  void fault(Place place, std::string found, std::string expected, std::string fix,
             Severity severity = Severity::Error);
  Findings findings;

 private:
  static void step(Place& place, char byte);
  // Noncharacters and broken UTF-8 in texts and values; those of comments do no harm.
  bool refuse_noncharacters(const pugi::xml_document& document);

  static constexpr std::size_t mark_every = 1024;
  std::vector<Place> marks_; // of every 1024th byte: places are found without counting from the top
  std::string text_;         // as given
  std::string buffer_;       // parsed in place: names and values point into it
  std::string file_name_;
  int file_ = -1;
};

// The attributes of one element; those nobody asked for are findings when it goes out of scope.
class Attributes {
 public:
  Attributes(TemplateSource& source, pugi::xml_node element);
  ~Attributes();
  Attributes(const Attributes&) = delete;
  Attributes& operator=(const Attributes&) = delete;

  bool has(const char* name);
  void text(const char* name, std::string& into);
  void length(const char* name, Length& into); // mm, cm, in or pt
  void flag(const char* name, bool& into);     // yes or no
  void number(const char* name, int& into, int low, int high);
  void share(const char* name, double& into); // "45%"
  // One of `words`; `into` gets its index.
  void choice(const char* name, int& into, const std::vector<std::string_view>& words);
  void tint(const char* name, Tint& into, const Template& known); // a name or #rrggbb
  void fault(const pugi::xml_attribute& attribute, std::string expected, std::string fix);
  pugi::xml_attribute take(const char* name);

 private:
  TemplateSource& source_;
  pugi::xml_node element_;
  std::vector<std::string_view> taken_;
};

} // namespace leafwright::page
