#pragma once

#include "app/documents/documents.h"

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
// In private/: PDF, CSV and JSON.
RenderedDocument render_money(const PlannedProject& planned, const RenderSettings& settings);

// From the orders to the post, and the class in a room. What names buyers is made in a folder of
// its own, "private/", so that it is not handed on by mistake.
RenderedDocument render_packing_slips(const PlannedProject& planned,
                                      const RenderSettings& settings);
RenderedDocument render_labels(const PlannedProject& planned, const RenderSettings& settings);
RenderedDocument render_totals(const PlannedProject& planned, const RenderSettings& settings);
RenderedDocument render_calendar(const PlannedProject& planned, const RenderSettings& settings);
RenderedDocument render_run_sheet(const PlannedProject& planned, const RenderSettings& settings);

} // namespace leafwright::app
