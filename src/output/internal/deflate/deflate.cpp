#include "output/internal/deflate/deflate.h"

#include "output/pdf.h"

#include <libdeflate.h>

#include <algorithm>
#include <atomic>
#include <memory>
#include <thread>

namespace leafwright::pdf {
namespace {

struct FreeCompressor {
  void operator()(libdeflate_compressor* one) const { libdeflate_free_compressor(one); }
};
using Compressor = std::unique_ptr<libdeflate_compressor, FreeCompressor>;

Compressor compressor(Deflate effort) {
  // Page contents shrink by less than a hundredth above level 6, and take twice the time.
  return Compressor(libdeflate_alloc_compressor(effort == Deflate::Small ? 6 : 1));
}

std::string deflated(libdeflate_compressor* with, std::string_view data) {
  if (with == nullptr) return {};
  std::string packed(libdeflate_zlib_compress_bound(with, data.size()), '\0');
  packed.resize(
      libdeflate_zlib_compress(with, data.data(), data.size(), packed.data(), packed.size()));
  packed.shrink_to_fit(); // the bound is longer than the data
  return packed;
}

// Pixels of a photograph are not kept just to be recognised.
std::string key_of(std::string_view data, Deflate effort) {
  constexpr std::size_t large = 1'000'000;
  std::string key(1, effort == Deflate::Small ? 's' : 'q');
  key += data.size() > large ? digest::sha256(data) : std::string(data);
  return key;
}

} // namespace

Packing packing(const PdfOptions& options) {
  return {options.compress, options.effort, options.kept};
}

std::string deflated(std::string_view data, Deflate effort) {
  return deflated(compressor(effort).get(), data);
}

std::vector<std::string> deflated_all(std::span<const std::string> data, Deflate effort) {
  std::vector<std::string> packed(data.size());
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    const Compressor own = compressor(effort);
    for (std::size_t i = next++; i < data.size(); i = next++)
      packed[i] = deflated(own.get(), data[i]);
  };
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::thread> others;
  for (std::size_t k = 1; k < std::min(cores, data.size()); ++k) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
  return packed;
}

std::vector<std::string> deflated_all(std::span<const std::string> data, const Packing& packing) {
  return packing.kept != nullptr ? packing.kept->deflated_all(data, packing.effort)
                                 : deflated_all(data, packing.effort);
}

std::vector<std::string> StreamCache::deflated_all(std::span<const std::string> data,
                                                   Deflate effort) {
  std::vector<std::string> packed(data.size());
  std::vector<std::string> fresh;
  std::vector<std::size_t> whose;
  for (std::size_t i = 0; i < data.size(); ++i) {
    if (const std::string* known = packed_.find(key_of(data[i], effort))) {
      packed[i] = *known;
    } else {
      fresh.push_back(data[i]);
      whose.push_back(i);
    }
  }
  std::vector<std::string> made = pdf::deflated_all(fresh, effort);
  for (std::size_t k = 0; k < made.size(); ++k)
    packed[whose[k]] = packed_.keep(key_of(fresh[k], effort), std::move(made[k]));
  return packed;
}

const std::string& StreamCache::subset(const text::Fonts& fonts, int face,
                                       const std::vector<std::uint32_t>& glyphs) {
  std::pair key(face, glyphs);
  if (const std::string* known = subsets_.find(key)) return *known;
  std::string made = text::subset(fonts, face, glyphs);
  return subsets_.keep(std::move(key), std::move(made));
}

} // namespace leafwright::pdf
