#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/ready.h"

namespace leafwright::guide {

// Everything about one card: how it looks when done, its pieces, its steps, its layers drawn apart.
// `guides_apart`: no page of this document shows full-size outlines. `ready`: what was done to its
// parts before their buyer makes it.
Section card_section(const Project& project, int card, bool guides_apart = false,
                     supply::PartsReady ready = {});

// "Make two · 35 min · top fold, A2"
std::string card_aside(const Project& project, const Card& card);
// Letter, piece, size as it ends up, paper; how many of it one card has.
Table pieces_table(const Project& project, const Card& card);
// Front, inside, back (when something is on it) and envelope.
FigureRow finished_views(const Project& project, const Card& card);

// Whether anything lies on, or is stamped on, one side of the card.
bool has_something_on(const Card& card, View view);
// Whether a full-size guide of that side helps: more stands there than can be laid by eye.
bool needs_guide(const Card& card, View view);

} // namespace leafwright::guide
