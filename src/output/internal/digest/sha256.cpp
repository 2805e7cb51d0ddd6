#include "output/sha256.h"

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>

namespace leafwright::digest {
namespace {

using Word = std::uint32_t;

// The first 32 bits of the fractional part of a root of a prime (FIPS 180-4, 4.2.2 and 5.3.3). The
// constants are worked out rather than typed: whole-number arithmetic, so no digit can be off.
// floor(root * 2^32) is found bit by bit.
constexpr Word fraction_of_root(std::uint64_t prime, int degree) {
  __extension__ using Wide = unsigned __int128;
  // x^degree <= prime * 2^(32 degree) must stay within 128 bits: cube roots of primes below 312
  // times 2^96 do.
  const Wide limit = static_cast<Wide>(prime) << static_cast<unsigned>(32 * degree);
  std::uint64_t root = 0;
  for (int bit = 36; bit >= 0; --bit) {
    const std::uint64_t tried = root | (std::uint64_t{1} << static_cast<unsigned>(bit));
    Wide power = tried;
    for (int i = 1; i < degree; ++i) power *= tried;
    if (power <= limit) root = tried;
  }
  return static_cast<Word>(root);
}

constexpr bool is_prime(unsigned number) {
  for (unsigned factor = 2; factor * factor <= number; ++factor)
    if (number % factor == 0) return false;
  return true;
}

template <std::size_t Count>
constexpr std::array<Word, Count> roots_of_primes(int degree) {
  std::array<Word, Count> words{};
  unsigned prime = 2;
  for (Word& word : words) {
    while (!is_prime(prime)) ++prime;
    word = fraction_of_root(prime++, degree);
  }
  return words;
}

constexpr auto constants = roots_of_primes<64>(3);
constexpr auto beginning = roots_of_primes<8>(2);
static_assert(constants[0] == 0x428a2f98 && constants[63] == 0xc67178f2);
static_assert(beginning[0] == 0x6a09e667 && beginning[7] == 0x5be0cd19);

void mix_block(std::array<Word, 8>& state, const unsigned char* block) {
  std::array<Word, 64> w{};
  for (std::size_t i = 0; i < 16; ++i)
    for (std::size_t byte = 0; byte < 4; ++byte) w[i] = w[i] << 8U | block[4 * i + byte];
  for (std::size_t i = 16; i < 64; ++i) {
    const Word s0 = std::rotr(w[i - 15], 7) ^ std::rotr(w[i - 15], 18) ^ (w[i - 15] >> 3U);
    const Word s1 = std::rotr(w[i - 2], 17) ^ std::rotr(w[i - 2], 19) ^ (w[i - 2] >> 10U);
    w[i] = w[i - 16] + s0 + w[i - 7] + s1;
  }
  auto [a, b, c, d, e, f, g, h] = state;
  for (std::size_t i = 0; i < 64; ++i) {
    const Word s1 = std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25);
    const Word first = h + s1 + ((e & f) ^ (~e & g)) + constants[i] + w[i];
    const Word s0 = std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22);
    const Word second = s0 + ((a & b) ^ (a & c) ^ (b & c));
    h = g;
    g = f;
    f = e;
    e = d + first;
    d = c;
    c = b;
    b = a;
    a = first + second;
  }
  const std::array<Word, 8> worked{a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < 8; ++i) state[i] += worked[i];
}

} // namespace

std::string sha256(std::string_view bytes) {
  std::array<Word, 8> state = beginning;
  const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
  std::size_t at = 0;
  for (; at + 64 <= bytes.size(); at += 64) mix_block(state, data + at);
  // The rest, a one bit, noughts, and the length in bits (5.1.1).
  std::array<unsigned char, 128> end{};
  std::size_t size = 0;
  for (; at < bytes.size(); ++at) end.at(size++) = data[at];
  end.at(size) = 0x80;
  const std::size_t blocks = size + 9 <= 64 ? 1 : 2;
  const std::uint64_t bits = static_cast<std::uint64_t>(bytes.size()) * 8;
  for (std::size_t i = 0; i < 8; ++i)
    end.at(64 * blocks - 1 - i) = static_cast<unsigned char>(bits >> (8 * i));
  for (std::size_t block = 0; block < blocks; ++block) mix_block(state, end.data() + 64 * block);

  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const Word word : state)
    for (int shift = 28; shift >= 0; shift -= 4)
      text.push_back(digits[word >> static_cast<unsigned>(shift) & 0xfU]);
  return text;
}

} // namespace leafwright::digest
