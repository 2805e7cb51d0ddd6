#include "app/local_page/internal/answers.h"
#include "app/local_page/internal/thing_rows.h"
#include "app/local_page/internal/views.h"
#include "guide/prose.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "model/form.h"
#include "read/document.h"
#include "read/expression.h"

#include <fmt/format.h>

#include <optional>

namespace leafwright::local_page {

namespace {

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
    sides();
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

  // Where something new can be laid: each side in each view that shows it.
  void sides() {
    json_.key("sides").open_array();
    for (const Face& face : card_.plan.faces)
      for (const Face::Seen& seen : face.seen) {
        json_.open_object().key("on").text(face.id).key("view").text(view_word(seen.view));
        write_box({seen.at, face.size});
        json_.close_object();
      }
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
    for (const ThingRow& row : things_of(shown_, card_)) write(row);
  }

  void write(const ThingRow& row) {
    json_.open_object().key("key").text(shown_.key_at(row.place));
    json_.key("name").text(row.name).key("kind").text(row.kind);
    if (!row.letter.empty()) json_.key("letter").text(row.letter);
    json_.key("parent").text(row.parent).key("view").text(row.view);
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
};

} // namespace

void write_cards(Json& json, const Shown& shown, StepCache& steps) {
  json.open_array();
  for (const Card& card : shown.project().cards) CardWriter(json, shown, card, steps).write();
  json.close_array();
}

} // namespace leafwright::local_page
