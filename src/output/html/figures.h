#pragma once

#include "guide/block.h"
#include "output/svg/svg.h"
#include "page/context.h"

#include <map>
#include <span>
#include <string>

namespace leafwright::html {

// Drawings of one page: composed once for all screens, so that even a phone, which shows the
// widest ones smaller, can show their words. A printed millimetre is 0.3 rem: lettering of 7.5 pt
// is then as large as a caption.
class Figures {
 public:
  Figures(const guide::Document& document, const page::Template& look,
          const page::LayoutInput& input, const text::Fonts& fonts,
          std::span<const Picture> pictures, bool grey);

  // An <svg> that is an image with its alternative text. `scale` 0 = as large as the room allows,
  // or the scale of its group.
  std::string svg(const figure::Scene& scene, Size room, double scale = 0);
  double fitting(const figure::Scene& scene, Size room) { return cache_.fitting(scene, room); }
  // At true size on paper; on its side where only so it fits `sheet`, and empty where it does not.
  std::string true_size(const figure::Scene& scene, Size sheet);
  std::string photograph(int picture, const std::string& words);

  // The room that a drawing gets beside or below words.
  static Size room_of(const guide::Figure& figure);

  std::string definitions() const { return parts_.definitions(); }
  const std::optional<Misread>& failed() const { return parts_.failed(); }
  Findings take_findings() { return std::move(findings_); }

  Place place{}; // of the block being written

 private:
  void note_scales(std::span<const guide::Block> blocks);
  std::string element(const Drawing& drawing, const std::string& alternative,
                      const std::string& width);
  void tell(Severity severity, std::string code, std::string found, std::string expected,
            std::string mend);

  std::span<const Picture> pictures_;
  page::FigureCache cache_;
  svg::SvgParts parts_;
  bool grey_;
  std::map<std::string, double, std::less<>> group_scales_;
  Findings findings_;
};

} // namespace leafwright::html
