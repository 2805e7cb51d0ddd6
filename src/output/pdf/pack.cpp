#include "output/pdf/pack.h"

#include <zlib.h>

namespace leafwright::pdf {

Ref add_packed(Haru& haru, std::string entries, std::string_view data, bool compress) {
  // Page contents shrink no further above this level in any measure, only more slowly.
  constexpr int level = 6;
  if (compress) {
    uLongf size = compressBound(static_cast<uLong>(data.size()));
    std::string packed(size, '\0');
    const int done = compress2(reinterpret_cast<Bytef*>(packed.data()), &size,
                               reinterpret_cast<const Bytef*>(data.data()),
                               static_cast<uLong>(data.size()), level);
    if (done == Z_OK) {
      packed.resize(size);
      entries += "/Filter/FlateDecode";
      return haru.add_stream(std::move(entries), packed);
    }
  }
  return haru.add_stream(std::move(entries), std::string(data));
}

} // namespace leafwright::pdf
