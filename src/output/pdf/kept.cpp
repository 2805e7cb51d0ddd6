#include "output/pdf/kept.h"

#include "output/digest/sha256.h"
#include "output/pdf/pack.h"

namespace leafwright::pdf {

namespace {

// Pixels of a photograph are not kept just to be recognised.
std::string key_of(const std::string& data) {
  constexpr std::size_t large = 1'000'000;
  return data.size() > large ? digest::sha256(data) : data;
}

} // namespace

std::vector<std::string> Kept::deflated_all(std::span<const std::string> data) {
  std::vector<std::string> packed(data.size());
  std::vector<std::string> fresh;
  std::vector<std::size_t> whose;
  for (std::size_t i = 0; i < data.size(); ++i) {
    const auto known = packed_.find(key_of(data[i]));
    if (known == packed_.end()) {
      fresh.push_back(data[i]);
      whose.push_back(i);
    } else {
      known->second.round = round_;
      packed[i] = known->second.bytes;
    }
  }
  std::vector<std::string> made = pdf::deflated_all(fresh);
  for (std::size_t k = 0; k < made.size(); ++k) {
    packed[whose[k]] = made[k];
    packed_.insert_or_assign(key_of(fresh[k]), Entry{std::move(made[k]), round_});
  }
  return packed;
}

std::string Kept::deflated(std::string_view data) {
  const std::string one(data);
  return deflated_all({&one, 1}).front();
}

const std::string& Kept::subset(const text::Fonts& fonts, int face,
                                const std::vector<std::uint32_t>& glyphs) {
  auto [known, is_new] = subsets_.try_emplace({face, glyphs});
  if (is_new) known->second.bytes = text::subset(fonts, face, glyphs);
  known->second.round = round_;
  return known->second.bytes;
}

void Kept::next_round() {
  const auto forgotten = [this](const auto& one) { return one.second.round + 1 < round_; };
  std::erase_if(packed_, forgotten);
  std::erase_if(subsets_, forgotten);
  ++round_;
}

} // namespace leafwright::pdf
