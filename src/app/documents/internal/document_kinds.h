#pragma once

#include "app/documents/documents.h"
#include "plan/supply/needs.h"

#include <cstdint>
#include <string>
#include <vector>

namespace leafwright::app {

// The tutorial for everybody, or as one tier's buyers (Audience::tier) or a fellow teacher
// (Audience::students) get it.
RenderedDocument render_tutorial(const PlannedProject& planned, const RenderSettings& settings);
// The same as one page for a browser.
RenderedDocument render_html(const PlannedProject& planned, const RenderSettings& settings);
// The tutorial of each tier that holds it, and a letter key for those of parts alone; what is for
// the team in team/.
RenderedDocument render_editions(const PlannedProject& planned, const RenderSettings& settings);
// A sheet of paper a card: one set for students, one for the teacher.
RenderedDocument render_handouts(const PlannedProject& planned, const RenderSettings& settings);

// Rows of documents.cpp: what sells the class, and what it earns.

// For everybody, and in team/ another of the tiers that are for the team alone: PDF, a PNG of
// each page, a web page and plain text.
RenderedDocument render_offer(const PlannedProject& planned, const RenderSettings& settings);
// What is said and shown when the class is told of, for the audiences that have an offer: PDF, text
// for a prompter, cues.
RenderedDocument render_rundown(const PlannedProject& planned, const RenderSettings& settings);
// E-mail, captions and reminders for everybody, made from text templates: a folder of files.
RenderedDocument render_announcements(const PlannedProject& planned,
                                      const RenderSettings& settings);
// For those who order, in team/ another for the team: PDF to fill in, a page for a browser, and the
// questions for a form service.
RenderedDocument render_order_form(const PlannedProject& planned, const RenderSettings& settings);
// The path of the page that its questions are set into.
std::string order_form_frame(const RenderSettings& settings);
// The paths of those templates, by name: those that ship, and in their place or beside them what
// lies in the folder "announcing" beside the project.
std::vector<std::string> announcing_templates(const Project& project,
                                              const RenderSettings& settings);
// When it was made: SOURCE_DATE_EPOCH, else the project's date, else the beginning of 1970.
std::int64_t stamp_of(const Project& project, const RenderSettings& settings);
// What a kit takes, with the sheets of one kit.
supply::Needs needs_in_sheets(const PlannedProject& planned);
// In private/: PDF, CSV and JSON.
RenderedDocument render_money(const PlannedProject& planned, const RenderSettings& settings);

// From the orders to the post, and the class in a room. What names buyers is made in a folder of
// its own, "private/", so that it is not handed on by mistake.
RenderedDocument render_packing_slips(const PlannedProject& planned,
                                      const RenderSettings& settings);
// A draft of an e-mail for each purchase, with the tutorial where it is theirs.
RenderedDocument render_confirmations(const PlannedProject& planned,
                                      const RenderSettings& settings);
RenderedDocument render_labels(const PlannedProject& planned, const RenderSettings& settings);
RenderedDocument render_totals(const PlannedProject& planned, const RenderSettings& settings);
RenderedDocument render_calendar(const PlannedProject& planned, const RenderSettings& settings);
RenderedDocument render_run_sheet(const PlannedProject& planned, const RenderSettings& settings);

} // namespace leafwright::app
