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
  std::optional<Rect> box;     // in the view, as if it were not turned
  std::optional<Rect> carrier; // what it is placed in
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
  CardWriter(Json& json, const Shown& shown, const Card& card, StepCache& steps)
      : json_(json), shown_(shown), project_(shown.project()), card_(card), known_steps_(steps),
        revision_(revision()) {}

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
      json_.open_object()
          .key("id")
          .text(view.id)
          .key("name")
          .text(view.name)
          .key("rev")
          .text(revision_)
          .close_object();
    json_.close_array();
  }

  // Of what its pictures are made from: the card itself, what is bought, the project's own values,
  // the letters, which go through all cards, and the keys.
  std::string revision() const {
    const std::string_view bytes = shown_.text.bytes;
    std::string from;
    const auto add = [&](std::size_t begin, std::size_t end) {
      from += bytes.substr(begin, end - begin);
    };
    if (shown_.tree.root) {
      add(shown_.tree.root->begin, shown_.tree.root->inner_begin);
      for (const edit::ElementSpan& part : shown_.tree.root->children)
        if (part.name == "supplies") add(part.begin, part.end);
    }
    for (const Piece& piece : card_.pieces) from += piece.letter + " ";
    if (const auto own = shown_.element_at(card_.place)) {
      const std::vector<ElementTree::Node>& nodes = shown_.tree.nodes;
      const edit::ElementSpan& card = *nodes[*own].span;
      add(card.begin, card.end);
      for (std::size_t i = *own; i < nodes.size() && nodes[i].span->begin < card.end; ++i)
        from += key_words(shown_.text.keys[i]);
    }
    return revision_of(from);
  }

  const std::vector<StepRow>& step_rows() {
    if (const auto* known = known_steps_.find(revision_)) return *known;
    std::vector<StepRow> rows;
    for (const guide::Step& step : guide::steps_of({project_, card_}, card_.id).steps) {
      std::string words;
      for (const guide::Inlines& text : step.text)
        words += (words.empty() ? "" : " ") + guide::spoken(text);
      rows.push_back({shown_.key_at(step.place), plain_blanks(step.title), plain_blanks(words)});
    }
    return known_steps_.keep(revision_, std::move(rows));
  }

  void steps() {
    json_.key("steps").open_array();
    std::int64_t number = 0;
    for (const StepRow& step : step_rows()) {
      json_.open_object().key("n").number(++number).key("key").text(step.key);
      json_.key("title").text(step.title).key("words").text(step.words);
      json_.key("rev").text(revision_).close_object();
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

  // The face, the piece or the envelope that a thing is placed in, where a view shows it.
  std::optional<Rect> carrier_box(Carrier on) const {
    const Piece* piece = piece_of(card_, on);
    if (piece != nullptr && piece->role == Piece::Role::Base) on = whole_face(card_);
    Rect box{{}, carrier_size(project_, card_, on)};
    Carrier root = on;
    if (piece != nullptr && piece->role != Piece::Role::Base) {
      const auto placed = placed_on_face(project_, card_, as_index(on.index));
      if (!placed) return std::nullopt;
      box = placed->box;
      root = placed->root;
    }
    if (const Face* face = face_of(card_, root)) {
      const Face::Seen* seen = best_seen(*face);
      if (seen == nullptr) return std::nullopt;
      box.origin = box.origin + seen->at;
    }
    return box;
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
    row.carrier = carrier_box(row.on);
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
    if (row.box) write_box(*row.box);
    if (row.carrier) {
      json_.key("carrier").open_object();
      write_box(*row.carrier);
      json_.close_object();
    }
    json_.key("angle");
    write_number(json_, in_degrees(row.turned));
    json_.key("order").number(row.order);
    fields(row);
    json_.key("words").text(row.words).close_object();
  }

  void write_box(const Rect& box) {
    json_.key("x");
    write_mm(json_, box.left());
    json_.key("y");
    write_mm(json_, box.top());
    json_.key("width");
    write_mm(json_, box.size.width);
    json_.key("height");
    write_mm(json_, box.size.height);
  }

  // Whether its place is measured from another thing.
  bool follows_by_place(const ElementTree::Node& element) const {
    const edit::AttributeSpan* at = element.span->find("at");
    if (at == nullptr) return false;
    const std::string words = shown_.value_of(*at);
    const auto position = reading::parse_position(words);
    if (!position) return false;
    const auto worked_out = [&](const reading::Along& along) {
      return !along.distance.empty() &&
             reading::looks_like_calculation(reading::slice(words, along.distance));
    };
    return position.value().over || worked_out(position.value().across) ||
           worked_out(position.value().down);
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
                calculated("height") || follows_by_place(*element);
    }
    json_.close_object().key("follows").truth(follows);
  }

  Json& json_;
  const Shown& shown_;
  const Project& project_;
  const Card& card_;
  StepCache& known_steps_;
  std::string revision_;
  int order_ = 0;
};

} // namespace

void write_cards(Json& json, const Shown& shown, StepCache& steps) {
  json.open_array();
  for (const Card& card : shown.project().cards) CardWriter(json, shown, card, steps).write();
  json.close_array();
}

} // namespace leafwright::local_page
