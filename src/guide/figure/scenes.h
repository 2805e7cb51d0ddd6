#pragma once

#include "guide/figure/scene.h"
#include "model/project.h"
#include "plan/supply/sheets.h"

#include <span>

// The pictures of a project, as scenes. Every scene carries its alternative text, written from the
// model.

namespace leafwright::figure {

// A finished card as seen from the front, opened flat, or from the back; or its envelope.
Scene finished(const Project& project, const Card& card, View view);
Scene finished_envelope(const Project& project, const Card& card);

// The card at the moment after these entries of `card.build`, told in one breath, everything before
// them in place: the new parts outlined in the accent, the last dimensioned (its size, and its
// distances from the edges), in the view in which it is seen. The base's own entry shows it flat
// with its scores dimensioned. `made_here`: the step also makes its pieces, so that their windows
// and images are dimensioned, too.
Scene step(const Project& project, const Card& card, std::span<const std::size_t> build_indices,
           bool made_here);

// "dotted mat, 4 × 5 1/4 in, on the front, 1/8 in from every edge, stamped with ..."; empty when
// the entry puts nothing on the card.
std::string build_words(const Project& project, const Card& card, const Build& build);
// The thing alone: "dotted mat", "rust grosgrain ribbon", "3 × clear dome".
std::string short_name(const Project& project, const Card& card, const Build& build);

// One piece as it is cut: size, score lines, windows, direction of the pattern, stamped images.
Scene piece(const Project& project, const Card& card, std::size_t piece_index);
// The same while it is being made: as it looks by then, with the places measured of its images from
// that number on. Windows are measured before any image is.
Scene piece(const Project& project, const Card& card, const Piece& made, std::size_t first_image);

// A piece in the hand with the cord that is knotted through its hole.
Scene threaded(const Project& project, const Card& card, std::size_t piece_index,
               std::size_t ribbon_index);

// Every piece of a card laid out flat to one scale, lettered, with its size, paper and die: the
// base unfolded first, then by size; what is cut from a blank inside its blank's dashed edge; after
// them lengths of ribbon, embellishments and the inks with their marks. It is packed into the room
// that it gets (about 7.3 × 3.5 in is right) at the largest scale that holds everything.
Scene tray(const Project& project, const Card& card);

// The layers of one view drawn apart along a slant, in order, each with its letter and name.
Scene exploded(const Project& project, const Card& card, View view);

// Full-size guide with the outlines of all that lies on one view, centre marks and score lines; of
// a card opened flat only the leaves that carry something. Empty (no items) when nothing lies
// there.
Scene placement_template(const Project& project, const Card& card, View view);
// Full-size outline of a shaped piece without a die, to trace.
Scene shape_template(const Project& project, const Card& card, std::size_t piece_index);
// Full-size strip from which the folds of a piece are marked off, each from the nearer of its left
// and right edges, or of its upper and lower ones if more folds are level. Empty when it is not
// scored.
Scene score_gauge(const Project& project, const Card& card, std::size_t piece_index);
// Whether the strip is laid to the left edge, and whether to the opposite edge as well.
bool gauged_from_left(const std::vector<Score>& scores);
bool gauged_from_both(const std::vector<Score>& scores, Size size);

// A sheet with its pieces to scale: letters, names, dimension chains, score lines, direction, waste
// hatched, leftovers labelled with their size.
Scene sheet(const Project& project, const supply::CuttingPlan& plan,
            const supply::SheetLayout& layout);

// Pieces that are cut alike may be scored differently: what all of them share.
std::vector<Score> common_scores(const Project& project, const supply::CuttingPlan& plan,
                                 const supply::CutPiece& piece);

// A stamped image in its inks at true size, for the key.
Scene stamped_image(const Project& project, int set, int image, const std::vector<int>& inks);

// A small picture of a thing for the list of supplies: paper with its pattern, a length of ribbon,
// the outline that a die cuts, the images of a stamp set, an ink with its mark, an embellishment,
// an envelope, squares and strips of what sticks. Empty for what has no look of its own (tools).
Scene swatch(const Project& project, ItemRef item);

// A bar of 2 in or 50 mm with ticks; fixed scale 1.
Scene scale_bar(const Project& project);

} // namespace leafwright::figure
