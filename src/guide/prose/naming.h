#pragma once

#include "guide/prose/prose.h"
#include "model/project.h"

#include <string>
#include <string_view>
#include <vector>

// How things are called inside a sentence. Names are written by the author as they stand in a list
// ("Kraft", "Circle die, 2 3/4 in"); in a sentence they lose the capital and the detail changes its
// place ("kraft", "2 3/4 in circle die").

namespace leafwright::guide {

std::string in_sentence(std::string_view listed_name);

std::string stock_noun(const Project& project, int stock); // "kraft"; patterns keep their capital
std::string item_noun(const Project& project, ItemRef item);
// "moss", "moss and rust"
std::string ink_nouns(const Project& project, const std::vector<int>& inks);
// A greeting is called by its words, in quotes; a picture by its name: "the small tree".
std::string image_with_the(const Project& project, int set, int image);
// As one of many: "small tree", "“come on in” greeting".
std::string image_noun(const Project& project, int set, int image);
bool is_greeting(const StampImage& image);

std::string piece_noun(const Piece& piece); // "dotted mat"
std::string face_words(const Card& card, int face);
// The stock (for a face: of the base) that is seen of what a thing lies on.
std::string carrier_surface(const Project& project, const Card& card, const Carrier& on);
Size carrier_size(const Project& project, const Card& card, const Carrier& on);
// What it lies on, with its letter: "the front", "the dotted mat (C)", "the front of the envelope".
void say_carrier(Prose& prose, const Card& card, const Carrier& on);

// "3 1/4 in square", "2 in across" for a circle, "4 × 5 1/4 in".
std::string piece_size_words(const Project& project, const Shape& shape, Size size);

// The first tool of the project whose name holds `words`: "the bone folder"; empty when none does.
std::string tool_with_the(const Project& project, std::string_view words);

const Piece* piece_at(const Card& card, int index);

} // namespace leafwright::guide
