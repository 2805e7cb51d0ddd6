#include "app/local_page/internal/answers.h"
#include "app/local_page/internal/views.h"
#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "model/carrier.h"
#include "model/form.h"
#include "read/document.h"
#include "read/expression.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

namespace leafwright::local_page {

namespace {

// A thing of a card as a page shows and moves it.
struct ThingRow {
  Place place;
  std::string name, kind, letter, words, view;
  Carrier on;
  std::optional<Rect> box; // in the view, as if it were not turned
  Angle turned{};
  std::string parent; // key
  int order = 0;
};

std::string_view view_word(View view) {
  switch (view) {
  case View::Inside: return "inside";
  case View::Back: return "back";
  case View::Front: break;
  }
  return "front";
}

class CardWriter {
 public:
  CardWriter(Json& json, const Shown& shown, const Card& card)
      : json_(json), shown_(shown), project_(shown.project()), card_(card) {}

  void write() {
    const FormRow& form = form_row(card_.form.kind);
    json_.open_object().key("key").text(shown_.key_at(card_.place));
    json_.key("id").text(card_.id).key("name").text(card_.title).key("form").text(form.word);
    json_.key("size").text(plain_blanks(size_text(card_.finished, project_.printing)));
    json_.key("width");
    write_mm(json_, card_.finished.width);
    json_.key("height");
    write_mm(json_, card_.finished.height);
    json_.key("minutes").number(card_.minutes).key("level").text(card_.level);
    views();
    steps();
    json_.key("things").open_array();
    things();
    json_.close_array().close_object();
  }

 private:
  void views() {
    json_.key("views").open_array();
    for (const CardViewName& view : views_of(project_, card_))
      json_.open_object().key("id").text(view.id).key("name").text(view.name).close_object();
    json_.close_array();
  }

  void steps() {
    const guide::Steps steps = guide::steps_of({project_, card_}, card_.id);
    json_.key("steps").open_array();
    std::int64_t number = 0;
    for (const guide::Step& step : steps.steps) {
      json_.open_object().key("n").number(++number).key("key").text(shown_.key_at(step.place));
      json_.key("title").text(plain_blanks(step.title));
      std::string words;
      for (const guide::Inlines& text : step.text)
        words += (words.empty() ? "" : " ") + guide::spoken(text);
      json_.key("words").text(plain_blanks(words)).close_object();
    }
    json_.close_array();
  }

  void things() {
    for (std::size_t i = 0; i < card_.build.size(); ++i) {
      const Build& build = card_.build[i];
      if (build.kind == Build::Kind::Step) continue;
      order_ = static_cast<int>(i);
      thing(build);
    }
  }

  // What lies where, once what carries it is followed down to a side that a view shows.
  void put(ThingRow& row, const std::optional<PlacedOnFace>& placed, Size own) const {
    if (!placed) return;
    Point at = placed->box.origin;
    if (const Face* face = face_of(card_, placed->root)) {
      const Face::Seen* seen = best_seen(*face);
      if (seen == nullptr) return;
      row.view = view_word(seen->view);
      at = at + seen->at;
    } else {
      row.view = "envelope";
      if (placed->root.kind == Carrier::Kind::EnvelopeInside) return; // lies beside the front
    }
    const Size box = placed->box.size;
    const Size size = own.width.nm > 0 ? own : box;
    row.box =
        Rect{{at.x + (box.width - size.width) / 2, at.y + (box.height - size.height) / 2}, size};
  }

  ThingRow begun(const Build& build) const {
    static constexpr std::array kinds{"panel", "ribbon", "embellishment", "image"};
    ThingRow row;
    row.place = place_of(card_, build);
    row.name = plain_blanks(figure::short_name(project_, card_, build));
    row.words = plain_blanks(figure::build_words(project_, card_, build));
    row.kind = kinds.at(as_index(static_cast<int>(build.kind)));
    row.order = order_;
    if (const auto on = carrier_of(card_, build)) row.on = *on;
    return row;
  }

  void thing(const Build& build) {
    ThingRow row = begun(build);
    const auto index = as_index(build.index);
    switch (build.kind) {
    case Build::Kind::Piece: return piece(row, build.index);
    case Build::Kind::Ribbon: {
      const RibbonUse& use = card_.ribbons.at(index);
      const Ribbon* ribbon = find_at(project_.ribbons, use.ribbon);
      const Rect box =
          ribbon_box(use, ribbon ? ribbon->width : Length{}, carrier_size(project_, card_, use.on));
      put(row, placed_on_face(card_, use.on, box), {});
      break;
    }
    case Build::Kind::Embellishment: {
      const EmbellishmentUse& use = card_.embellishments.at(index);
      const Embellishment* what = find_at(project_.embellishments, use.embellishment);
      if (what != nullptr)
        put(row, placed_on_face(card_, use.on, around(use.places, what->size)), {});
      break;
    }
    case Build::Kind::Stamping:
      impression(row, card_.face_stampings.at(index).impression, card_.face_stampings.at(index).on);
      break;
    case Build::Kind::Step: return;
    }
    write(row);
  }

