#include "guide/figure/scene.h"

namespace leafwright {

static void feed(Fingerprinter& to, const Colour& c) { to.put(c.red, c.green, c.blue); }
static void feed(Fingerprinter& to, const Segment& s) {
  to.put(s.kind, s.control1, s.control2, s.end);
}

namespace figure {

// Here alone rather than in every file that holds a scene: a build is shorter for it.
Scene::Scene() = default;
Scene::Scene(const Scene&) = default;
Scene::Scene(Scene&&) noexcept = default;
Scene& Scene::operator=(const Scene&) = default;
Scene& Scene::operator=(Scene&&) noexcept = default;
Scene::~Scene() = default;

static void feed(Fingerprinter& to, const SceneFill& f) { to.put(f.path, f.colour, f.opacity); }
static void feed(Fingerprinter& to, const SceneStroke& s) {
  to.put(s.path, s.colour, s.width, s.real_width, s.dash, s.cap, s.join, s.opacity);
}
static void feed(Fingerprinter& to, const SceneText& t) {
  to.put(t.text, t.role, t.height, t.centre, t.turned, t.colour);
}
static void feed(Fingerprinter& to, const SceneImage& i) { to.put(i.picture, i.box, i.turned); }
static void feed(Fingerprinter& to, const SceneClip& c) { to.put(c.path); }
static void feed(Fingerprinter&, const SceneUnclip&) {}
static void feed(Fingerprinter& to, const SceneMark& m) { to.put(m.kind, m.id, m.box); }
static void feed(Fingerprinter& to, const Dimension& d) {
  to.put(d.from, d.to, d.words, d.side, d.rank, d.gap, d.brief, d.from_of, d.to_of);
}
static void feed(Fingerprinter& to, const Badge& b) { to.put(b.letter, b.at, b.within, b.kind); }
static void feed(Fingerprinter& to, const Label& l) {
  to.put(l.lines, l.within, l.outside, l.plate, l.anchors, l.beside, l.letter, l.brief, l.rank);
}

static void feed_items(Fingerprinter& to, const std::vector<SceneItem>& items) {
  to.put(items.size());
  for (const SceneItem& item : items) {
    to.put(item.index());
    std::visit([&to](const auto& shape) { feed(to, shape); }, item);
  }
}
static void feed(Fingerprinter& to, const LaidOut& thing) {
  to.put(thing.lines, thing.letter, thing.own_scale, thing.lies.size());
  for (const LaidOut::Lie& lie : thing.lies) {
    to.put(lie.box);
    feed_items(to, lie.items);
  }
}

void feed(Fingerprinter& to, const Look& look) {
  to.put(look.ink, look.quiet, look.accent, look.paper, look.ground, look.label_size,
         look.dimension_size, look.badge_size);
}

Fingerprint fingerprint_of(const Scene& scene, const Look& look) {
  Fingerprinter all;
  all.put(scene.box, scene.solid, scene.keep_clear, scene.laid_out);
  feed_items(all, scene.items);
  all.put(scene.dimensions, scene.badges, scene.labels, scene.alternative, scene.fixed_scale,
          scene.largest_scale, scene.scale_group, scene.backdrop, look);
  return all.result();
}

} // namespace figure
} // namespace leafwright
