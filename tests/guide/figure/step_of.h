#pragma once

#include "guide/figure/scenes.h"

#include <cstddef>
#include <span>

// The step of one entry of a card's build.
inline leafwright::figure::Scene step_of(const leafwright::Project& project,
                                         const leafwright::Card& card, std::size_t build_index) {
  return leafwright::figure::step(project, card, std::span(&build_index, 1), false);
}
