#pragma once

#include "../plan/supply/kits_bought.h"

#include "plan/supply/buying.h"
#include "read/read.h"

#include <doctest/doctest.h>

// The large samples, read once in a program.

namespace leafwright::test {

inline const Project& orchard_gate() {
  static const Reading reading =
      read_project_file(LEAFWRIGHT_SOURCE_DIR "/samples/orchard-gate/project.xml");
  REQUIRE(reading.ok());
  return reading.project;
}

inline const Project& kelp_lantern() {
  static const Reading reading =
      read_project_file(LEAFWRIGHT_SOURCE_DIR "/samples/kelp-lantern/project.xml");
  REQUIRE(reading.ok());
  return reading.project;
}

inline const supply::Buying& orchard_buying() {
  static const supply::Buying buying =
      supply::buying_for(orchard_gate(), supply::planned_kits(orchard_gate()));
  return buying;
}

} // namespace leafwright::test
