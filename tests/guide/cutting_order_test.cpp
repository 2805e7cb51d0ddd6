#include "guide/prose.h"
#include "guide/sections.h"
#include "workbench.h"

#include <doctest/doctest.h>

using namespace leafwright;

namespace {

struct Sheet {
  Project project = workbench::project();
  supply::CuttingPlan plan;
  supply::SheetLayout layout;
  explicit Sheet(Size size) { layout.sheet = size; }
  void piece_of(const std::string& letter) {
    supply::CutPiece piece;
    piece.letters = letter;
    plan.pieces.push_back(piece);
  }
  void piece(int line_index) { layout.pieces.push_back({line_index, {}, false}); }
  void move(bool across, Rect from, Length at, std::vector<int> gives) {
    layout.moves.push_back(
        {static_cast<int>(layout.moves.size()) + 1, across, from, at, std::move(gives)});
  }
  std::vector<std::string> told(std::int64_t stack = 10) {
    supply::order_cuts(layout, stack);
    std::vector<std::string> out;
    for (const guide::Inlines& item : guide::cutting_order(project, plan, layout).items) {
      std::string text = guide::spoken(item);
      for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
        text.replace(at, 2, " ");
      out.push_back(text);
    }
    return out;
  }
};

Rect rect(int x, int y, int w, int h) { return {{inches(x), inches(y)}, {inches(w), inches(h)}}; }

} // namespace

TEST_CASE("passes at one setting of the fence are told as one") {
  Sheet sheet({inches(8), inches(11)});
  sheet.piece_of("A");
  for (int i = 0; i < 3; ++i) sheet.piece(0);
  sheet.move(true, rect(0, 0, 8, 11), inches(3), {0});
  sheet.move(true, rect(0, 3, 8, 8), inches(3), {1});
  sheet.move(true, rect(0, 6, 8, 5), inches(3), {2});
  CHECK(sheet.told() == std::vector<std::string>{
                            "Set the trimmer to 3 in from the top edge: three cuts give 3 (A)."});
}

TEST_CASE("strips that are cut alike go under the blade together") {
  Sheet sheet({inches(8), inches(11)});
  sheet.piece_of("A");
  sheet.piece_of("B");
  for (int i = 0; i < 4; ++i) sheet.piece(i % 2);
  sheet.move(false, rect(0, 0, 8, 11), inches(4), {});
  sheet.move(true, rect(0, 0, 4, 11), inches(5), {0, 1});
  sheet.move(true, rect(4, 0, 4, 11), inches(5), {2, 3});
  const std::vector<std::string> told = sheet.told();
  REQUIRE(told.size() == 2);
  CHECK(told[0] == "Set the trimmer to 4 in from the left edge: one cut, one strip.");
  CHECK(told[1] == "Take the strip and the part left from cut 1, 4 × 11 in, all in one stack; "
                   "turn. Set the trimmer to "
                   "5 in from the top edge: one cut through the stack gives 2 (A) and 2 (B).");
}

TEST_CASE("a strip that is not yet free is not told before it is") {
  Sheet sheet({inches(9), inches(11)});
  sheet.piece_of("A");
  for (int i = 0; i < 2; ++i) sheet.piece(0);
  sheet.move(false, rect(0, 0, 9, 11), inches(4), {});
  sheet.move(true, rect(0, 0, 4, 11), inches(2), {});
  sheet.move(false, rect(0, 0, 4, 2), inches(1), {0});
  sheet.move(true, rect(4, 0, 5, 11), inches(3), {});
  sheet.move(false, rect(4, 0, 5, 3), inches(4), {});
  sheet.move(true, rect(4, 0, 4, 3), inches(2), {});
  sheet.move(false, rect(4, 0, 4, 2), inches(1), {1});
  const std::vector<std::string> told = sheet.told();
  // The right 4 × 2 in strip lies two turns deeper than the left one.
  REQUIRE(told.size() == 7);
  CHECK(told[3].find("4 × 2 in") != std::string::npos);
  CHECK(told[6].find("4 × 2 in") != std::string::npos);
}
