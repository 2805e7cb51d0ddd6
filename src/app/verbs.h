#pragma once

#include "app/arguments.h"
#include "app/run.h"

namespace leafwright::app {

// Each verb is one function: it prints, writes files and returns the exit code.

int check(const Arguments& arguments, Surroundings& surroundings);
int begin_project(const Arguments& arguments, Surroundings& surroundings);
// A plain list of pieces and one of sheets, planned without a project; JSON on the output stream.
int plan_parts_list(const Arguments& arguments, Surroundings& surroundings);
// One document, or all of them. Nothing is written unless all could be made.
int make_documents(const Arguments& arguments, Surroundings& surroundings);
// The tutorial on half-size pages: those pages, and the sheets to print, fold and staple; or
// proofs.
int make_booklet(const Arguments& arguments, Surroundings& surroundings);
// Pictures of the cards to show elsewhere. Nothing is written unless all could be made.
int make_pictures(const Arguments& arguments, Surroundings& surroundings);
// The tutorial for each buyer. Nothing is written unless every name can be set.
int make_copies(const Arguments& arguments, Surroundings& surroundings);

// What follows from other values, before they are written; and writing them.
int show_effects(const Arguments& arguments, Surroundings& surroundings);
// Two editions side by side: report, corrections for buyers, the new tutorial with change bars.
int compare_editions(const Arguments& arguments, Surroundings& surroundings);
// One design at several sizes.
int show_family(const Arguments& arguments, Surroundings& surroundings);
// One design in the other system of measures, chosen anew rather than converted.
int remeasure(const Arguments& arguments, Surroundings& surroundings);
// Makes documents again whenever something that they are made from is saved.
int watch(const Arguments& arguments, Surroundings& surroundings);
// All projects below a folder.
int make_batch(const Arguments& arguments, Surroundings& surroundings);
// Which PDFs below a folder are current.
int show_status(const Arguments& arguments, Surroundings& surroundings);

} // namespace leafwright::app
