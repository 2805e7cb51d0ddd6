#include "guide/section/inks.h"

#include "guide/figure/scenes.h"
#include "guide/prose/naming.h"
#include "guide/prose/stamping.h"
#include "guide/section/blocks.h"
#include "guide/section/ink_uses.h"
#include "guide/words/count.h"
#include "guide/words/letter_case.h"

#include <algorithm>
#include <set>
#include <utility>

namespace leafwright::guide {
namespace {

std::vector<int> inks_in(const std::vector<InkUse>& uses, const Project& project) {
  std::set<int> used;
  for (const InkUse& use : uses) used.insert(use.inks.begin(), use.inks.end());
  std::vector<int> out;
  for (const int ink : used)
    if (ink >= 0 && static_cast<std::size_t>(ink) < project.inks.size()) out.push_back(ink);
  return out;
}

std::string_view method_words(const InkUse& use) {
  if (!use.impression) return "sponged edge";
  switch (use.impression->method) {
  case Impression::Method::Plain: return use.impression->fading ? "fading" : "";
  case Impression::Method::SecondGeneration: return "second print";
  case Impression::Method::Sponged: return "sponged";
  case Impression::Method::Masked: return "masked";
  case Impression::Method::HeatEmbossed: return "heat-embossed";
  }
  return "";
}

// "3 × fading", "1 × heat-embossed", "7 ×"; the second ink of an image is told apart.
std::string cell_words(const InkUse& use, std::size_t order) {
  std::string words;
  if (use.impression) words = std::to_string(prints(*use.impression)) + "\u00A0×";
  const std::string_view method = method_words(use);
  if (!method.empty()) words += (words.empty() ? "" : " ") + std::string(method);
  if (order == 1) words += ", second colour";
  if (order > 1) words += ", " + words::ordinal_words(static_cast<int>(order) + 1) + " colour";
  return words;
}

std::string row_name(const Project& project, const InkUse& use) {
  std::string name = use.image >= 0   ? image_noun(project, use.set, use.image)
                     : use.impression ? std::string("ground")
                                      : std::string("edges");
  // A greeting is known by its words.
  if (name.ends_with(" greeting")) name.erase(name.size() - 9);
  return words::sentence_case(name) + ", " + use.on;
}

Row use_row(const Project& project, const InkUse& use, const std::vector<int>& inks) {
  Row row;
  row.cells.push_back(plain(row_name(project, use)));
  for (const int ink : inks) {
    const auto found = std::find(use.inks.begin(), use.inks.end(), ink);
    const auto order = static_cast<std::size_t>(found - use.inks.begin());
    row.cells.push_back(found == use.inks.end() ? Inlines{} : plain(cell_words(use, order)));
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
    figure.caption = plain(words::sentence_case(image_noun(project, use.set, use.image)));
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
  int card = -1;
  for (const InkUse& use : uses) {
    if (use.card != card) {
      card = use.card;
      const std::string& title = project.cards[static_cast<std::size_t>(card)].title;
      table.rows.push_back(
          {Row::Kind::Group, {plain(std::to_string(card + 1) + "\u2002" + title)}});
    }
    table.rows.push_back(use_row(project, use, inks));
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
