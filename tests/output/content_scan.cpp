#include "content_scan.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

namespace leafwright::ua {
namespace {

bool blank(char c) {
  return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\0' || c == '\f';
}
bool delimiter(char c) { return std::string_view("()<>[]{}/%").find(c) != std::string_view::npos; }

// Operands and operators one after the other; strings as "(", dictionaries whole.
class Tokens {
 public:
  explicit Tokens(std::string_view text) : text_(text) {}

  bool next(std::string& token) {
    while (at_ < text_.size() && blank(text_[at_])) ++at_;
    if (at_ >= text_.size()) return false;
    const std::size_t begin = at_;
    const char c = text_[at_];
    if (c == '(') {
      skip_string();
      token = "(";
      return true;
    }
    if (text_.substr(at_, 2) == "<<") {
      int depth = 0;
      while (at_ < text_.size()) {
        if (text_[at_] == '(') {
          skip_string();
          continue;
        }
        const std::string_view pair = text_.substr(at_, 2);
        if (pair == "<<" || pair == ">>") {
          depth += pair == "<<" ? 1 : -1;
          at_ += 2;
          if (depth == 0) break;
        } else if (text_[at_] == '<') {
          skip_hexadecimal();
        } else {
          ++at_;
        }
      }
    } else if (c == '<') {
      skip_hexadecimal();
    } else if (c == '[' || c == ']' || c == '{' || c == '}' || c == '>' || c == ')') {
      ++at_;
    } else {
      ++at_;
      while (at_ < text_.size() && !blank(text_[at_]) && !delimiter(text_[at_])) ++at_;
    }
    token = std::string(text_.substr(begin, at_ - begin));
    return true;
  }

 private:
  void skip_hexadecimal() { at_ = std::min(text_.find('>', at_), text_.size() - 1) + 1; }
  void skip_string() {
    int depth = 0;
    for (; at_ < text_.size(); ++at_) {
      if (text_[at_] == '\\') {
        ++at_;
      } else if (text_[at_] == '(') {
        ++depth;
      } else if (text_[at_] == ')' && --depth == 0) {
        ++at_;
        return;
      }
    }
  }
  std::string_view text_;
  std::size_t at_ = 0;
};

bool paints(std::string_view name) {
  constexpr std::array<std::string_view, 16> painting = {
      "S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "Tj", "TJ", "'", "\"", "Do", "sh", "BI"};
  for (const std::string_view one : painting)
    if (one == name) return true;
  return false;
}

} // namespace

Scan scan_content(std::string_view content) {
  enum class Mark { Artefact, Tagged, Other };
  Scan scan;
  std::vector<Mark> open;
  const auto inside = [&open](Mark kind) {
    for (const Mark one : open)
      if (one == kind) return true;
    return false;
  };
  bool in_text = false;
  std::size_t opened_in_text = 0;
  std::string token, last, last_but_one;
  Tokens tokens(content);
  while (tokens.next(token)) {
    if (token == "BDC" || token == "BMC") {
      Mark kind = Mark::Other;
      const std::string& name = token == "BMC" ? last : last_but_one;
      const std::string& properties = last;
      if (name == "/Artifact") {
        kind = Mark::Artefact;
        if (inside(Mark::Tagged))
          scan.faults.emplace_back("7.1: an artefact within tagged content");
      } else if (token == "BDC" && properties.find("/MCID") != std::string::npos) {
        kind = Mark::Tagged;
        if (inside(Mark::Artefact))
          scan.faults.emplace_back("7.1: tagged content within an artefact");
        const int id = std::atoi(properties.c_str() + properties.find("/MCID") + 5);
        if (!scan.ids.insert(id).second)
          scan.faults.push_back(fmt::format("7.1: marked-content id {} twice on a page", id));
      }
      open.push_back(kind);
      if (in_text) ++opened_in_text;
    } else if (token == "EMC") {
      if (open.empty())
        scan.faults.emplace_back("marked content ends that never began");
      else
        open.pop_back();
      if (in_text) {
        if (opened_in_text == 0)
          scan.faults.emplace_back("a mark and a text object overlap");
        else
          --opened_in_text;
      }
    } else if (token == "BT") {
      in_text = true;
      opened_in_text = 0;
    } else if (token == "ET") {
      in_text = false;
      if (opened_in_text != 0) scan.faults.emplace_back("a mark and a text object overlap");
    } else if (paints(token) && !inside(Mark::Tagged) && !inside(Mark::Artefact)) {
      scan.faults.push_back(fmt::format("7.1: {} paints outside of tags and artefacts", token));
    }
    last_but_one = std::exchange(last, token);
  }
  if (!open.empty()) scan.faults.emplace_back("marked content does not end");
  return scan;
}

} // namespace leafwright::ua
