#include "output/pdf/pack.h"

#include <zlib.h>

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

void fill_packed(Haru& haru, Ref stream, std::string entries, std::string_view data,
                 bool compress) {
  const std::string packed = compress ? deflated(data) : std::string();
  if (packed.empty()) {
    haru.fill_stream(stream, std::move(entries), std::string(data));
    return;
  }
  entries += "/Filter/FlateDecode";
  haru.fill_stream(stream, std::move(entries), packed);
}

Ref add_packed(Haru& haru, std::string entries, std::string_view data, bool compress) {
  const Ref ref = haru.reserve_stream();
  fill_packed(haru, ref, std::move(entries), data, compress);
  return ref;
}

} // namespace leafwright::pdf
