#include "guide/internal/section/chapters.h"

#include "guide/figure/scenes.h"
#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "measure/index.h"

#include <algorithm>
#include <map>
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
    if (finish.kind == Finish::Kind::EdgeInked && finish.ink >= 0)
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

std::vector<int> inks_in(const std::vector<InkUse>& uses, const Project& project) {
  std::set<int> used;
  for (const InkUse& use : uses) used.insert(use.inks.begin(), use.inks.end());
  std::vector<int> out;
  for (const int ink : used)
    if (ink >= 0 && as_index(ink) < project.inks.size()) out.push_back(ink);
  return out;
}

std::string_view method_words(const InkUse& use) {
  if (!use.impression) return "sponged";
  switch (use.impression->method) {
  case Impression::Method::Plain: return use.impression->fading ? "fading" : "";
  case Impression::Method::SecondGeneration: return "second print";
  case Impression::Method::Sponged: return "sponged";
  case Impression::Method::Masked: return "masked";
  case Impression::Method::HeatEmbossed: return "heat-embossed";
  }
  return "";
}

// What one image leaves in one ink on one thing.
struct Printed {
  int times = 0; // 0: nothing to count, an edge
  std::string method;
  std::size_t order = 0; // of the ink among the inks of the image
};

// "3 × fading", "1 × heat-embossed", "7 ×"; the second ink of an image is told apart.
std::string cell_words(const Printed& printed) {
  std::string words = printed.times > 0 ? std::to_string(printed.times) + "\u00A0×" : "";
  if (!printed.method.empty()) words += (words.empty() ? "" : " ") + printed.method;
  if (printed.order == 1) words += ", second colour";
  if (printed.order > 1)
    words += ", " + words::ordinal_words(static_cast<int>(printed.order) + 1) + " colour";
  return words;
}

// A greeting is known by its words.
std::string image_name(const Project& project, int set, int image) {
  std::string name = image_noun(project, set, image);
  if (name.ends_with(" greeting")) name.erase(name.size() - 9);
  return words::sentence_case(name);
}

std::string row_name(const Project& project, const InkUse& use) {
  if (use.image >= 0) return image_name(project, use.set, use.image) + ", " + use.on;
  return (use.impression ? "Ground, " : "Edges, ") + use.on;
}

// One row of the matrix: an image on one thing, in all its inks.
struct MatrixRow {
  std::string name;
  std::map<int, Printed> by_ink;
  // Whether `use` can be told in this row: the same thing, and no ink in two manners.
  bool takes(const std::string& other, const InkUse& use) const {
    if (name != other) return false;
    return std::all_of(use.inks.begin(), use.inks.end(), [&](int ink) {
      const auto found = by_ink.find(ink);
      return found == by_ink.end() || found->second.method == method_words(use);
    });
  }
  void take(const InkUse& use) {
    for (std::size_t i = 0; i < use.inks.size(); ++i) {
      Printed& printed = by_ink[use.inks[i]];
      printed.times += use.impression ? prints(*use.impression) : 0;
      printed.method = method_words(use);
      printed.order = i;
    }
  }
};

Row printed_row(const MatrixRow& matrix_row, const std::vector<int>& inks) {
  Row row;
  row.cells.push_back(plain(matrix_row.name));
  for (const int ink : inks) {
    const auto found = matrix_row.by_ink.find(ink);
    row.cells.push_back(found == matrix_row.by_ink.end() ? Inlines{}
                                                         : plain(cell_words(found->second)));
  }
  return row;
}

bool any_method(const std::vector<InkUse>& uses, Impression::Method method) {
  return std::any_of(uses.begin(), uses.end(), [&](const InkUse& use) {
    return use.impression && use.impression->method == method;
  });
}

List methods_list(const std::vector<InkUse>& uses) {
  List list;
  const auto say = [&](std::string_view term, std::string_view meaning) {
    list.items.push_back(Prose().strong(term).say(meaning).fragment());
  };
  if (std::any_of(uses.begin(), uses.end(),
                  [](const InkUse& use) { return use.impression && use.impression->fading; }))
    say("Fading", ": ink once and print again and again, each print paler than the last.");
  if (any_method(uses, Impression::Method::SecondGeneration))
    say("Second print", ": print once on scrap paper, then on the card without inking again.");
  if (any_method(uses, Impression::Method::Sponged))
    say("Sponged", ": dab the ink on with a sponge instead of the pad, for soft colour.");
  if (any_method(uses, Impression::Method::Masked))
    say("Masked",
        ": cover what is printed already with a cut-out of scrap paper, and print across it.");
  if (any_method(uses, Impression::Method::HeatEmbossed))
    say("Heat-embossed", ": cover the wet print with powder, tap it off, and melt what stays.");
  if (std::any_of(uses.begin(), uses.end(), [](const InkUse& use) { return use.inks.size() > 1; }))
    say("Second colour", ": ink each part of the stamp in its own colour before you print.");
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

Table ink_matrix(const Project& project) {
  const std::vector<InkUse> uses = ink_uses(project);
  const std::vector<int> inks = inks_in(uses, project);
  Table table;
  table.caption = "Inks by card and image";
  table.columns.push_back({plain("Image and where it stands"), Column::Align::Left, 2.0, true});
  for (const int ink : inks) {
    const std::string name = item_name(project, {ItemKind::Ink, ink});
    table.columns.push_back(
        {Prose().ink(ink).say(name).fragment(), Column::Align::Left, 1.0, false});
  }
  for (std::size_t card = 0; card < project.cards.size(); ++card) {
    std::vector<MatrixRow> rows;
    for (const InkUse& use : uses) {
      if (use.card != static_cast<int>(card)) continue;
      const std::string name = row_name(project, use);
      auto row = std::find_if(rows.begin(), rows.end(),
                              [&](const MatrixRow& one) { return one.takes(name, use); });
      if (row == rows.end()) row = rows.insert(rows.end(), MatrixRow{name, {}});
      row->take(use);
    }
    if (rows.empty()) continue;
    const std::string& title = project.cards[card].title;
    table.rows.push_back({Row::Kind::Group, {plain(std::to_string(card + 1) + "\u2002" + title)}});
    for (const MatrixRow& row : rows) table.rows.push_back(printed_row(row, inks));
  }
  return table;
}

Section inks_section(const Project& project) {
  Section section{"inks", "Inks and images", {}};
  const std::vector<InkUse> uses = ink_uses(project);
  if (uses.empty()) return section;
  add(section, heading(1, "inks", "Inks and images"));
  add(section,
      lead(plain("Which image is printed in which ink, how many times, and how. The mark beside an "
                 "ink is the same everywhere in this booklet, so that it is known without its "
                 "colour.")));
  add(section, ink_matrix(project));
  if (List methods = methods_list(uses); !methods.items.empty()) {
    add(section, heading(2, "methods", "Ways of printing"));
    add(section, std::move(methods));
  }
  if (FigureRow key = image_key(project, uses); !key.figures.empty()) {
    add(section, heading(2, "images", "The images"));
    add(section, std::move(key));
  }
  return section;
}

} // namespace leafwright::guide
