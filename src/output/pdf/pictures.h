#pragma once

#include "model/project.h"
#include "output/pdf/haru.h"

namespace leafwright::pdf {

class Kept;

// Adds a picture as an image XObject (ISO 32000-1, 8.9.5): a JPEG as it is, a PNG as its pixels,
// with its alpha as a soft mask. A damaged one is a misread that names the file.
Parsed<Ref> add_picture(Haru& haru, const Picture& picture, bool compress, Kept* kept = nullptr);

} // namespace leafwright::pdf
