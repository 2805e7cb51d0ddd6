#include "output/pdf/pack.h"

#include "output/pdf/kept.h"

#include <zlib.h>

#include <algorithm>
#include <atomic>
#include <thread>

namespace leafwright::pdf {

std::string deflated(std::string_view data) {
  // Page contents shrink no further above this level in any measure, only more slowly.
  constexpr int level = 6;
  uLongf size = compressBound(static_cast<uLong>(data.size()));
  std::string packed(size, '\0');
  if (compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
                reinterpret_cast<const Bytef*>(data.data()), static_cast<uLong>(data.size()),
                level) != Z_OK)
    return {};
  packed.resize(size);
  return packed;
}

std::vector<std::string> deflated_all(std::span<const std::string> data) {
  std::vector<std::string> packed(data.size());
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    for (std::size_t i = next++; i < data.size(); i = next++) packed[i] = deflated(data[i]);
  };
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::thread> others;
  for (std::size_t k = 1; k < std::min(cores, data.size()); ++k) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
  return packed;
}

std::vector<std::string> deflated_all(std::span<const std::string> data, Kept* kept) {
  return kept != nullptr ? kept->deflated_all(data) : deflated_all(data);
}

void fill_deflated(Haru& haru, Ref stream, std::string entries, const std::string& packed) {
  entries += "/Filter/FlateDecode";
  haru.fill_stream(stream, std::move(entries), packed);
}

void fill_packed(Haru& haru, Ref stream, std::string entries, std::string_view data, bool compress,
                 Kept* kept) {
  const std::string packed = !compress         ? std::string()
                             : kept != nullptr ? kept->deflated(data)
                                               : deflated(data);
  if (packed.empty()) {
    haru.fill_stream(stream, std::move(entries), std::string(data));
    return;
  }
  fill_deflated(haru, stream, std::move(entries), packed);
}

Ref add_packed(Haru& haru, std::string entries, std::string_view data, bool compress, Kept* kept) {
  const Ref ref = haru.reserve_stream();
  fill_packed(haru, ref, std::move(entries), data, compress, kept);
  return ref;
}

} // namespace leafwright::pdf
