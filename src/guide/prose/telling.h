#pragma once

#include "model/project.h"

namespace leafwright::guide {

// Whose making is being told.
struct Telling {
  const Project& project;
  const Card& card;
};

} // namespace leafwright::guide
