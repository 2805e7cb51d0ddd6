#pragma once

#include "model/project.h"

namespace leafwright::guide {

// Whose making is being told.
struct Telling {
  const Project& project;
  const Card& card;
  bool guides_apart = false; // full-size outlines stand in no page of this document
};

} // namespace leafwright::guide
