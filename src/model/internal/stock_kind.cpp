#include "model/stock_kind.h"

#include <array>

namespace leafwright {

namespace {

using enum Stock::Kind;

constexpr std::array stock_table{
    StockRow{Cardstock, "cardstock", "", false, false, false},
    StockRow{Patterned, "patterned paper", "", false, false, false},
    StockRow{Vellum, "vellum", "", true, false, false},
    StockRow{Clear, "acetate", "", true, true, false},
    StockRow{AdhesiveSheet, "adhesive sheet", "", false, false, false},
    StockRow{Foil, "foil paper", "", false, true, false},
    StockRow{Glitter, "glitter paper",
             "It sheds. Work over a sheet of paper, and keep your fingers away from your eyes.",
             false, false, false},
    StockRow{Mirror, "mirror cardstock",
             "Cut edges are sharp. Leave its film on until the card is done.", false, true, false},
    StockRow{Fabric, "fabric", "", false, false, false},
    StockRow{Chipboard, "chipboard",
             "Cut it in several light passes. A blade that is forced through slips.", false, false,
             false},
    StockRow{Watercolour, "watercolor paper", "", false, false, true},
    StockRow{Magnet, "magnet sheet",
             "Keep magnets away from small children, pacemakers, phones and bank cards.", false,
             true, false},
};

constexpr bool stocks_in_order() {
  for (std::size_t i = 0; i < stock_table.size(); ++i)
    if (stock_table[i].kind != static_cast<Stock::Kind>(i)) return false;
  return true;
}
static_assert(stocks_in_order());

using enum Severity;

constexpr std::array unborne_table{
    Unborne{Clear, Work::Heat, Warning, "acetate warps and melts in hot air",
            "heat emboss the paper behind it, or take heat-resistant acetate and accept this"},
    Unborne{Clear, Work::Score, Note, "acetate turns white and may crack along a score",
            "fold a strip for trial first, or leave the fold out"},
    Unborne{Clear, Work::Ink, Warning, "ink from a sponge wipes off acetate",
            "ink the paper behind it"},
    Unborne{Vellum, Work::Heat, Note, "vellum curls in hot air",
            "hold the tool farther away and keep it moving"},
    Unborne{Vellum, Work::Wash, Warning, "vellum buckles when it is wet",
            "wash the paper behind it"},
    Unborne{Foil, Work::Heat, Warning, "foil paper blisters in hot air",
            "heat emboss another paper and layer it"},
    Unborne{Foil, Work::Score, Note, "foil cracks along a score",
            "score it from the back, or keep it off the fold"},
    Unborne{Glitter, Work::Stamp, Warning, "ink does not reach into glitter",
            "stamp another paper and layer it"},
    Unborne{Glitter, Work::Emboss, Warning, "glitter paper cracks in a folder",
            "emboss another paper"},
    Unborne{Glitter, Work::Score, Warning, "glitter flakes off along a score",
            "keep it off the fold"},
    Unborne{Glitter, Work::Heat, Warning, "the binder of glitter softens in hot air",
            "heat emboss another paper and layer it"},
    Unborne{Mirror, Work::Heat, Warning, "the film of mirror cardstock blisters in hot air",
            "heat emboss another paper and layer it"},
    Unborne{Mirror, Work::Score, Note, "mirror cardstock cracks along a score",
            "score it from the back, or keep it off the fold"},
    Unborne{Fabric, Work::Score, Warning, "fabric takes no score", "press it with an iron"},
    Unborne{Fabric, Work::Trim, Note, "fabric slips under a paper trimmer and frays",
            "back it with adhesive sheet first, and trim both together"},
    Unborne{Fabric, Work::Emboss, Warning, "fabric does not hold the pattern of a folder",
            "emboss paper"},
    Unborne{Chipboard, Work::Score, Warning, "chipboard breaks along a score",
            "cut it and join the parts with a strip of paper"},
    Unborne{Chipboard, Work::Emboss, Warning, "chipboard is too thick for a folder",
            "emboss paper and glue it onto the chipboard"},
    Unborne{Magnet, Work::Score, Warning, "magnet sheet breaks along a score",
            "keep it off the fold"},
    Unborne{Magnet, Work::Stamp, Warning, "ink wipes off magnet sheet",
            "stamp paper and glue it onto the sheet"},
    Unborne{Magnet, Work::Heat, Warning, "heat weakens and warps magnet sheet",
            "heat emboss paper and glue it on when it is cool"},
    Unborne{Magnet, Work::Emboss, Warning, "magnet sheet does not go through a folder",
            "emboss paper"},
};

} // namespace

std::span<const StockRow> stock_rows() { return stock_table; }
const StockRow& stock_row(Stock::Kind kind) {
  return stock_table.at(static_cast<std::size_t>(kind));
}

std::span<const Unborne> unborne() { return unborne_table; }

} // namespace leafwright
