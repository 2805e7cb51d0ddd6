#include "pdf_bench.h"

#include <hpdf.h>

#include <array>

namespace leafwright::bench {
namespace {

HPDF_REAL pt(Length a) { return static_cast<HPDF_REAL>(in_points(a)); }

void trace(HPDF_Page page, const Path& path, Length height) {
  for (const Segment& segment : path) {
    const HPDF_REAL x = pt(segment.end.x), y = pt(height - segment.end.y);
    switch (segment.kind) {
    case Segment::Kind::Move: HPDF_Page_MoveTo(page, x, y); break;
    case Segment::Kind::Line: HPDF_Page_LineTo(page, x, y); break;
    case Segment::Kind::Curve:
      HPDF_Page_CurveTo(page, pt(segment.control1.x), pt(height - segment.control1.y),
                        pt(segment.control2.x), pt(height - segment.control2.y), x, y);
      break;
    case Segment::Kind::Close: HPDF_Page_ClosePath(page); break;
    }
  }
}

} // namespace

std::string write_floor(const page::Laid& laid, const std::string& font_folder) {
  HPDF_Doc document = HPDF_New(nullptr, nullptr);
  HPDF_SetCompressionMode(document, HPDF_COMP_ALL);
  constexpr std::array files{"Lato-Regular.ttf",      "Lato-Bold.ttf",
                             "Lato-Italic.ttf",       "Lato-BoldItalic.ttf",
                             "Vollkorn-SemiBold.ttf", "Vollkorn-SemiBoldItalic.ttf"};
  std::array<HPDF_Font, files.size()> fonts{};
  for (const page::LaidPage& laid_page : laid.pages) {
    HPDF_Page page = HPDF_AddPage(document);
    HPDF_Page_SetWidth(page, pt(laid_page.size.width));
    HPDF_Page_SetHeight(page, pt(laid_page.size.height));
    for (const DrawItem& item : laid_page.items) {
      if (const auto* fill = std::get_if<Fill>(&item)) {
        HPDF_Page_SetRGBFill(page, static_cast<HPDF_REAL>(fill->colour.red) / 255,
                             static_cast<HPDF_REAL>(fill->colour.green) / 255,
                             static_cast<HPDF_REAL>(fill->colour.blue) / 255);
        trace(page, fill->path, laid_page.size.height);
        HPDF_Page_Eofill(page);
      } else if (const auto* stroke = std::get_if<Stroke>(&item)) {
        HPDF_Page_SetLineWidth(page, pt(stroke->width));
        trace(page, stroke->path, laid_page.size.height);
        HPDF_Page_Stroke(page);
      } else if (const auto* run = std::get_if<TextRun>(&item)) {
        auto& font = fonts.at(static_cast<std::size_t>(run->shaped.face));
        if (font == nullptr) {
          const std::string file =
              font_folder + "/" + files.at(static_cast<std::size_t>(run->shaped.face));
          font = HPDF_GetFont(document, HPDF_LoadTTFontFromFile(document, file.c_str(), HPDF_TRUE),
                              "WinAnsiEncoding");
        }
        HPDF_Page_BeginText(page);
        HPDF_Page_SetFontAndSize(page, font, pt(run->shaped.size));
        HPDF_Page_TextOut(page, pt(run->baseline.x), pt(laid_page.size.height - run->baseline.y),
                          run->shaped.text.c_str());
        HPDF_Page_EndText(page);
      }
    }
  }
  HPDF_SaveToStream(document);
  HPDF_ResetStream(document);
  std::string bytes(HPDF_GetStreamSize(document), '\0');
  auto size = static_cast<HPDF_UINT32>(bytes.size());
  HPDF_ReadFromStream(document, reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
  HPDF_Free(document);
  return bytes;
}

} // namespace leafwright::bench
