#include "../measure/show.h"

#include "model/form.h"
#include "model/sticking.h"

#include <doctest/doctest.h>

using namespace leafwright;

namespace {

struct Stuck {
  Project project;
  Card card;
  Piece piece;

  explicit Stuck(Attach::Where where, Form::Kind form = Form::Kind::TopFold) {
    Adhesive tape;
    tape.piece.width = millimetres(8);
    project.adhesives.push_back(tape);
    card.form.kind = form;
    card.finished = {millimetres(105), millimetres(148)};
    card.plan = plan_of(card.form, card.finished);
    piece.size = {millimetres(80), millimetres(60)};
    piece.at = {millimetres(10), millimetres(10)};
    piece.attach.adhesive = 0;
    piece.attach.where = where;
  }
  std::vector<Rect> parts() const { return stuck_parts(project, card, piece); }
};

using Where = Attach::Where;
using Parts = std::vector<Rect>;

Rect part(int left, int top, int width, int height) {
  return {{millimetres(left), millimetres(top)}, {millimetres(width), millimetres(height)}};
}

} // namespace

TEST_CASE("a piece of which nothing is said is stuck all over") {
  CHECK(Stuck(Where::AllOver).parts() == Parts{part(0, 0, 80, 60)});
}

TEST_CASE("what is not stuck has no part that is") {
  Stuck loose(Where::OpenTop);
  loose.piece.attach.adhesive = -1;
  CHECK(loose.parts().empty());
}

TEST_CASE("a half is half of the piece as it is seen from its front") {
  CHECK(Stuck(Where::RightHalf).parts() == Parts{part(40, 0, 40, 60)});
  CHECK(Stuck(Where::TopHalf).parts() == Parts{part(0, 0, 80, 30)});
}

TEST_CASE("a half of what lies across a gate's opening ends at the opening") {
  // 10 mm from the left on a front of 105 mm, whose gates meet at 52.5 mm.
  const Parts left = Stuck(Where::LeftHalf, Form::Kind::Gate).parts();
  REQUIRE(left.size() == 1);
  CHECK(left[0].size.width == micrometres(42'500));
  const Parts right = Stuck(Where::RightHalf, Form::Kind::Gate).parts();
  CHECK(right[0].left() == micrometres(42'500));
}

TEST_CASE("a pocket is stuck along three edges and has room between them") {
  const Stuck pocket(Where::OpenTop);
  CHECK(pocket.parts() == Parts{part(0, 0, 8, 52), part(72, 0, 8, 52), part(0, 52, 80, 8)});
  CHECK(room_of_pocket(pocket.project, pocket.card, pocket.piece) == part(8, 0, 64, 52));
}

TEST_CASE("a pocket open at the left has its room there") {
  const Stuck pocket(Where::OpenLeft);
  CHECK(room_of_pocket(pocket.project, pocket.card, pocket.piece) == part(0, 8, 72, 44));
}

TEST_CASE("a line under a frame is no wider than the rim round its window") {
  Stuck frame(Where::Frame);
  Window window;
  window.size = {millimetres(70), millimetres(40)};
  window.at = {millimetres(5), millimetres(10)};
  frame.piece.windows.push_back(window);
  CHECK(frame.parts() ==
        Parts{part(0, 0, 80, 8), part(0, 8, 5, 44), part(75, 8, 5, 44), part(0, 52, 80, 8)});
}
