#include "guide/figure/internal/painter.h"

#include "guide/figure/frame.h"

#include <algorithm>

namespace leafwright::figure {

void Painter::paint(const SceneItem& item) {
  std::visit([this](const auto& shape) { this->add(shape); }, item);
}

Length Painter::size(Length a) const {
  return scale_ == 1.0 ? a : from_nm(static_cast<double>(a.nm) * scale_);
}

Path Painter::at(const Path& path) const {
  Path result = path;
  for (Segment& segment : result) {
    segment.control1 = at(segment.control1);
    segment.control2 = at(segment.control2);
    segment.end = at(segment.end);
  }
  return result;
}

void Painter::add(const SceneFill& fill) {
  drawing_.items.emplace_back(Fill{at(fill.path), fill.colour, fill.opacity});
}

void Painter::add(const SceneStroke& stroke) {
  Stroke drawn{at(stroke.path), stroke.colour, stroke.width,  stroke.dash,
               stroke.cap,      stroke.join,   stroke.opacity};
  if (stroke.real_width) {
    drawn.width = size(stroke.width);
    for (Length& length : drawn.dash) length = size(length);
  }
  drawing_.items.emplace_back(std::move(drawn));
}

void Painter::add(const SceneText& words) {
  if (words.text.empty() || size(words.height).nm <= 0) return;
  const int face = fonts_.face(words.role);
  text::Shaped shaped = fonts_.shape(face, size(words.height), words.text);
  const double cap = std::max(fonts_.metrics(face).cap_height, 400) / 1000.0;
  const Point start{-shaped.width / 2, from_nm(static_cast<double>(shaped.size.nm) * cap * 0.46)};
  const Point baseline = at(words.centre) + placed(turned_about(words.turned, Point{}), start);
  drawing_.items.emplace_back(TextRun{std::move(shaped), baseline, words.colour, words.turned, {}});
}

void Painter::add(const SceneImage& image) {
  drawing_.items.emplace_back(Image{image.picture, at(image.box), image.turned});
}
void Painter::add(const SceneClip& clip) { drawing_.items.emplace_back(PushClip{at(clip.path)}); }
void Painter::add(const SceneUnclip&) { drawing_.items.emplace_back(PopClip{}); }
void Painter::add(const SceneMark& mark) {
  drawing_.items.emplace_back(Mark{mark.kind, mark.id, at(mark.box), mark.box.size});
}

} // namespace leafwright::figure
