#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

// The documents of a card class: the tutorial, in the edition of each tier, and sheets for the
// room.
//
//   const Document all = tutorial(project, sheets);            // for everybody
//   const Document mine = tutorial(project, sheets, {.tier = 1});

namespace leafwright::guide {

struct TutorialOptions {
  bool draft = false; // marked on each page; the project has errors
  // For who has bought this tier: names what came, lists only what is theirs to add, and leaves the
  // cutting out when the parts come cut. -1: for everybody.
  int tier = -1;
  int students = 0; // for a fellow teacher: what a class of so many takes; 0 = left out
  // The full-size guides are on paper of their own: of a booklet printed on both sides, nobody sees
  // through the page.
  bool guides_apart = false;
};

// The whole tutorial, section after section. `sheets` is the layout of one kit. What the check
// finds is for the maker of the project and stands nowhere in it.
Document tutorial(const Project& project, const supply::CuttingPlan& sheets,
                  const TutorialOptions& options = {});

// For buyers of cut parts who get no tutorial: which letter is which piece, of what size, paper and
// card. No sections for any other tier.
Document letter_key(const Project& project, const supply::CuttingPlan& sheets, int tier,
                    bool draft = false);
// Whether a tier holds the tutorial, or else cut parts that want a letter key.
bool holds_tutorial(const Tier& tier);
bool wants_letter_key(const Tier& tier);

// The full-size guides alone; no sections when the project needs none.
Document full_size_guides(const Project& project, bool draft);

// Sheets for a room: one sheet of paper a card, to work from without the booklet.

struct HandoutOptions {
  bool teacher = false; // with what is prepared before class, and for how many
  int students = 0; // in class, each making one kit; 0 = as the project's class day, or one table
  int tables = 0;
  bool draft = false;
};

// One section "card-<id>" a card, each beginning a page: how it looks, its pieces with their sizes
// and scores, how they lie, its steps in brief, room for notes; for the teacher the counts to
// prepare, and first a sheet of the whole class.
Document handouts(const Project& project, const supply::CuttingPlan& sheets,
                  const HandoutOptions& options);

// Only one card of it, for finding how it fits.
Document one_handout(const Document& all, std::size_t section);

} // namespace leafwright::guide
