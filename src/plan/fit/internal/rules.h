#pragma once

#include "measure/print_length.h"
#include "plan/fit/internal/case.h"

// The numbers that the rules compare with, in one place.

namespace leafwright::fit {

// A length as makers of the project's unit know it.
constexpr Length either(const Printing& how, Length inch, Length metric) {
  return how.unit == Unit::Inch ? inch : metric;
}

// What shows of a mat's carrier on each side, and the narrowest rim round a window that does not
// tear: 1/8 in or 3 mm (common practice).
constexpr Length usual_reveal(const Printing& how) {
  return either(how, inches(0, 1, 8), millimetres(3));
}
// Opposite reveals that differ by no more than this look like a slip.
constexpr Length slip(const Printing& how) {
  return either(how, inches(0, 1, 16), micrometres(1500));
}
// A card is 1/8 to 1/4 in (3 to 6 mm) smaller than its envelope (common practice).
constexpr Length envelope_clearance(const Printing& how) {
  return either(how, inches(0, 1, 8), millimetres(3));
}
// Two scores, or a score and a fold, nearer than this are the same to a maker.
inline constexpr Length same_line = micrometres(400);
// Sizes that differ by less are the same: halves of odd nanometres.
inline constexpr Length same_size = micrometres(1);

// One function for each rule. What a rule is about is said in the table in check.cpp.

// Layers and what shows round them (layers.cpp)
void mat_wider(const Case& c, Reporter& report);
void off_card(const Case& c, Reporter& report);
void overhang(const Case& c, Reporter& report);
void stuck_past(const Case& c, Reporter& report);
void reveal_unequal(const Case& c, Reporter& report);
void reveal_slip(const Case& c, Reporter& report);
void over_fold(const Case& c, Reporter& report);

// What a stock bears (stocks.cpp)
void stock_does_not_bear(const Case& c, Reporter& report);
void stock_wants_care(const Case& c, Reporter& report);
void ink_stays_wet(const Case& c, Reporter& report);

// Techniques and their order (techniques.cpp)
void washed_over_stamping(const Case& c, Reporter& report);
void wet_paper_buckles(const Case& c, Reporter& report);
void embossed_before_heat(const Case& c, Reporter& report);
void folder_too_small(const Case& c, Reporter& report);

// What is tucked into a pocket has this much room on each side (common practice).
constexpr Length pocket_clearance(const Printing& how) {
  return either(how, inches(0, 1, 16), micrometres(1500));
}

// Pockets (pockets.cpp)
void pocket_too_narrow(const Case& c, Reporter& report);
void pocket_misses(const Case& c, Reporter& report);
void pocket_without_grip(const Case& c, Reporter& report);

// Easels and pop-ups (standing.cpp)
void easel_without_panel(const Case& c, Reporter& report);
void easel_without_stopper(const Case& c, Reporter& report);
void pop_up_past_edge(const Case& c, Reporter& report);
void layer_past_pop_up(const Case& c, Reporter& report);

// Base, scores, gates, grain (folding.cpp)
void base_size(const Case& c, Reporter& report);
void score_at_fold(const Case& c, Reporter& report);
void gates_overlap(const Case& c, Reporter& report);
void gates_gap(const Case& c, Reporter& report);
void grain_across_fold(const Case& c, Reporter& report);

// Dies, windows, strips (cutting.cpp)
void die_larger_than_piece(const Case& c, Reporter& report);
void die_of_other_size(const Case& c, Reporter& report);
void window_past_edge(const Case& c, Reporter& report);
void window_rim_thin(const Case& c, Reporter& report);
void outline_in_part(const Project& project, const supply::CuttingPlan* sheets, Reporter& report);
void strip_too_narrow(const Case& c, Reporter& report);
void cut_too_long(const Project& project, const supply::CuttingPlan* sheets, Reporter& report);
void margin_too_narrow(const Project& project, const supply::CuttingPlan* sheets, Reporter& report);

// Stamps, embellishments and ribbon (trimmings.cpp)
void image_past_panel(const Case& c, Reporter& report);
void image_in_window(const Case& c, Reporter& report);
void image_short_of_colours(const Case& c, Reporter& report);
void embellishment_past_edge(const Case& c, Reporter& report);
void ribbon_short(const Case& c, Reporter& report);
void ribbon_ends_short(const Case& c, Reporter& report);
void ribbon_longer_than_spool(const Case& c, Reporter& report);
void band_short(const Case& c, Reporter& report);
void ribbon_past_edge(const Case& c, Reporter& report);

// Adhesive and height (raised.cpp)
void adhesive_wider_than_piece(const Case& c, Reporter& report);
void hollow_beneath(const Case& c, Reporter& report);
void thickness_unknown(const Case& c, Reporter& report);

// The author's own words (author_words.cpp)
void work_named_in_words(const Case& c, Reporter& report);
void foreign_language(const Project& project, const supply::CuttingPlan* sheets, Reporter& report);

// What covers what (covering.cpp)
void hidden_layer(const Case& c, Reporter& report);
void image_hidden(const Case& c, Reporter& report);
void pane_too_small(const Case& c, Reporter& report);
void glued_shut(const Case& c, Reporter& report);

// Envelope and post (mailing.cpp)
void envelope_too_small(const Case& c, Reporter& report);
void envelope_snug(const Case& c, Reporter& report);
void envelope_bulges(const Case& c, Reporter& report);
void mail_size(const Case& c, Reporter& report);
void mail_thickness(const Case& c, Reporter& report);
void mail_shape(const Case& c, Reporter& report);
void mail_uneven(const Case& c, Reporter& report);
void mail_rigid(const Case& c, Reporter& report);

// The days of the run (run_dates.cpp)
void weekday_contradicts(const Project& project, const supply::CuttingPlan* sheets,
                         Reporter& report);
void reply_after_ship(const Project& project, const supply::CuttingPlan* sheets, Reporter& report);

// Supplies that nobody takes or holds (supply_use.cpp)
void supply_unused(const Project& project, const supply::CuttingPlan* sheets, Reporter& report);
void stamps_not_offered(const Project& project, const supply::CuttingPlan* sheets,
                        Reporter& report);
void tool_without_work(const Project& project, const supply::CuttingPlan* sheets, Reporter& report);

void batch_margin_too_narrow(const Project& project, const supply::CuttingPlan& sheets,
                             Reporter& report);

// The order of the work (order.cpp).
void threaded_late(const Case& c, Reporter& report);
void pressed_on_hanging(const Case& c, Reporter& report);
void wrapped_over_stamping(const Case& c, Reporter& report);

} // namespace leafwright::fit
