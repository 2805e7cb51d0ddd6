#include "found.h"

#include "model/notch.h"

using namespace leafwright;
using namespace leafwright::testing;

namespace {

// A pocket of 3 x 2 in on the inside, its tape 8 mm wide at both sides and below, and a tag in it.
Project pocket(Length wide, Length left, Length stands_out, bool notch = false) {
  return changed([&](Project&, Card& card) {
    Piece holder = panel("pocket", dots, on_face(inside), {inches(3), inches(2)},
                         {inches(0, 1, 2), inches(2)});
    holder.attach = stuck_with(tape);
    holder.attach.where = Attach::Where::OpenTop;
    if (notch)
      holder.windows.push_back(notch_window(Window::Notch::Top, inches(0, 3, 8), holder.size));
    add(card, holder);
    Piece tag = panel("tag", cream, on_face(inside), {wide, inches(1) + stands_out},
                      {inches(0, 1, 2) + left, inches(2) - stands_out});
    tag.attach.adhesive = -1;
    tag.layers_below = {"pocket"};
    add(card, tag);
  });
}

constexpr Length half = inches(0, 1, 2);

} // namespace

TEST_CASE("what slides into a pocket has room on both sides of it") {
  CHECK_FALSE(says(pocket(inches(2), half, half), "fit-pocket"));
  const Findings some = found(pocket(inches(2, 1, 2), inches(0, 1, 4), half), "fit-pocket");
  REQUIRE(some.size() == 1);
  CHECK(some[0].severity == Severity::Error);
}

TEST_CASE("what is tucked in lies between the lines of adhesive") {
  CHECK_FALSE(says(pocket(inches(2), half, half), "fit-pocket-place"));
  CHECK(says(pocket(inches(2), inches(0, 1, 8), half), "fit-pocket-place"));
}

TEST_CASE("what is tucked in stands out, or its pocket has a notch") {
  CHECK_FALSE(says(pocket(inches(2), half, half), "fit-pocket-grip"));
  CHECK(says(pocket(inches(2), half, {}), "fit-pocket-grip"));
  CHECK_FALSE(says(pocket(inches(2), half, {}, true), "fit-pocket-grip"));
}

TEST_CASE("a notch is no window whose rim tears") {
  CHECK_FALSE(says(pocket(inches(2), half, {}, true), "fit-window-rim"));
  CHECK_FALSE(says(pocket(inches(2), half, {}, true), "fit-window"));
}
