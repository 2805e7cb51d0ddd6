#include "read/document.h"
#include "support.h"

#include <array>

using namespace leafwright;
using reading::nearest_name;

TEST_CASE("a slip of the pen finds the name that was meant") {
  constexpr std::array<std::string_view, 5> names{"mat", "scene", "left-leaf", "rust-grosgrain",
                                                  "ink"};
  struct Row {
    std::string_view written;
    std::string_view meant;
  };
  for (const Row& row :
       {Row{"mta", "mat"}, Row{"mats", "mat"}, Row{"Mat", "mat"}, Row{"scen", "scene"},
        Row{"leftleaf", "left-leaf"}, Row{"left_leef", "left-leaf"},
        Row{"rust-grossgrain", "rust-grosgrain"}, Row{"zebra", ""}, Row{"", ""}, Row{"x", ""}}) {
    CAPTURE(row.written);
    CHECK(nearest_name(row.written, names) == row.meant);
  }
}

TEST_CASE("names longer than anyone writes are not compared") {
  const std::string endless(100'000, 'a');
  const std::array<std::string_view, 1> names{endless};
  CHECK(nearest_name(endless, names).empty());
}

TEST_CASE("with nothing near, the first names are offered") {
  constexpr std::array<std::string_view, 2> names{"mat", "scene"};
  CHECK(reading::did_you_mean("zebra", names) == "choose one of: mat, scene");
  CHECK(reading::did_you_mean("mta", names) == "did you mean mat?");
  CHECK(reading::did_you_mean("mta", {}) == "there is none to choose from");
}
