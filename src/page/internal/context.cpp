#include "page/context.h"

#include "guide/figure/scene.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

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

const Drawn& FigureCache::draw(const figure::Scene& scene, Size room, double scale) {
  const Key key{&scene, room.width.nm, room.height.nm, scale};
  const auto known = drawn_.find(key);
  if (known != drawn_.end()) return known->second;
  LayoutCache::DrawingKey by_content{{}, room, scale};
  if (kept_ != nullptr) {
    auto [print, fresh] = fingerprints_.try_emplace(&scene);
    if (fresh) print->second = figure::fingerprint_of(scene, look_);
    by_content.scene = print->second;
    if (const Drawn* before = kept_->find(by_content))
      return drawn_.emplace(key, *before).first->second;
  }
  figure::Composed composed = figure::compose(scene, room, scale, look_, fonts_);
  Drawn drawn{std::make_shared<const Drawing>(std::move(composed.drawing)), composed.scale,
              composed.crowded};
  if (kept_ != nullptr) kept_->keep(by_content, drawn);
  return drawn_.emplace(key, std::move(drawn)).first->second;
}

namespace {

// Where nothing is in the way of labels.
constexpr Size open_room{millimetres(5000), millimetres(5000)};
constexpr double least_scale = 0.02;

double whole_percent(double scale) {
  return scale >= 1.0 || scale < 0.05 ? scale : std::floor(scale * 100.0 + 1e-9) / 100.0;
}

double part(Length a, Length of) {
  return of.nm <= 0 ? std::numeric_limits<double>::infinity()
                    : static_cast<double>(a.nm) / static_cast<double>(of.nm);
}

Size scaled(Size size, double scale) {
  return {{static_cast<std::int64_t>(static_cast<double>(size.width.nm) * scale)},
          {static_cast<std::int64_t>(static_cast<double>(size.height.nm) * scale)}};
}

} // namespace

const Drawn& FigureCache::composed(const figure::Scene& scene, Size room, double scale) {
  const Drawn& free = draw(scene, open_room, scale);
  if (fits(free.drawing->size, room)) return free;
  return draw(scene, room, scale);
}

Size FigureCache::margins(const figure::Scene& scene) {
  const auto known = margins_.find(&scene);
  if (known != margins_.end()) return known->second;
  // At a middling size, as most figures are printed; sheets are printed larger, and then more of
  // their words stand inside.
  const Length side = scene.scale_group == "sheet" ? millimetres(84) : millimetres(58);
  const Size middling{side, side};
  double scale = std::min({scene.largest_scale, part(middling.width, scene.box.size.width),
                           part(middling.height, scene.box.size.height)});
  scale = scene.fixed_scale ? *scene.fixed_scale : std::max(whole_percent(scale), least_scale);
  const Drawn& drawn = draw(scene, open_room, scale);
  const Size own = scaled(scene.box.size, scale);
  const Size extra{drawn.drawing->size.width - own.width, drawn.drawing->size.height - own.height};
  return margins_.emplace(&scene, extra).first->second;
}

Size FigureCache::expected_size(const figure::Scene& scene, double scale) {
  const Size extra = margins(scene);
  const Size own = scaled(scene.box.size, scale);
  return {own.width + extra.width, own.height + extra.height};
}

double FigureCache::fitting(const figure::Scene& scene, Size room) {
  if (scene.fixed_scale) return *scene.fixed_scale;
  if (!scene.laid_out.empty()) return figure::fitting_scale(scene, room, look_, fonts_);
  const Size extra = margins(scene);
  const Size left{std::max(room.width - extra.width, room.width / 2),
                  std::max(room.height - extra.height, room.height / 2)};
  const double scale = std::min({scene.largest_scale, part(left.width, scene.box.size.width),
                                 part(left.height, scene.box.size.height)});
  return std::max(whole_percent(scale), least_scale);
}

void Context::tell(Severity severity, std::string code, std::string found, std::string expected,
                   std::string fix) {
  ++tells;
  if (!told.insert(code + '\n' + found).second) return;
  findings.push_back({severity,
                      std::move(code),
                      place,
                      std::move(found),
                      std::move(expected),
                      std::move(fix),
                      {}});
}

std::string Context::label(const std::string& anchor) {
  uses_labels = true;
  const auto known = labels.find(anchor);
  if (known != labels.end()) return known->second;
  return labels.empty() ? "0" : "?";
}

} // namespace leafwright::page
