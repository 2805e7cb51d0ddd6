#include "guide/figure/internal/staging.h"
#include "guide/figure/paint.h"
#include "measure/index.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace leafwright::figure {

namespace {

using Method = Impression::Method;

const StampImage* image_of(const Project& project, const Impression& impression) {
  if (impression.set < 0 || impression.set >= static_cast<int>(project.stamp_sets.size()))
    return nullptr;
  const auto& images = project.stamp_sets.at(as_index(impression.set)).images;
  if (impression.image < 0 || impression.image >= static_cast<int>(images.size())) return nullptr;
  return &images.at(as_index(impression.image));
}

std::vector<Colour> colours_of(const Project& project, const std::vector<int>& inks) {
  std::vector<Colour> colours;
  for (const int ink : inks)
    if (ink >= 0 && ink < static_cast<int>(project.inks.size()))
      colours.push_back(project.inks.at(as_index(ink)).colour);
  if (colours.empty()) colours.push_back({90, 84, 78});
  return colours;
}

// How much of the ink is left: stamped again without inking, or once on scrap first. Common
// practice: each further impression holds a little more than half of the one before.
double strength(const Impression& impression, std::size_t number) {
  double strength = 1.0;
  if (impression.method == Method::SecondGeneration) strength *= 0.55;
  if (impression.fading) strength *= std::max(0.25, std::pow(0.66, static_cast<double>(number)));
  return strength;
}

text::Role role_of(const std::string& face) {
  if (face == "text") return text::Role::Text;
  if (face == "display") return text::Role::Display;
  return face == "display-italic" ? text::Role::DisplayItalic : text::Role::Display;
}

class InkPen {
 public:
  InkPen(Items& into, const Frame& frame, const std::vector<Colour>& inks, Colour paper,
         double tone)
      : into_(into), frame_(frame), inks_(inks), paper_(paper), tone_(tone) {}

  void draw(const Art& art) {
    const std::size_t ink = std::min(as_index(std::max(art.ink, 0)), inks_.size() - 1);
    const Colour colour = mixed(paper_, inks_.at(ink), std::clamp(art.tone * tone_, 0.0, 1.0));
    std::visit([&](const auto& what) { this->add(what, colour); }, art.what);
  }

 private:
  // Ink is a little transparent: where two colours meet, both show.
  static constexpr double cover = 0.93;

  void add(const TextArt& art, Colour colour) {
    into_.emplace_back(SceneText{art.text, role_of(art.face), art.height, placed(frame_, art.at),
                                 angle_of(frame_), colour});
  }
  void add(const PathArt& art, Colour colour) { shape(art.path, art.filled, art.stroke, colour); }
  void add(const ShapeArt& art, Colour colour) {
    shape(moved(outline_path(art.shape, art.box.size), art.box.origin), art.filled, art.stroke,
          colour);
  }
  void add(const PictureArt& art, Colour) {
    const Point centre = placed(frame_, art.box.centre());
    const Rect box{{centre.x - art.box.size.width / 2, centre.y - art.box.size.height / 2},
                   art.box.size};
    into_.emplace_back(SceneImage{art.picture, box, angle_of(frame_)});
  }
  void shape(const Path& path, bool filled, Length stroke, Colour colour) {
    if (filled)
      fill(into_, placed(frame_, path), colour, cover);
    else
      real_stroke(into_, placed(frame_, path), colour, stroke, cover, {}, Stroke::Cap::Round);
  }

  Items& into_;
  const Frame& frame_;
  const std::vector<Colour>& inks_;
  Colour paper_;
  double tone_;
};

// Ink dabbed on with a sponge: a soft cloud round the image, deterministic.
void draw_sponged(Items& into, const Frame& frame, Size size, Colour ink) {
  Path wide;
  Path middle;
  Path fine;
  std::uint64_t state = 0x2545f4914f6cdd1dU;
  const auto next = [&state] { // xorshift64
    state ^= state << 13U;
    state ^= state >> 7U;
    state ^= state << 17U;
    return static_cast<double>(state >> 11U) / 9007199254740992.0;
  };
  const double w = static_cast<double>(size.width.nm);
  const double h = static_cast<double>(size.height.nm);
  const double reach = std::min(std::max(std::min(w, h) * 0.35, 2.5e6), 6e6);
  const int dabs = std::clamp(static_cast<int>(w * h / (reach * reach) * 3.0), 12, 220);
  for (int i = 0; i < dabs; ++i) {
    const auto at = [&](double spread) {
      return placed(frame, {from_nm(w * next() + (next() - 0.5) * reach * spread),
                            from_nm(h * next() + (next() - 0.5) * reach * spread)});
    };
    append_dot(wide, at(0.5));
    append_dot(middle, at(0.9));
    append_dot(fine, at(1.6));
  }
  real_stroke(into, std::move(wide), ink, from_nm(reach), 0.20, {}, Stroke::Cap::Round);
  real_stroke(into, std::move(middle), ink, from_nm(reach * 0.5), 0.20, {}, Stroke::Cap::Round);
  real_stroke(into, std::move(fine), ink, from_nm(reach * 0.14), 0.30, {}, Stroke::Cap::Round);
}

void draw_once(Items& into, const StampImage& image, const Impression& impression,
               const Frame& frame, const std::vector<Colour>& inks, Colour paper, double tone) {
  const Length off = micrometres(170);
  const auto shifted_by = [&](Length by) { return then(frame, shifted({by, by})); };
  switch (impression.method) {
  case Method::HeatEmbossed: // stands up: a light edge towards the light, a dark one away from it
    draw_artwork(into, image.artwork, shifted_by(off),
                 std::vector<Colour>(inks.size(), mixed(paper, {40, 34, 28}, 0.55)), paper, 0.9);
    draw_artwork(into, image.artwork, shifted_by(-off),
                 std::vector<Colour>(inks.size(), Colour{255, 255, 255}), paper, 1.0);
    draw_artwork(into, image.artwork, frame, inks, paper, tone);
    return;
  case Method::Sponged:
    draw_sponged(into, frame, image.size, inks.front());
    draw_artwork(into, image.artwork, frame, inks, paper, tone * 0.85);
    return;
  case Method::Masked: // its mask kept the place free of what was stamped around it
    draw_artwork(into, image.artwork, frame, std::vector<Colour>(inks.size(), paper), paper, 1.0);
    draw_artwork(into, image.artwork, frame, inks, paper, tone);
    return;
  case Method::Plain:
  case Method::SecondGeneration: break;
  }
  draw_artwork(into, image.artwork, frame, inks, paper, tone);
}

} // namespace

