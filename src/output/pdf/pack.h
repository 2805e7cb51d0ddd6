#pragma once

#include "output/pdf/haru.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::pdf {

class Kept;

// Deflated (RFC 1950), for a stream whose Filter is FlateDecode. Empty only when memory is out.
std::string deflated(std::string_view data);

// Each of them, on as many cores as there are; the same at any number.
std::vector<std::string> deflated_all(std::span<const std::string> data);
// … those taken from `kept` that are known there, when it is given.
std::vector<std::string> deflated_all(std::span<const std::string> data, Kept* kept);

// A stream, deflated at once so that only the small form is kept, or as it is when `compress` is
// off. Deflating here rather than by libharu also names the filter in the one form that later tools
// take over without doing the work again.
Ref add_packed(Haru& haru, std::string entries, std::string_view data, bool compress,
               Kept* kept = nullptr);

// The same for a stream that was reserved.
void fill_packed(Haru& haru, Ref stream, std::string entries, std::string_view data, bool compress,
                 Kept* kept = nullptr);
// … and for one that is deflated already.
void fill_deflated(Haru& haru, Ref stream, std::string entries, const std::string& packed);

} // namespace leafwright::pdf
