#pragma once

#include "output/pdf.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

// Deflating (RFC 1950 and 1951) by libdeflate: a smaller result than zlib's in half the time, for
// data that lies in memory whole, as all of ours does.

namespace leafwright::pdf {

// How the streams of one document are written.
struct Packing {
  bool compress = true; // off: as they are, to read the file by eye
  Deflate effort = Deflate::Small;
  StreamCache* kept = nullptr; // knows what was deflated before; may be nothing
};
Packing packing(const PdfOptions& options);

// With the header and checksum of RFC 1950, for a stream whose Filter is FlateDecode. Empty only
// when memory is out.
std::string deflated(std::string_view data, Deflate effort);

// Each of them, on as many cores as there are; the same at any number.
std::vector<std::string> deflated_all(std::span<const std::string> data, Deflate effort);
// … those taken from the cache that are known there.
std::vector<std::string> deflated_all(std::span<const std::string> data, const Packing& packing);

} // namespace leafwright::pdf
