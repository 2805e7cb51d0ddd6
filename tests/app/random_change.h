#pragma once

#include <random>
#include <string>
#include <vector>

namespace leafwright::test {

// Values of the main sample as one might change them on the command line, a few at a time; the same
// for one state of `random`.
inline std::vector<std::string> random_change(std::mt19937& random) {
  struct Knob {
    const char* name;
    std::vector<const char*> values;
  };
  static const std::vector<Knob> knobs = {
      {"trees/scene.size", {"3 x 3", "3 1/8 x 3 1/4", "3 x 3 1/4"}},
      {"trees/mat.inset", {"1/8", "3/16", "1/16"}},
      {"trees/mat.stock", {"dots", "stripes"}},
      {"trees.title", {"Under the trees", "Below the boughs"}},
      {"trees.minutes", {"30", "45"}},
      {"gate/latch.at", {"centre, 1 1/4 from bottom", "centre, 7/8 from bottom"}},
      {"gate.envelope", {"a2"}},
      {"window/frame.inset", {"1/8", "3/16"}},
      {"window/view.size", {"3 1/4 x 3 1/4", "3 x 3 1/8"}},
      {"window/tag.turn", {"-6", "-4", "3"}},
      {"window/tag.stock", {"cream", "sky-card"}},
      {"kraft.colour", {"#cfae83", "#c8a87d"}},
      {"moss.colour", {"#7f9c74", "#749c7f"}},
      {"project.accent", {"#3d5e49", "#5d3e49"}},
      {"project.paper", {"letter", "a4"}},
      {"project.edition", {"3", "4", "12"}},
      {"full.price", {"79.00", "80.50"}},
      {"run.of-each", {"3", "2"}},
  };
  std::vector<std::string> overrides;
  const auto count = 1 + random() % 3;
  for (std::size_t i = 0; i < count; ++i) {
    const Knob& knob = knobs[random() % knobs.size()];
    const std::string name = std::string(knob.name) + "=";
    bool said = false;
    for (const std::string& one : overrides) said = said || one.starts_with(name);
    if (!said) overrides.push_back(name + knob.values[random() % knob.values.size()]);
  }
  return overrides;
}

} // namespace leafwright::test
