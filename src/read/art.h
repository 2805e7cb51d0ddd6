#pragma once

#include "model/artwork.h"
#include "read/context.h"
#include "read/document.h"

namespace leafwright::reading {

// The outline attributes of a die, a piece, a window or an embellishment.
Shape shape_of(Context& context, const Element& element);
// The drawings inside an image or an embellishment of the given size.
Artwork artwork_of(Context& context, const Element& element, Size size);
// Loads a picture of the project; -1 after a finding.
int picture_of(Context& context, const Element& element, std::string_view attribute);

} // namespace leafwright::reading
