#include "support.h"

#include <random>

using namespace leafwright;
using namespace leafwright::test;

// Broken input of every kind, made from the samples by a fixed sequence of random changes. The
// sanitizers of the test build see what no check can: reads beyond an end, overflow, endless loops.

namespace {

using namespace std::string_view_literals;
constexpr std::string_view odd_bytes = "\0\"'<>&;/=\xFF\xC3\x80\x1b \n\r{}()*+-,.x1\xE2\x82"sv;

std::string mutated(std::string text, std::mt19937& random) {
  const auto at = [&](std::size_t size) { return random() % (size + 1); };
  const std::size_t changes = 1 + random() % 4;
  for (std::size_t i = 0; i < changes && !text.empty(); ++i) {
    const std::size_t from = at(text.size() - 1);
    switch (random() % 6) {
    case 0: text[from] = odd_bytes[random() % odd_bytes.size()]; break;
    case 1: text.erase(from, 1 + random() % 40); break;
    case 2: text.insert(from, 1, odd_bytes[random() % odd_bytes.size()]); break;
    case 3: text.insert(from, text.substr(at(text.size() - 1), random() % 300)); break;
    case 4: text.resize(from); break;
    default: { // swap two attribute values
      const std::size_t a = text.find('"', from), b = text.find('"', at(text.size() - 1));
      if (a == std::string::npos || b == std::string::npos) break;
      const std::size_t a_end = text.find('"', a + 1), b_end = text.find('"', b + 1);
      if (a_end == std::string::npos || b_end == std::string::npos) break;
      text.replace(a + 1, a_end - a - 1, text.substr(b + 1, b_end - b - 1));
    }
    }
  }
  return text;
}

} // namespace

TEST_CASE("no change to a project, however silly, does more than make findings") {
  std::mt19937 random(20270302);
  for (const char* sample : {"orchard-gate", "kelp-lantern", "five-minute"}) {
    const std::string text = file_text(sample_path(sample));
    for (int round = 0; round < 150; ++round) {
      const Reading reading = read_text(mutated(text, random));
      for (const Finding& finding : reading.findings) {
        CHECK_FALSE(finding.code.empty());
        const std::string shown = finding_text(finding, reading.sources);
        CHECK(shown.find('\x1b') == std::string::npos);
        CHECK(finding_json(finding, reading.sources).back() == '\n');
        if (finding.place.file < 0) continue;
        CHECK(finding.place.line >= 0);
      }
    }
  }
}
