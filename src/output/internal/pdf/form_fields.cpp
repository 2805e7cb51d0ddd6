#include "output/internal/pdf/form_fields.h"

#include "measure/index.h"
#include "output/internal/pdf/syntax.h"

#include <fmt/format.h>

namespace leafwright::pdf {

namespace {

using FieldKind = page::FormField::Kind;

// What is drawn of a field; an empty one draws nothing.
Ref appearance(Haru& haru, Size size, const std::string& operators) {
  std::string box = "/Type/XObject/Subtype/Form/BBox";
  append_box(box, {{}, size}, size.height);
  return haru.add_stream(std::move(box), operators);
}

// A cross from corner to corner, a little inside.
std::string cross(Size size) {
  std::string left, right, bottom, top;
  append_points(left, size.width / 5);
  append_points(right, size.width * 4 / 5);
  append_points(bottom, size.height / 5);
  append_points(top, size.height * 4 / 5);
  return fmt::format("q 1.2 w {0} {2} m {1} {3} l {0} {3} m {1} {2} l S Q", left, right, bottom,
                     top);
}

std::string kind_entries(Haru& haru, const page::FormField& field) {
  if (field.kind == FieldKind::Tick)
    return fmt::format("/FT/Btn/V/Off/AS/Off/AP<</N<</Yes {}/Off {}>>>>",
                       ref_text(appearance(haru, field.box.size, cross(field.box.size))),
                       ref_text(appearance(haru, field.box.size, "")));
  constexpr int many_lines = 1 << 12; // Ff, bit 13
  return fmt::format("/FT/Tx{}/DA(/Helv 10 Tf 0 g)/AP<</N {}>>",
                     field.kind == FieldKind::Lines ? fmt::format("/Ff {}", many_lines) : "",
                     ref_text(appearance(haru, field.box.size, "/Tx BMC EMC")));
}

} // namespace

AddedFields add_fields(Haru& haru, const page::Laid& laid, std::span<const Ref> pages,
                       std::size_t before) {
  AddedFields added;
  std::string all;
  for (const page::FormField& field : laid.fields) {
    const std::size_t page = as_index(field.page);
    if (page >= pages.size()) continue;
    std::string out = "/Type/Annot/Subtype/Widget/F 4/Rect";
    append_box(out, field.box, laid.pages[page].size.height);
    out += "/P " + ref_text(pages[page]) + "/T" + text_string(field.name) + "/TU" +
           text_string(field.tooltip) + kind_entries(haru, field);
    if (!laid.nodes.empty() && field.node >= 0)
      out += fmt::format("/StructParent {}", pages.size() + before + added.widgets.size());
    added.widgets.push_back({haru.add(std::move(out)), field.page, field.node, 0});
    all += ref_text(added.widgets.back().annotation) + " ";
  }
  if (all.empty()) return added;
  // What is typed is set by the reader's program, which has this face of its own (9.6.2.2).
  const Ref font = haru.add("/Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding");
  added.catalogue = fmt::format(
      "/AcroForm<</Fields[{}]/DA(/Helv 10 Tf 0 g)/DR<</Font<</Helv {}>>>>>>", all, ref_text(font));
  return added;
}

} // namespace leafwright::pdf
