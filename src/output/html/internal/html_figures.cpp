#include "output/html/internal/html_writer.h"

#include "measure/index.h"
#include "output/pictures.h"
#include "page/context.h"
#include "page/flow.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

namespace leafwright::html {
namespace {

constexpr double rem_per_mm = 0.3;

figure::Look look_of(const page::Template& page_look, Colour accent) {
  figure::Look look;
  look.accent = accent;
  look.ink = mixed(page_look.colour("ink"), accent);
  look.quiet = mixed(page_look.colour("quiet"), accent);
  look.ground = mixed(page_look.colour("ground"), accent);
  return look;
}

std::string in_rem(Length width) {
  std::string out;
  svg::append_real(out, in_mm(width) * rem_per_mm, 2);
  return out + "rem";
}

std::string mm(Length a) {
  std::string out;
  svg::append_mm(out, svg::rounded(a, 10'000));
  return out;
}

} // namespace

Figures::Figures(const guide::Document& document, const page::Template& look,
                 const page::LayoutInput& input, const text::Fonts& fonts,
                 std::span<const Picture> pictures, bool grey)
    : pictures_(pictures), cache_(look_of(look, input.accent), fonts), parts_(fonts, pictures),
      printing_(input.printing), grey_(grey) {
  for (const guide::Section& section : document.sections) note_scales(section.blocks);
}

Size Figures::room_of(const guide::Figure& figure) {
  using enum guide::Figure::Width;
  switch (figure.width) {
  case Narrow: return {millimetres(44), millimetres(60)};
  case Half: break;
  case Full: return {millimetres(112), millimetres(120)};
  }
  // Sheets of paper hold many names.
  return page::is_sheet(figure.scene) ? Size{millimetres(82), millimetres(110)}
                                      : Size{millimetres(66), millimetres(84)};
}

// Figures of one group and one size share the smallest of their scales, as in the PDF.
void Figures::note_scales(std::span<const guide::Block> blocks) {
  const auto note = [this](const guide::Figure& figure) {
    if (figure.scene.scale_group.empty()) return;
    const double fits = cache_.fitting(figure.scene, room_of(figure));
    const auto [entry, fresh] = group_scales_.emplace(page::scale_group_of(figure.scene), fits);
    if (!fresh) entry->second = std::min(entry->second, fits);
  };
  for (const guide::Block& block : blocks)
    std::visit(
        [&](const auto& what) {
          using What = std::decay_t<decltype(what)>;
          if constexpr (std::is_same_v<What, guide::Figure>) {
            note(what);
          } else if constexpr (std::is_same_v<What, guide::Beside>) {
            note(what.figure);
            note_scales(what.blocks);
          }
          // Rows of figures and steps settle their own common scale.
        },
        block.what);
}

void Figures::tell(Severity severity, std::string code, std::string found, std::string expected,
                   std::string fix) {
  findings_.push_back({severity,
                       std::move(code),
                       place,
                       std::move(found),
                       std::move(expected),
                       std::move(fix),
                       {}});
}

std::string Figures::element(const Drawing& drawing, const std::string& alternative,
                             const std::string& width) {
  Drawing shown = drawing;
  if (grey_) page::make_grey(shown.items);
  return fmt::format("<svg role=\"img\" aria-label=\"{}\" viewBox=\"0 0 {} {}\" "
                     "style=\"width:{}\" stroke-miterlimit=\"10\">\n{}</svg>",
                     text::xml_text(alternative), mm(shown.size.width), mm(shown.size.height),
                     width, parts_.draw(shown));
}

std::string Figures::svg(const figure::Scene& scene, Size room, double scale) {
  if (scale <= 0) {
    const auto group = scene.scale_group.empty() ? group_scales_.end()
                                                 : group_scales_.find(page::scale_group_of(scene));
    scale = cache_.fitting(scene, room);
    if (group != group_scales_.end()) scale = std::min(scale, group->second);
  }
  const page::Drawn& drawn = cache_.composed(scene, room, scale);
  if (drawn.crowded)
    tell(Severity::Warning, "page-crowded",
         fmt::format("no room for every label of the drawing “{}” on the web page",
                     scene.alternative),
         "a drawing whose labels all find a place", "give it fewer labels");
  return element(*drawn.drawing, scene.alternative, in_rem(drawn.drawing->size.width));
}

std::string Figures::true_size(const figure::Scene& scene, Size sheet) {
  const page::Drawn& upright = cache_.composed(scene, sheet, 1.0);
  if (!upright.crowded && fits(upright.drawing->size, sheet))
    return element(*upright.drawing, scene.alternative, mm(upright.drawing->size.width) + "mm");
  const page::Drawn& wide = cache_.composed(scene, sheet.turned(), 1.0);
  if (fits(wide.drawing->size, sheet.turned())) {
    const Drawing turned = page::turned_drawing(*wide.drawing, degrees(90));
    return element(turned, scene.alternative, mm(turned.size.width) + "mm");
  }
  if (fits(upright.drawing->size, sheet))
    return element(*upright.drawing, scene.alternative, mm(upright.drawing->size.width) + "mm");
  const Size size = upright.drawing->size;
  tell(Severity::Note, "page-too-large",
       fmt::format("“{}” is {} at full size", scene.alternative, size_text(size, printing_)),
       fmt::format("at most {} on a page printed from a browser", size_text(sheet, printing_)),
       "print it from the PDF");
  return {};
}

std::string Figures::photograph(int picture, const std::string& words) {
  if (picture < 0 || as_index(picture) >= pictures_.size()) return {};
  const Picture& known = pictures_[as_index(picture)];
  if (known.width_px <= 0 || known.height_px <= 0) return {};
  const Length width = millimetres(66);
  Drawing drawing{{width, width * known.height_px / known.width_px}, {}};
  drawing.items.emplace_back(Image{picture, {{}, drawing.size}, {}});
  return element(drawing, words, in_rem(width));
}

} // namespace leafwright::html
