#pragma once

#include "measure/path.h"
#include "model/shape.h"

#include <string>
#include <string_view>

// How SVG spells things. For this folder.

namespace leafwright::svg {

// Millimetres to the nanometre, without needless noughts.
void append_mm(std::string& out, Length a);
// To the nearest 10^-decimals.
void append_real(std::string& out, double value, int decimals = 6);
// Path data; lengths are divided by nm_per_unit, which is a power of ten of at most 10^6.
std::string path_data(const Path& path, std::int64_t nm_per_unit = nm_per_mm);
// A length, or all of a path in mm, to the nearest `step_nm`.
Length rounded(Length a, std::int64_t step_nm);
std::string rounded_path_data(Path path, std::int64_t step_nm);
std::string colour(Colour colour);          // "#3d5e49"
std::string base64(std::string_view bytes); // RFC 4648

} // namespace leafwright::svg
