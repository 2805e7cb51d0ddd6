#include "app/local_page/internal/views.h"

#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "output/pictures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

namespace leafwright::local_page {

namespace {

// A finished card is drawn at its own size; what has labels, in the room that a page has for it.
constexpr Size any_room{millimetres(3000), millimetres(3000)};
constexpr Size step_room{millimetres(120), millimetres(120)};
constexpr Size tray_room{millimetres(190), millimetres(120)};
constexpr Size layers_room{millimetres(150), millimetres(130)};
constexpr Size sheet_room{millimetres(180), millimetres(200)};

std::optional<int> number_in(std::string_view words) {
  int number = 0;
  const char* const end = words.data() + words.size();
  const auto [after, fault] = std::from_chars(words.data(), end, number);
  if (fault != std::errc() || after != end || number < 0) return std::nullopt;
  return number;
}

// Keys of the elements that the marks of a scene are about.
class ThingKeys {
 public:
  ThingKeys(const Shown& shown, int card) : shown_(shown), card_(card) {}

  std::string operator()(std::string_view mark) {
    const std::vector<std::string_view> parts = reading::parted(mark, '/');
    if (parts.size() < 2) return {};
    int card = card_;
    if (parts.size() == 3) card = number_in(parts[0]).value_or(-1);
    const std::string_view kind = parts[parts.size() - 2];
    const int index = number_in(parts.back()).value_or(-1);
    const Card* of = find_at(shown_.project().cards, card);
    if (of == nullptr) return {};
    if (kind == "image") {
      const Piece* piece = find_at(of->pieces, piece_);
      const Impression* image = piece ? find_at(piece->stamped, index) : nullptr;
      return image ? shown_.key_at(image->place) : std::string();
    }
    static constexpr std::array<std::string_view, 4> kinds{"piece", "ribbon", "embellishment",
                                                           "stamping"};
    const auto found = std::ranges::find(kinds, kind);
    if (found == kinds.end()) return {};
    const Build build{static_cast<Build::Kind>(found - kinds.begin()), index};
    if (build.kind == Build::Kind::Piece) piece_ = index; // images in it follow
    return shown_.key_at(place_of(*of, build));
  }

 private:
  const Shown& shown_;
  int card_;
  int piece_ = -1;
};

figure::Look look_of(const Project& project) {
  figure::Look look;
  look.accent = project.accent;
  return look;
}

} // namespace

std::vector<CardViewName> views_of(const Project& project, const Card& card) {
  std::vector<CardViewName> views{{"front", "Front"}};
  const Size inside = card.plan.inside_view;
  if (inside.width > Length{} && inside.height > Length{})
    views.push_back({"inside", "Opened flat"});
  if (guide::has_something_on(card, View::Back)) views.push_back({"back", "Back"});
  if (find_at(project.envelopes, card.envelope)) views.push_back({"envelope", "Envelope"});
  views.push_back({"tray", "Pieces"});
  if (guide::has_something_on(card, View::Front)) views.push_back({"layers", "Layers"});
  return views;
}

std::optional<PagePicture> PictureCache::drawn(const Shown& shown, const Wanted& wanted) {
  const figure::Scene& scene = wanted.scene;
  if (scene.items.empty() && scene.laid_out.empty()) return std::nullopt;
  const figure::Look look = look_of(shown.project());
  // Keys are part of the picture; photographs change with the project's files alone.
  Fingerprinter all;
  all.put(figure::fingerprint_of(scene, look), wanted.room, wanted.scale, wanted.ids);
  ThingKeys keys(shown, wanted.card);
  const auto feed_marks = [&](const std::vector<figure::SceneItem>& items) {
    for (const figure::SceneItem& item : items)
      if (const auto* mark = std::get_if<figure::SceneMark>(&item); mark && mark->kind == "thing")
        all.put(keys(mark->id));
  };
  feed_marks(scene.items);
  for (const figure::LaidOut& thing : scene.laid_out)
    for (const figure::LaidOut::Lie& lie : thing.lies) feed_marks(lie.items);
  for (const Picture& picture : shown.project().pictures) all.put(picture.bytes.size());
  const Fingerprint print = all.result();
  if (const PagePicture* known = known_.find(print)) return *known;

  const figure::Composed made = figure::compose(scene, wanted.room, wanted.scale, look, fonts_);
  svg::PageOptions options;
  options.title = scene.alternative.empty() ? wanted.title : scene.alternative;
  options.ids = wanted.ids;
  options.origin = made.object_origin;
  options.scale = made.scale;
  ThingKeys fresh(shown, wanted.card);
  options.things = [&](std::string_view mark) { return fresh(mark); };
  Parsed<std::string> svg =
      svg::picture_on_page(made.drawing, fonts_, shown.project().pictures, options);
  if (!svg) return std::nullopt;
  return known_.keep(
      print, {std::move(svg).value(), fmt::format("{:016x}{:016x}", print.high, print.low)});
}

std::optional<PagePicture> PictureCache::card(const Shown& shown, std::string_view id,
                                              std::string_view view) {
  const Project& project = shown.project();
  const auto found = std::ranges::find(project.cards, id, &Card::id);
  if (found == project.cards.end()) return std::nullopt;
  const Card& card = *found;
  Wanted wanted{{},         any_room,
                1.0,        fmt::format("{}-{}-", id, view),
                card.title, static_cast<int>(found - project.cards.begin())};
  if (view == "front")
    wanted.scene = figure::finished(project, card, View::Front);
  else if (view == "inside")
    wanted.scene = figure::finished(project, card, View::Inside);
  else if (view == "back")
    wanted.scene = figure::finished(project, card, View::Back);
  else if (view == "envelope")
    wanted.scene = figure::finished_envelope(project, card);
  else if (view == "tray")
    wanted.scene = figure::tray(project, card), wanted.room = tray_room, wanted.scale = 0;
  else if (view == "layers")
    wanted.scene = figure::exploded(project, card, View::Front), wanted.room = layers_room,
    wanted.scale = 0;
  if (view.starts_with("step-")) {
    const int number = number_in(view.substr(5)).value_or(0);
    guide::Steps steps = guide::steps_of({project, card}, card.id);
    const guide::Step* step = find_at(steps.steps, number - 1);
    if (step == nullptr || !step->figure) return std::nullopt;
    wanted.scene = step->figure->scene;
    wanted.room = step_room;
    wanted.scale = 0;
  }
  return drawn(shown, wanted);
}

std::optional<PagePicture> PictureCache::sheet(const Shown& shown, std::size_t number) {
  const supply::CuttingPlan& plan = shown.planned.sheets;
  const std::string ids = fmt::format("sheet-{}-", number);
  for (const supply::StockSheets& stock : plan.stocks)
    for (const supply::SheetLayout& layout : stock.layouts)
      if (number-- == 0)
        return drawn(shown,
                     {figure::sheet(shown.project(), plan, layout), sheet_room, 0, ids, "", -1});
  return std::nullopt;
}

} // namespace leafwright::local_page
