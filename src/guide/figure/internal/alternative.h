#pragma once

#include "guide/figure/internal/staging.h"
#include "guide/figure/scenes.h"
#include "model/placing.h"

#include <string>

// What a reader who cannot see a drawing is told, written from the model.

namespace leafwright::figure {

// "centred", "centred across, 3/8 in from the top", "1/4 in from the left, 1/8 in from the bottom".
std::string where_words(const Gaps& gaps, const Position& said, const Project& project);
// "Front of the card “Gate and trees”: kraft base 4 1/4 × 5 1/2 in; ..." with the first `count`
// entries.
std::string stage_words(const Project& project, const Card& card, const Staging& staging,
                        std::size_t count);
// The same told by its looks, without sizes and distances: "Front of the card “Gate and trees”: a
// kraft base; dotted mat; tree panel, stamped with ...".
std::string looks_words(const Project& project, const Card& card, const Staging& staging);

std::string lower_first(std::string words);
std::string sentence(std::string words);
std::string piece_name(const Piece& piece); // the id when it has no name
// "2 1/2 × 13/16 in", "3 1/4 in square", "1 1/2 in across" of something round.
std::string piece_size(const Piece& piece, const Printing& printing);
std::string shape_size(const Shape& shape, Size size, const Printing& printing);
std::string stock_name(const Project& project, int stock);
std::string image_words(const Project& project, const Impression& impression);

} // namespace leafwright::figure
