#include "model/pop_up.h"
#include "read/internal/elements.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

namespace leafwright::reading {

void read_pop_ups(Context& context, Card& card, const Element& base) {
  for (const Element& element : base.children("pop-up")) {
    PopUp pop_up;
    pop_up.id = id_of(context, element);
    pop_up.place = element.place();
    pop_up.left = length_of(context, element, "at", {});
    pop_up.width = length_of(context, element, "width", inches(1));
    pop_up.height = length_of(context, element, "height", inches(1));
    pop_up.depth = length_of(context, element, "depth", inches(1));
    if (!pop_up_fold(card)) {
      context.journal.error(
          "read-either-or", element.place(),
          fmt::format("a pop-up in a card of the form {}", form_row(card.form.kind).word),
          "a form that opens upwards with one fold across",
          "write form=\"top-fold\" or form=\"tent\"");
      continue;
    }
    if (face_index(card.plan, pop_up.id) >= 0) {
      context.journal.error("read-id-twice", element.attribute_place("id"),
                            fmt::format("the id {} a second time", pop_up.id),
                            "an id that nothing else on the card has", "choose another id");
      continue;
    }
    add_pop_up(card, std::move(pop_up));
  }
}

} // namespace leafwright::reading
