#include <fmt/format.h>
#include <nettle/sha2.h>

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "output/pdf.h"

namespace leafwright::digest {

std::string sha256(std::string_view bytes) {
  sha256_ctx context;
  sha256_init(&context);
  sha256_update(&context, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> sum{};
  sha256_digest(&context, sum.size(), sum.data());
  std::string text;
  for (const std::uint8_t byte : sum) text += fmt::format("{:02x}", byte);
  return text;
}

} // namespace leafwright::digest
