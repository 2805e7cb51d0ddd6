#pragma once

#include "guide/figure/internal/staging.h"
#include "model/placing.h"

// Parts that several scenes share.

namespace leafwright::figure {

// Everything drawn of a stage, with room for its shadow.
Rect box_of(const Project& project, const Card& card, const Staging& staging, std::size_t count);

void append_shifted(Items& into, Items items, Point by);

// The items from `first` on in paler colours, so that what comes after them stands out.
void quieten(Items& items, std::size_t first);
// Everything half as large, about the origin.
void halve(Items& items);

// What is stuck on foam or dots is shown from behind as well, beside the scene and half as large,
// with its squares in their places; the left of the piece is on the right there.
void show_back(Scene& scene, const Project& project, const Card& card, const Staging& staging,
               int piece);

// The slits and scores of the pop-ups, on the base laid flat with its inside up; with their
// measures.
void draw_pop_ups(Items& into, const Card& card);
void add_pop_ups(Scene& scene, const Project& project, const Card& card);

// A score line: valley dash-dot, mountain dash-dot-dot.
void draw_score_line(Items& into, Point from, Point to, bool mountain, Colour colour);
// The band that labels keep off, along a score line.
Rect clear_of_line(Point from, Point to);
// Small squares along an outline, for labels to keep off.
std::vector<Rect> clear_of_path(const Path& path);
// An outline in the accent with a light halo, so that it shows on any paper.
// dashed: a place on a thing, not a thing.
void draw_emphasis(Items& into, const Path& path, Colour accent, bool dashed = false);
// A small cross.
void draw_cross(Items& into, Point centre, Length arm, Colour colour, Length width);
// An arrow along the pattern's upright direction, standing in `within`.
void draw_direction_arrow(Items& into, Rect within, bool turned, Colour colour);
// Diagonal lines over waste, clipped to it.
void draw_waste(Items& into, Rect rect, Length apart);

// The distances of a thing from the edges of what carries it as dimension lines, from the very
// edges that the words name (model/placing.h); equal ones once. `part` is measured_part() of the
// thing, on a carrier of the given size that `on` places; on one that lies at a slant nothing is
// drawn.
void add_distances(std::vector<Dimension>& into, Rect part, Size carrier, const Project& project,
                   const Position& said = {}, const Frame& on = {});
// The same of several alike things as one, and the space between those of a row; nothing where they
// are scattered.
void add_distances(std::vector<Dimension>& into, const Arrangement& things, Size carrier,
                   const Project& project, const Position& said, const Frame& on = {});
// Where an image is stamped, as the step says it; several images at one place are measured once.
void add_image_distances(Scene& scene, const Project& project, const Impression& impression,
                         Size carrier, const Frame& on = {});
// Size, place and words of what build entries put in the picture, as a step tells them.
// `made_here`: the windows and images of a piece, too.
void add_step_dimensions(Scene& scene, const Project& project, const Card& card,
                         const Staging& staging, std::span<const Build> builds, bool made_here);
void add_size(std::vector<Dimension>& into, Rect thing, const Printing& printing);

} // namespace leafwright::figure
