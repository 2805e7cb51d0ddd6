#include "plan/supply/sheets.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

using namespace leafwright;

namespace {

// What so many sheets of an offer cost, in thousandths; without prices, their area.
std::int64_t cost_of(const Stock& stock, int offer, std::int64_t sheets) {
  const SheetOffer& sheet = stock.sheets.at(static_cast<std::size_t>(offer));
  if (stock.sheets.size() == 1 || !sheet.sold.price) return sheets;
  return sheet.sold.price->minor * 1000 / std::max(1, sheet.sold.count) * sheets;
}

} // namespace

TEST_CASE("a run never takes more paper than its kits one by one") {
  for (const std::string sample : {"five-minute", "orchard-gate", "kelp-lantern"}) {
    CAPTURE(sample);
    Reading reading = read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + sample +
                                        "/project.xml");
    REQUIRE(reading.ok());
    Project& project = reading.project;
    project.run.in_hand.clear();
    project.run.spare_percent = project.run.spare_pieces = 0;
    Tier all;
    all.parts_cut = true;
    all.includes.push_back({});
    all.includes.back().item.kind = ItemKind::Parts;
    project.tiers = {all};
    const supply::CuttingPlan one = supply::fewest_sheets_for(project);
    for (const int kits : {1, 2, 3, 7, 19}) {
      CAPTURE(kits);
      const std::vector<int> of_tier{kits};
      const supply::CuttingPlan run = supply::sheets_for_run(project, of_tier, {});
      for (const supply::StockSheets& stock : run.stocks) {
        const Stock& paper = project.stocks.at(static_cast<std::size_t>(stock.stock));
        CAPTURE(paper.id);
        std::int64_t kit_cost = 0, run_cost = 0;
        for (const supply::StockSheets& kit : one.stocks)
          if (kit.stock == stock.stock)
            for (const supply::SheetLayout& layout : kit.layouts)
              kit_cost += cost_of(paper, layout.offer, layout.times);
        for (const supply::StockSheets::OfSize& sheets : stock.by_size)
          run_cost += cost_of(paper, sheets.offer, sheets.count);
        CHECK(run_cost <= kit_cost * kits);
      }
    }
  }
}
