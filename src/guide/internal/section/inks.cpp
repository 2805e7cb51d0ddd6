#include "guide/internal/section/chapters.h"

#include "guide/figure/scenes.h"
#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"

#include <algorithm>
#include <set>
#include <utility>

namespace leafwright::guide {
namespace {

std::string place_name(const Card& card, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_at(card, on.index);
    return piece ? piece_noun(*piece) : std::string();
  }
  case Carrier::Kind::Face: return std::string(words::without_article(face_words(card, on.index)));
  case Carrier::Kind::EnvelopeFront:
  case Carrier::Kind::EnvelopeInside: break;
  }
  return "envelope";
}

void add_piece(std::vector<InkUse>& out, int card_index, const Piece& piece) {
  for (const Impression& one : piece.stamped)
    out.push_back({card_index, one.set, one.image, piece_noun(piece), &one, one.inks});
  for (const Finish& finish : piece.finishes)
    if (finish.ink >= 0)
      out.push_back({card_index, -1, -1, piece_noun(piece), nullptr, {finish.ink}});
}

} // namespace

std::vector<InkUse> ink_uses(const Project& project) {
  std::vector<InkUse> out;
  for (std::size_t c = 0; c < project.cards.size(); ++c) {
    const Card& card = project.cards[c];
    const int index = static_cast<int>(c);
    for (const Build& build : card.build) {
      if (build.kind == Build::Kind::Piece) {
        if (const Piece* piece = piece_at(card, build.index)) add_piece(out, index, *piece);
      } else if (build.kind == Build::Kind::Stamping && build.index >= 0 &&
                 as_index(build.index) < card.face_stampings.size()) {
        const FaceStamping& one = card.face_stampings[as_index(build.index)];
        out.push_back({index, one.impression.set, one.impression.image, place_name(card, one.on),
                       &one.impression, one.impression.inks});
      }
    }
  }
  return out;
}

namespace {

// A greeting is known by its words.
std::string image_name(const Project& project, int set, int image) {
  std::string name = image_noun(project, set, image);
  if (name.ends_with(" greeting")) name.erase(name.size() - 9);
  return words::sentence_case(name);
}

bool any_method(const std::vector<InkUse>& uses, Impression::Method method) {
  return std::any_of(uses.begin(), uses.end(), [&](const InkUse& use) {
    return use.impression && use.impression->method == method;
  });
}

List methods_list(const std::vector<InkUse>& uses, const words::Terms& terms) {
  List list;
  const auto say = [&](std::string_view term, std::string_view meaning) {
    list.items.push_back(Prose().strong(term).say(meaning).fragment());
  };
  if (std::any_of(uses.begin(), uses.end(),
                  [](const InkUse& use) { return use.impression && use.impression->fading; }))
    say("Fading", ": ink once and stamp again and again. Each image is paler than the last.");
  if (any_method(uses, Impression::Method::SecondGeneration))
    say("Stamping off", ": stamp once on scrap paper, then on the card without inking again.");
  if (any_method(uses, Impression::Method::Sponged))
    say("Sponged", ": dab the ink on with a sponge instead of the pad, for soft " +
                       std::string(terms.color) + ".");
  if (any_method(uses, Impression::Method::Masked))
    say("Masked", ": cover what you have stamped with a cutout of scrap paper. Stamp across it.");
  if (any_method(uses, Impression::Method::HeatEmbossed))
    say("Heat embossing", ": cover the wet image with powder, tap off what is loose, and melt the "
                          "rest with a heat tool.");
  if (std::any_of(uses.begin(), uses.end(), [](const InkUse& use) { return use.inks.size() > 1; }))
    say("Several " + std::string(terms.color) + "s", ": ink each part of the stamp in its own " +
                                                         std::string(terms.color) +
                                                         " before you stamp.");
  return list;
}

// The inks in which an image is first stamped stand for it in the key.
FigureRow image_key(const Project& project, const std::vector<InkUse>& uses) {
  FigureRow row;
  std::set<std::pair<int, int>> shown;
  for (const InkUse& use : uses) {
    if (use.image < 0 || !shown.insert({use.set, use.image}).second) continue;
    Figure figure;
    figure.scene = figure::stamped_image(project, use.set, use.image, use.inks);
    figure.caption = plain(image_name(project, use.set, use.image));
    figure.width = Figure::Width::Narrow;
    row.figures.push_back(std::move(figure));
  }
  return row;
}

} // namespace

void add_methods(Section& section, const Project& project) {
  List methods = methods_list(ink_uses(project), words::terms(project.language));
  if (methods.items.empty()) return;
  add(section, heading(2, "methods", "Stamping techniques"));
  add(section, std::move(methods));
}

void add_images(Section& section, const Project& project) {
  FigureRow key = image_key(project, ink_uses(project));
  if (key.figures.size() < 2) return; // one image is known by its step
  add(section, heading(2, "images", "The images"));
  add(section, std::move(key));
}

} // namespace leafwright::guide
