#include "read/internal/elements.h"
#include "support.h"

using namespace leafwright;
using namespace leafwright::test;

namespace {

// A panel 2 x 1 on the front, 4 1/4 x 5 1/2.
Point placed(std::string_view at) {
  const Reading reading =
      read_text(project_with("<ribbon of=\"grosgrain\" at=\"4 from top\"/>"
                             "<panel id=\"p\" stock=\"kraft\" size=\"2 x 1\" at=\"" +
                             std::string(at) + "\"/>"));
  CHECK(all_text(reading) == "");
  return piece(reading, "p").at;
}

} // namespace

TEST_CASE("a position is said as one would say it") {
  const Length middle_x = inches(1, 1, 8), middle_y = inches(2, 1, 4);
  struct Row {
    std::string_view at;
    Point meant;
  };
  for (const Row& row : {
           Row{"centre", {middle_x, middle_y}},
           Row{"centre, 3/8 from top", {middle_x, inches(0, 3, 8)}},
           Row{"3/8 from the top", {middle_x, inches(0, 3, 8)}},
           Row{"1/4 from left, 1/2 from bottom", {inches(0, 1, 4), inches(4)}},
           Row{"1/4 from right", {inches(2), middle_y}},
           Row{"top", {middle_x, {}}},
           Row{"top left", {{}, {}}},
           Row{"right, bottom", {inches(2, 1, 4), inches(4, 1, 2)}},
           Row{"1/8 right, 1/4 up", {inches(1, 1, 4), inches(2)}},
           Row{"1/8 left, 1/4 down", {inches(1), inches(2, 1, 2)}},
           Row{"centre, over ribbon", {middle_x, inches(3, 1, 2)}},
           Row{"over ribbon, 0 from left", {{}, inches(3, 1, 2)}},
           Row{"half(front.width) - p.width / 2 from left", {middle_x, middle_y}},
       }) {
    CAPTURE(row.at);
    CHECK(placed(row.at) == row.meant);
  }
}

TEST_CASE("a position that contradicts itself or cannot be read is a finding") {
  for (const char* at : {"3/8 from tpo", "left, right", "left right", "3/8", "from top", "over", "",
                         "centre,, top", "1/8 up, top", "over ribbon, over p"}) {
    CAPTURE(at);
    const Reading reading = read_text(project_with(
        "<panel id=\"p\" stock=\"kraft\" size=\"2 x 1\" at=\"" + std::string(at) + "\"/>"));
    CHECK(has_code(reading, "read-position"));
  }
}

TEST_CASE("over names a thing on another carrier and still means its middle") {
  const Reading reading = read_text(
      project_with("<panel id=\"mat\" stock=\"kraft\" inset=\"1/4\"/>"
                   "<panel id=\"a\" stock=\"kraft\" on=\"mat\" size=\"1 x 1\" at=\"top left\"/>"
                   "<panel id=\"b\" stock=\"kraft\" size=\"2 x 2\" at=\"over a\"/>"));
  REQUIRE(reading.ok());
  CHECK(piece(reading, "b").at == Point{inches(-1, 3, 4), inches(-1, 3, 4)});
}

TEST_CASE("images in a row have the same space between them and at both ends") {
  using reading::spread;
  CHECK(spread(inches(4), inches(1), 3, std::nullopt) ==
        std::vector<Length>{inches(0, 1, 4), inches(1, 1, 2), inches(2, 3, 4)});
  CHECK(spread(inches(4), inches(1), 2, inches(0, 1, 2)) ==
        std::vector<Length>{inches(0, 1, 2), inches(2, 1, 2)});
  // Too many to lie side by side: they overlap evenly from edge to edge.
  CHECK(spread(inches(3), inches(2), 2, std::nullopt) == std::vector<Length>{inches(0), inches(1)});
}

TEST_CASE("every image of a row, a grid or a scatter stays on its panel") {
  for (const char* how : {"times=\"3\"", "columns=\"3\" rows=\"2\"", "times=\"9\" at=\"scatter\"",
                          "times=\"2\" at=\"column\"", "times=\"3\" at=\"row, 1/8 from left\""}) {
    CAPTURE(how);
    const Reading reading = read_text(project_with(
        "<panel id=\"p\" stock=\"kraft\" size=\"4 x 5\"><stamp image=\"tree\" ink=\"moss\" " +
        std::string(how) + "/></panel>"));
    CHECK(all_text(reading) == "");
    const Impression& impression = piece(reading, "p").stamped.at(0);
    CHECK(impression.places.size() == static_cast<std::size_t>(impression.times));
    for (const Point at : impression.places)
      CHECK(Rect{{}, {inches(4), inches(5)}}.contains({at, {inches(1), inches(1, 1, 2)}}));
  }
}
