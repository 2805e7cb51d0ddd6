#pragma once

#include "model/project.h"
#include "plan/supply/ready.h"

namespace leafwright::guide {

// Whose making is being told, and what was done to its parts beforehand.
struct Telling {
  const Project& project;
  const Card& card;
  bool guides_apart = false; // full-size outlines stand in no page of this document
  supply::PartsReady ready{};
};

} // namespace leafwright::guide