void draw_artwork(Items& into, const Artwork& artwork, const Frame& frame,
                  const std::vector<Colour>& inks, Colour paper, double tone) {
  if (inks.empty()) return;
  InkPen pen(into, frame, inks, paper, tone);
  for (const Art& art : artwork) pen.draw(art);
}

void draw_impression(Items& into, const Project& project, const Impression& impression,
                     const Frame& frame, Colour paper) {
  const StampImage* image = image_of(project, impression);
  if (image == nullptr) return;
  const std::vector<Colour> inks = colours_of(project, impression.inks);
  const std::size_t count = impression.places.size();
  for (std::size_t i = 0; i < count; ++i) {
    // Masked images: the first one stamped lies in front of all the others.
    const std::size_t number = impression.method == Method::Masked ? count - 1 - i : i;
    const Frame own =
        lying_on(frame, impression.places.at(number), image->size, impression.rotation);
    draw_once(into, *image, impression, own, inks, paper, strength(impression, number));
  }
}

std::vector<Rect> impression_boxes(const Project& project, const Impression& impression) {
  std::vector<Rect> boxes;
  if (const StampImage* image = image_of(project, impression))
    for (const Point place : impression.places) boxes.push_back({place, image->size});
  return boxes;
}

void draw_envelope_front(Items& into, Colour paper, Size size) {
  const Path body = rounded({{}, size}, micrometres(900));
  soft_shadow(into, body, 1);
  fill(into, body, paper);
  drawn_stroke(into, body, edge_colour(paper), points(0.4), 0.9);
}

void draw_envelope_inside(Items& into, Colour paper, Size size) {
  const Length w = size.width;
  const Length reach = size.height / 100 * 46;
  using Kind = Segment::Kind;
  const Length tip = micrometres(5000);
  const Path flap{{Kind::Move, {}, {}, {{}, {}}},
                  {Kind::Line, {}, {}, {w / 2 - tip, -reach + tip / 3}},
                  {Kind::Curve,
                   {w / 2 - tip / 3, -reach - tip / 6},
                   {w / 2 + tip / 3, -reach - tip / 6},
                   {w / 2 + tip, -reach + tip / 3}},
                  {Kind::Line, {}, {}, {w, {}}},
                  {Kind::Close, {}, {}, {}}};
  soft_shadow(into, flap, 0);
  fill(into, flap, mixed(paper, {60, 45, 30}, 0.05));
  drawn_stroke(into, flap, edge_colour(paper), points(0.4), 0.9);
  const Path body = rectangle({{}, size});
  soft_shadow(into, body, 1);
  fill(into, body, mixed(paper, {60, 45, 30}, 0.09));
  drawn_stroke(into, body, edge_colour(paper), points(0.4), 0.9);
}

void draw_envelope_pockets(Items& into, Colour paper, Size size) {
  const Length w = size.width;
  const Length h = size.height;
  const Length deep = h / 100 * 44;
  const Length middle = micrometres(4000);
  const Path pocket = polyline({{{}, micrometres(1500)},
                                {w / 2 - middle, deep},
                                {w / 2 + middle, deep},
                                {w, micrometres(1500)},
                                {w, h},
                                {{}, h}},
                               true);
  soft_shadow(into, moved(pocket, {{}, -micrometres(900)}), 0);
  fill(into, pocket, paper);
  drawn_stroke(into, pocket, edge_colour(paper), points(0.4), 0.9);
  for (const bool left : {true, false})
    drawn_stroke(into,
                 segment({left ? Length{} : w, h}, {left ? w / 2 - middle : w / 2 + middle, deep}),
                 edge_colour(paper), points(0.35), 0.6);
}

} // namespace leafwright::figure
