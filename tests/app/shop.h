#pragma once

#include "program.h"
#include "tools.h"

#include <cstddef>
#include <string>
#include <string_view>

// A small project with a roster, in a folder of its own that is gone at the end. Its full kit holds
// stamps for 20.00; whole twine is 5.00.

namespace leafwright::test {

class Shop {
 public:
  // `run`: more of <run>; `swap`: the rule of the full kit; `dates`: attributes of <run>;
  // `if_owned` of the full kit.
  explicit Shop(const std::string& roster, const std::string& run = "",
                const std::string& swap = "<swap/>",
                const std::string& dates = R"(reply-by="2027-03-16" ship-by="2027-03-31")",
                const std::string& if_owned = "");

  Ran make(const std::string& verb, const std::vector<std::string>& more = {}) const;
  Ran check() const { return run_program({"check", path("project.xml")}); }
  std::string path(std::string_view name) const { return folder_.path(name); }
  // Of what was made.
  std::string out(const std::string& file) const { return tools::read_file(path("out/" + file)); }
  std::string text_of(const std::string& pdf) const { // pdftotext (poppler)
    return tools::run_on(out(pdf), "pdftotext -layout {} -").output;
  }

 private:
  tools::Folder folder_;
};

inline std::size_t count_of(std::string_view text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string_view::npos; at = text.find(part, at + 1))
    ++count;
  return count;
}

} // namespace leafwright::test
