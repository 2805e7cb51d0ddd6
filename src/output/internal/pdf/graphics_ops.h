#pragma once

#include "measure/length.h"
#include "model/project.h"
#include "output/internal/deflate/deflate.h"
#include "output/internal/pdf/haru.h"

#include <string>

namespace leafwright::pdf {

// Appends the construction operators of a path on a page of that height; y is turned up. A
// rectangle whose first side is level becomes `re`, which starts and runs as the path does. False,
// and nothing appended, when there is nothing to draw.
bool append_path(std::string& out, const Path& path, Length page_height);

// Adds a picture as an image XObject (ISO 32000-1, 8.9.5): a JPEG as it is, a PNG as its pixels,
// with its alpha as a soft mask. A damaged one is a misread that names the file.
Parsed<Ref> add_picture(Haru& haru, const Picture& picture, const Packing& packing);

} // namespace leafwright::pdf
