#pragma once

#include "plan/fit/case.h"

// One function for each rule. What a rule is about is said in the table in check.cpp.

namespace leafwright::fit {

// Layers and what shows round them (layers.cpp)
void mat_wider(const Case& c, Speaker& say);
void off_card(const Case& c, Speaker& say);
void overhang(const Case& c, Speaker& say);
void reveal_unequal(const Case& c, Speaker& say);
void reveal_slip(const Case& c, Speaker& say);
void over_fold(const Case& c, Speaker& say);

// Base, scores, gates, grain (folding.cpp)
void base_size(const Case& c, Speaker& say);
void score_at_fold(const Case& c, Speaker& say);
void gates_overlap(const Case& c, Speaker& say);
void gates_gap(const Case& c, Speaker& say);
void grain_across_fold(const Case& c, Speaker& say);

// Dies, windows, strips (cutting.cpp)
void die_larger_than_piece(const Case& c, Speaker& say);
void die_of_other_size(const Case& c, Speaker& say);
void window_past_edge(const Case& c, Speaker& say);
void window_rim_thin(const Case& c, Speaker& say);
void strip_too_narrow(const Case& c, Speaker& say);
void cut_too_long(const Project& project, const supply::KitSheets* sheets, Speaker& say);
void margin_too_narrow(const Project& project, const supply::KitSheets* sheets, Speaker& say);

// Stamps, embellishments and ribbon (trimmings.cpp)
void image_past_panel(const Case& c, Speaker& say);
void embellishment_past_edge(const Case& c, Speaker& say);
void ribbon_short(const Case& c, Speaker& say);
void ribbon_ends_short(const Case& c, Speaker& say);
void ribbon_longer_than_spool(const Case& c, Speaker& say);
void band_short(const Case& c, Speaker& say);
void ribbon_past_edge(const Case& c, Speaker& say);

// Adhesive and height (raised.cpp)
void adhesive_wider_than_piece(const Case& c, Speaker& say);
void hollow_beneath(const Case& c, Speaker& say);
void hidden_layer(const Case& c, Speaker& say);
void thickness_unknown(const Case& c, Speaker& say);

// Envelope and post (envelope.cpp, mailing.cpp)
void envelope_too_small(const Case& c, Speaker& say);
void envelope_snug(const Case& c, Speaker& say);
void envelope_bulges(const Case& c, Speaker& say);
void mail_size(const Case& c, Speaker& say);
void mail_thickness(const Case& c, Speaker& say);
void mail_shape(const Case& c, Speaker& say);
void mail_uneven(const Case& c, Speaker& say);
void mail_rigid(const Case& c, Speaker& say);

// The project as a whole (whole.cpp)
void weekday_contradicts(const Project& project, const supply::KitSheets* sheets, Speaker& say);
void reply_after_ship(const Project& project, const supply::KitSheets* sheets, Speaker& say);
void supply_unused(const Project& project, const supply::KitSheets* sheets, Speaker& say);
void stamps_not_offered(const Project& project, const supply::KitSheets* sheets, Speaker& say);

} // namespace leafwright::fit
