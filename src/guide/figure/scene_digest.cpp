#include "guide/figure/scene_digest.h"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <cstring>
#include <string_view>
#include <type_traits>

namespace leafwright::figure {

namespace {

// Two multiply-and-fold sums that share nothing; the constants are odd numbers of many bits (digits
// of the golden ratio and of pi).
class Sum {
 public:
  void add(std::uint64_t value) {
    digest_.high = fold(digest_.high ^ value, 0x9e3779b97f4a7c15ULL);
    digest_.low = fold(digest_.low + value, 0x243f6a8885a308d3ULL);
  }
  void add(std::string_view text) {
    add(text.size());
    while (!text.empty()) {
      std::uint64_t word = 0;
      const std::size_t bytes = std::min(text.size(), sizeof word);
      std::memcpy(&word, text.data(), bytes);
      add(word);
      text.remove_prefix(bytes);
    }
  }
  SceneDigest digest() const { return digest_; }

 private:
  __extension__ using Wide = unsigned __int128;
  static std::uint64_t fold(std::uint64_t a, std::uint64_t by) {
    const Wide product = static_cast<Wide>(a ^ by) * (by | 1U) + by;
    return static_cast<std::uint64_t>(product) ^ static_cast<std::uint64_t>(product >> 64U);
  }
  SceneDigest digest_{0x452821e638d01377ULL, 0xbe5466cf34e90c6cULL};
};

class Digester {
 public:
  template <class... Ts>
  void put(const Ts&... values) {
    (one(values), ...);
  }
  SceneDigest digest() const { return sum_.digest(); }

 private:
  template <class T>
  requires std::is_integral_v<T> || std::is_enum_v<T>
  void one(T value) { sum_.add(static_cast<std::uint64_t>(value)); }
  void one(double value) { sum_.add(std::bit_cast<std::uint64_t>(value)); }
  void one(const std::string& text) { sum_.add(std::string_view(text)); }
  void one(Length a) { one(a.nm); }
  void one(Angle a) { one(a.udeg); }
  void one(Point p) { put(p.x, p.y); }
  void one(Size s) { put(s.width, s.height); }
  void one(Rect r) { put(r.origin, r.size); }
  void one(Colour c) { put(c.red, c.green, c.blue); }
  void one(const Segment& s) { put(s.kind, s.control1, s.control2, s.end); }
  template <class T>
  void one(const std::optional<T>& maybe) {
    one(maybe.has_value());
    if (maybe) one(*maybe);
  }
  template <class T>
  void one(const std::vector<T>& all) {
    one(all.size());
    for (const T& each : all) one(each);
  }

  void one(const SceneFill& f) { put(f.path, f.colour, f.opacity); }
  void one(const SceneStroke& s) {
    put(s.path, s.colour, s.width, s.real_width, s.dash, s.cap, s.join, s.opacity);
  }
  void one(const SceneText& t) { put(t.text, t.role, t.height, t.centre, t.turned, t.colour); }
  void one(const SceneImage& i) { put(i.picture, i.box, i.turned); }
  void one(const SceneClip& c) { put(c.path); }
  void one(const SceneUnclip&) {}
  void one(const SceneMark& m) { put(m.kind, m.id, m.box); }
  void one(const SceneItem& item) {
    one(item.index());
    std::visit([this](const auto& shape) { this->one(shape); }, item);
  }
  void one(const Dimension& d) {
    put(d.from, d.to, d.words, d.side, d.rank, d.gap, d.from_of, d.to_of);
  }
  void one(const Badge& b) { put(b.letter, b.at, b.within, b.kind); }
  void one(const Label& l) {
    put(l.lines, l.within, l.outside, l.plate, l.anchors, l.beside, l.letter, l.brief, l.rank);
  }

  Sum sum_;
};

} // namespace

SceneDigest digest_of(const Scene& scene, const Look& look) {
  Digester all;
  all.put(scene.box, scene.solid, scene.keep_clear, scene.items, scene.dimensions, scene.badges,
          scene.labels, scene.alternative, scene.fixed_scale, scene.largest_scale,
          scene.scale_group, scene.backdrop);
  all.put(look.ink, look.quiet, look.accent, look.paper, look.ground, look.label_size,
          look.badge_size);
  return all.digest();
}

} // namespace leafwright::figure
