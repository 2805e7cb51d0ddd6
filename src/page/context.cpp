#include "page/context.h"

#include <bit>

namespace leafwright::page {

std::size_t FigureCache::Hash::operator()(const Key& key) const {
  std::size_t h = std::hash<const void*>{}(key.scene);
  const auto mix = [&h](std::size_t value) {
    h ^= value + 0x9e3779b97f4a7c15ULL + (h << 6U) + (h >> 2U);
  };
  mix(std::hash<std::int64_t>{}(key.width));
  mix(std::hash<std::int64_t>{}(key.height));
  mix(std::hash<std::uint64_t>{}(std::bit_cast<std::uint64_t>(key.scale)));
  return h;
}

const Drawn& FigureCache::composed(const figure::Scene& scene, Size room, double scale,
                                   const figure::Look& look, const text::Fonts& fonts) {
  const Key key{&scene, room.width.nm, room.height.nm, scale};
  const auto known = drawn_.find(key);
  if (known != drawn_.end()) return known->second;
  figure::Composed composed = figure::compose(scene, room, scale, look, fonts);
  Drawn drawn{std::make_shared<const Drawing>(std::move(composed.drawing)), composed.scale,
              composed.crowded};
  return drawn_.emplace(key, std::move(drawn)).first->second;
}

double FigureCache::fitting(const figure::Scene& scene, Size room, const figure::Look& look,
                            const text::Fonts& fonts) {
  const Key key{&scene, room.width.nm, room.height.nm, 0.0};
  const auto known = scales_.find(key);
  if (known != scales_.end()) return known->second;
  return scales_.emplace(key, figure::fitting_scale(scene, room, look, fonts)).first->second;
}

void Context::tell(Severity severity, std::string code, std::string found, std::string expected,
                   std::string mend) {
  if (!told.insert(code + '\n' + found).second) return;
  findings.push_back({severity,
                      std::move(code),
                      place,
                      std::move(found),
                      std::move(expected),
                      std::move(mend),
                      {}});
}

std::string Context::label(const std::string& anchor) {
  uses_labels = true;
  const auto known = labels.find(anchor);
  return known == labels.end() ? "0" : known->second;
}

} // namespace leafwright::page
