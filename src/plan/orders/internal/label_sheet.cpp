#include "plan/orders/label_sheet.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::orders {

LabelSheet label_sheet_of(const Project& project) {
  if (project.run.labels) return *project.run.labels;
  LabelSheet sheet;
  if (project.paper == "a4") {
    sheet.paper_name = "A4";
    sheet.paper = {millimetres(210), millimetres(297)};
    sheet.label = {millimetres(127) / 2, millimetres(381) / 10};
    sheet.columns = 3;
    sheet.rows = 7;
    sheet.left = millimetres(29) / 4;
    sheet.top = millimetres(303) / 20;
    sheet.gap_across = millimetres(5) / 2;
    return sheet;
  }
  sheet.paper_name = "letter";
  sheet.paper = {inches(8, 1, 2), inches(11)};
  sheet.label = {inches(2, 5, 8), inches(1)};
  sheet.columns = 3;
  sheet.rows = 10;
  sheet.left = inches(0, 3, 16);
  sheet.top = inches(0, 1, 2);
  sheet.gap_across = inches(0, 1, 8);
  return sheet;
}

Rect label_box(const LabelSheet& sheet, int index) {
  const int columns = std::max(sheet.columns, 1);
  const int column = index % columns, row = index / columns;
  return {{sheet.left + (sheet.label.width + sheet.gap_across) * column,
           sheet.top + (sheet.label.height + sheet.gap_down) * row},
          sheet.label};
}

Findings check_label_sheet(const Project& project, const LabelSheet& sheet) {
  const Rect last = label_box(sheet, sheet.columns * sheet.rows - 1);
  const Length right = last.origin.x + last.size.width, bottom = last.origin.y + last.size.height;
  const auto text = [&](Length length) { return length_text(length, project.printing); };
  const auto off = [&](std::string found, Length reaches, Length room, std::string_view fix) {
    return Finding{Severity::Error,
                   "label-off-sheet",
                   sheet.place.line > 0 ? sheet.place : project.run.place,
                   fmt::format("{} come to {}", found, text(reaches)),
                   fmt::format("at most the paper's {}", text(room)),
                   std::string(fix),
                   {}};
  };
  Findings findings;
  if (right > sheet.paper.width)
    findings.push_back(off(fmt::format("{} labels across", sheet.columns), right, sheet.paper.width,
                           "measure size, left and gap-across again, or take fewer columns"));
  if (bottom > sheet.paper.height)
    findings.push_back(off(fmt::format("{} labels down", sheet.rows), bottom, sheet.paper.height,
                           "measure size, top and gap-down again, or take fewer rows"));
  return findings;
}

} // namespace leafwright::orders