  static Rect around(const std::vector<Point>& places, Size size) {
    if (places.empty()) return {};
    Rect all{places.front(), size};
    for (const Point at : places) {
      const Length left = std::min(all.left(), at.x), top = std::min(all.top(), at.y);
      all = {{left, top},
             {std::max(all.right(), at.x + size.width) - left,
              std::max(all.bottom(), at.y + size.height) - top}};
    }
    return all;
  }

  void impression(ThingRow& row, const Impression& impression, Carrier on) const {
    const StampSet* set = find_at(project_.stamp_sets, impression.set);
    const StampImage* image = set ? find_at(set->images, impression.image) : nullptr;
    if (image == nullptr || impression.places.empty()) return;
    const bool one = impression.places.size() == 1;
    put(row, placed_on_face(card_, on, around(impression.places, image->size)),
        one ? image->size : Size{});
    if (one) row.turned = impression.rotation;
    row.name = image->name;
  }

  void piece(ThingRow& row, int index) {
    static constexpr std::array roles{"base", "panel", "band", "liner"};
    const Piece& piece = at(card_.pieces, index);
    row.kind = roles.at(as_index(static_cast<int>(piece.role)));
    row.letter = piece.letter;
    row.turned = piece.rotation;
    if (piece.role == Piece::Role::Base) {
      row.view = "front";
      row.box = Rect{{}, card_.finished};
    } else {
      put(row, placed_on_face(project_, card_, as_index(index)), piece.size);
    }
    write(row);
    const std::string key = shown_.key_at(piece.place);
    for (const Impression& one : piece.stamped) {
      ThingRow image;
      image.place = one.place;
      image.kind = "image";
      image.parent = key;
      image.order = order_;
      image.on = {Carrier::Kind::Piece, index};
      impression(image, one, image.on);
      image.words = fmt::format("{}, stamped on {}", image.name, row.name);
      write(image);
    }
  }

  std::string parent_of(const ThingRow& row) const {
    if (!row.parent.empty()) return row.parent;
    if (row.kind == "base") return shown_.key_at(card_.place);
    const Piece* carrier = piece_of(card_, row.on);
    if (carrier == nullptr) carrier = base_of(card_);
    return carrier == nullptr ? shown_.key_at(card_.place) : shown_.key_at(carrier->place);
  }

  void write(const ThingRow& row) {
    json_.open_object().key("key").text(shown_.key_at(row.place));
    json_.key("name").text(row.name).key("kind").text(row.kind);
    if (!row.letter.empty()) json_.key("letter").text(row.letter);
    json_.key("parent").text(parent_of(row)).key("view").text(row.view);
    if (row.box) {
      json_.key("x");
      write_mm(json_, row.box->left());
      json_.key("y");
      write_mm(json_, row.box->top());
      json_.key("width");
      write_mm(json_, row.box->size.width);
      json_.key("height");
      write_mm(json_, row.box->size.height);
    }
    json_.key("angle");
    write_number(json_, in_degrees(row.turned));
    json_.key("order").number(row.order);
    fields(row);
    json_.key("words").text(row.words).close_object();
  }

  // The attributes by which it is moved and sized, and whether it follows something else.
  void fields(const ThingRow& row) {
    bool follows = false;
    json_.key("fields").open_object();
    const auto node = shown_.element_at(row.place);
    const ElementTree::Node* element = node ? &shown_.tree.nodes[*node] : nullptr;
    if (element != nullptr && element->rule != nullptr && row.kind != "base") {
      const auto has = [&](std::string_view name) { return element->span->find(name) != nullptr; };
      const auto known = [&](std::string_view name) {
        return !reading::value_type(element->rule->key, name).empty();
      };
      const auto calculated = [&](std::string_view name) {
        const edit::AttributeSpan* one = element->span->find(name);
        return one != nullptr && reading::looks_like_calculation(shown_.value_of(*one));
      };
      for (const std::string_view name : {"width", "height", "inset", "turn"})
        if (has(name)) json_.key(name).text(name);
      const bool sized = has("width") || has("height") || has("inset") || has("die") || has("like");
      if (known("size") && (has("size") || !sized)) json_.key("size").text("size");
      json_.key("at").text(has("places") ? "places" : "at");
      follows = has("inset") || has("like") || calculated("size") || calculated("width") ||
                calculated("height") || calculated("at");
    }
    json_.close_object().key("follows").truth(follows);
  }

  Json& json_;
  const Shown& shown_;
  const Project& project_;
  const Card& card_;
  int order_ = 0;
};

} // namespace

void write_cards(Json& json, const Shown& shown) {
  json.open_array();
  for (const Card& card : shown.project().cards) CardWriter(json, shown, card).write();
  json.close_array();
}

} // namespace leafwright::local_page
