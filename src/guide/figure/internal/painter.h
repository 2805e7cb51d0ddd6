#pragma once

#include "guide/figure/scene.h"

namespace leafwright::figure {

constexpr double ground_margin = 3.5; // of a tinted ground around what stands on it, mm

// Plays the shapes of a scene into a drawing at one scale, shifted.
class Painter {
 public:
  Painter(Drawing& drawing, double scale, Point shift, const text::Fonts& fonts)
      : drawing_(drawing), scale_(scale), shift_(shift), fonts_(fonts) {}

  void paint(const SceneItem& item);

 private:
  Length size(Length a) const;
  Point at(Point p) const { return Point{size(p.x), size(p.y)} + shift_; }
  Rect at(Rect rect) const {
    return {at(rect.origin), {size(rect.size.width), size(rect.size.height)}};
  }
  Path at(const Path& path) const;

  void add(const SceneFill& fill);
  void add(const SceneStroke& stroke);
  void add(const SceneText& words);
  void add(const SceneImage& image);
  void add(const SceneClip& clip);
  void add(const SceneUnclip&);
  void add(const SceneMark& mark);

  Drawing& drawing_;
  double scale_;
  Point shift_;
  const text::Fonts& fonts_;
};

} // namespace leafwright::figure
