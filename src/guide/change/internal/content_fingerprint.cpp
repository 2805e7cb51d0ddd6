#include "guide/change/internal/content_fingerprint.h"

#include "guide/block.h"

#include <fmt/format.h>

#include <iterator>
#include <type_traits>
#include <utility>

namespace leafwright::guide {

namespace {

class Printer {
 public:
  explicit Printer(bool in_colour = true) : in_colour_(in_colour) {}
  std::string take() { return std::move(out_); }

  void scene(const figure::Scene& scene) {
    rect(scene.box);
    for (const figure::SceneItem& item : scene.items)
      std::visit([this](const auto& what) { show(what); }, item);
    for (const figure::Dimension& one : scene.dimensions) {
      point(one.from);
      point(one.to);
      say("{};", one.words);
    }
    for (const figure::Badge& one : scene.badges) {
      point(one.at);
      say("{};", one.letter);
    }
    for (const figure::Label& one : scene.labels) {
      rect(one.within);
      say("{} ", one.letter);
      for (const std::string& line : one.lines) say("{};", line);
    }
    say("{}", scene.alternative);
  }

 private:
  template <class... T>
  void say(fmt::format_string<T...> format, T&&... values) {
    fmt::format_to(std::back_inserter(out_), format, std::forward<T>(values)...);
  }
  void point(Point p) { say("{},{} ", p.x.nm, p.y.nm); }
  void rect(Rect box) {
    point(box.origin);
    say("{}x{} ", box.size.width.nm, box.size.height.nm);
  }
  void colour(Colour c) {
    if (in_colour_) say("#{:02x}{:02x}{:02x} ", c.red, c.green, c.blue);
  }
  void path(const Path& path) {
    for (const Segment& one : path) {
      say("{} ", static_cast<int>(one.kind));
      if (one.kind == Segment::Kind::Curve) {
        point(one.control1);
        point(one.control2);
      }
      if (one.kind != Segment::Kind::Close) point(one.end);
    }
  }
  void show(const figure::SceneFill& one) {
    path(one.path);
    colour(one.colour);
    say("{};", one.opacity);
  }
  void show(const figure::SceneStroke& one) {
    path(one.path);
    colour(one.colour);
    say("{} {} {};", one.width.nm, one.dash.size(), one.opacity);
  }
  void show(const figure::SceneText& one) {
    point(one.centre);
    colour(one.colour);
    say("{} {} {};", one.text, one.height.nm, one.turned.udeg);
  }
  void show(const figure::SceneImage& one) {
    rect(one.box);
    say("{} {};", one.picture, one.turned.udeg);
  }
  void show(const figure::SceneClip& one) { path(one.path); }
  void show(const figure::SceneUnclip&) { say("unclip;"); }
  void show(const figure::SceneMark& one) {
    rect(one.box);
    say("{} {};", one.kind, one.id);
  }

  std::string out_;
  bool in_colour_ = true;
};

} // namespace

std::string fingerprint(const figure::Scene& scene) {
  Printer printer;
  printer.scene(scene);
  return printer.take();
}

std::string fingerprint(const Block& block) {
  Section section;
  section.blocks.push_back(block);
  std::string text = dump(section);
  const auto add = [&](const figure::Scene& scene) { text += "\n" + fingerprint(scene); };
  std::visit(
      [&](const auto& what) {
        using What = std::decay_t<decltype(what)>;
        if constexpr (std::is_same_v<What, Figure> || std::is_same_v<What, FullSize>) {
          add(what.scene);
        } else if constexpr (std::is_same_v<What, FigureRow>) {
          for (const Figure& one : what.figures) add(one.scene);
        } else if constexpr (std::is_same_v<What, Beside>) {
          add(what.figure.scene);
          for (const Block& one : what.blocks) text += fingerprint(one);
        } else if constexpr (std::is_same_v<What, Cover>) {
          for (const figure::Scene& one : what.cards) add(one);
        } else if constexpr (std::is_same_v<What, Steps>) {
          for (const Step& one : what.steps)
            if (one.figure) add(one.figure->scene);
        }
      },
      block.what);
  return text;
}

std::string shape_fingerprint(const figure::Scene& scene) {
  figure::Scene lines = scene;
  lines.alternative.clear();
  Printer printer(false);
  printer.scene(lines);
  return printer.take();
}

} // namespace leafwright::guide
