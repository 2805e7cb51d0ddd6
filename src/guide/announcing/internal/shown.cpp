#include "guide/announcing/internal/rundown_parts.h"

#include "guide/business/offer_words.h"
#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "language/agreement.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/item.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace leafwright::guide {
namespace {

void picture(RundownPart& part, const Project& project, ItemRef item, const std::string& caption) {
  Figure figure{figure::swatch(project, item),
                caption.empty() ? Inlines{} : plain(words::sentence_case(caption)),
                Figure::Width::Narrow};
  if (!figure.scene.items.empty()) part.figures.push_back(std::move(figure));
}

// By image: whether a card of the project is stamped with it.
std::vector<bool> stamped_images(const supply::Needs& needs, ItemRef set, std::size_t images) {
  std::vector<bool> used(images, false);
  if (const supply::Need* need = supply::find(needs, set))
    for (const supply::Need::Part& part : need->parts)
      if (part.image >= 0 && as_index(part.image) < images) used[as_index(part.image)] = true;
  return used;
}

std::string quoted(const StampImage& image) { return "“" + image.name + "”"; }

// "Its greetings are “hello” and “for you”."
std::string list_words(std::string_view owner, std::string_view noun,
                       const std::vector<std::string>& names) {
  const auto n = std::ssize(names);
  return std::string(owner) + " " + words::noun_for(n, noun) + " " + words::agreed("be", n) + " " +
         words::listed(names) + ".";
}

void say_images(RundownPart& part, const Project& project, int set, const std::vector<bool>& used) {
  const StampSet& stamps = project.stamp_sets.at(as_index(set));
  std::vector<std::string> pictures, greetings, unused;
  for (std::size_t i = 0; i < stamps.images.size(); ++i) {
    const int image = static_cast<int>(i);
    if (is_greeting(stamps.images[i]))
      greetings.push_back(quoted(stamps.images[i]));
    else
      pictures.push_back(image_with_the(project, set, image));
    if (!used[i]) unused.push_back(image_with_the(project, set, image));
  }
  if (!pictures.empty()) part.say.push_back(list_words("The", "image", pictures));
  if (!greetings.empty()) part.say.push_back(list_words("The", "greeting", greetings));
  if (unused.size() == stamps.images.size())
    part.say.emplace_back("No card in this class uses it. It's there to play with.");
  else if (!unused.empty())
    part.say.push_back("We don't use " + words::listed(unused, "or") +
                       " in this class. Have fun with " +
                       std::string(words::it_or_them(std::ssize(unused))) + " on your own cards.");
}

} // namespace

void add_stamps(std::vector<RundownPart>& parts, const Project& project) {
  const supply::Needs needs = supply::needs_of_set(project);
  for (std::size_t i = 0; i < project.stamp_sets.size(); ++i) {
    const StampSet& set = project.stamp_sets[i];
    const ItemRef item{ItemKind::StampSet, static_cast<int>(i)};
    RundownPart part{set.name, "Every stamp of the set", {}};
    picture(part, project, item, {});
    if (!part.figures.empty()) part.figures.front().width = Figure::Width::Full;
    part.say.push_back("Here " + words::agreed("be", words::is_plural(set.name) ? 2 : 1) + " " +
                       words::with_the(set.name) + ".");
    say_images(part, project, item.index, stamped_images(needs, item, set.images.size()));
    part.place = set.place;
    parts.push_back(std::move(part));
  }
}

namespace {

// Everything a die cuts, as one says it: "the rust latch", "the window of the striped frame".
std::vector<std::string> cut_by(const Project& project, int die) {
  std::vector<std::string> names;
  const auto add = [&](std::string name) {
    if (std::ranges::find(names, name) == names.end()) names.push_back(std::move(name));
  };
  for (const Card& card : project.cards)
    for (const Piece& piece : card.pieces) {
      const std::string noun = words::with_the(piece_noun(piece));
      if (piece.die == die && piece.cut == Piece::CutBy::Die) add(noun);
      for (const Window& window : piece.windows)
        if (window.die == die) add("the window of " + noun);
    }
  return names;
}

} // namespace

void add_dies(std::vector<RundownPart>& parts, const Project& project) {
  if (project.dies.empty()) return;
  RundownPart part{"Dies", "Each die beside what it cuts", {}, true};
  std::vector<std::string> unused;
  std::string cutting;
  for (std::size_t i = 0; i < project.dies.size(); ++i) {
    const ItemRef item{ItemKind::Die, static_cast<int>(i)};
    const std::string noun = item_noun(project, item);
    const std::vector<std::string> cut = cut_by(project, item.index);
    picture(part, project, item, noun);
    if (cut.empty()) {
      unused.push_back(words::with_the(noun));
      continue;
    }
    cutting += (cutting.empty() ? "" : " ") + words::sentence_case(words::with_the(noun)) +
               " cuts " + words::listed(cut) + ".";
  }
  part.say.push_back("Here " + words::agreed("be", std::ssize(project.dies)) + " the " +
                     words::noun_for(std::ssize(project.dies), "die") + ".");
  if (!cutting.empty()) part.say.back() += " " + cutting;
  if (!unused.empty())
    part.say.push_back("We don't use " + words::listed(unused, "or") + " in this class.");
  parts.push_back(std::move(part));
}

namespace {

std::string pack_words(const Project& project, const Pack& pack) {
  std::vector<std::string> lines;
  for (const Pack::Line& line : pack.lines)
    lines.push_back(words::counted(line.sheets, "sheet") + " of " +
                    stock_noun(project, line.stock));
  return words::sentence_case(words::with_the(pack.name)) + " has " + words::listed(lines) + ".";
}

} // namespace

void add_papers(std::vector<RundownPart>& parts, const Project& project) {
  RundownPart part{"Papers", "A sheet of each", {}, true};
  std::vector<std::string> plain_ones, patterned;
  for (std::size_t i = 0; i < project.stocks.size(); ++i) {
    const ItemRef item{ItemKind::Stock, static_cast<int>(i)};
    const Group group = group_of(project, item);
    if (group != Group::Cardstock && group != Group::Patterned) continue;
    const std::string noun = stock_noun(project, item.index);
    picture(part, project, item, noun);
    (group == Group::Patterned ? patterned : plain_ones).push_back(noun);
  }
  if (!plain_ones.empty())
    part.say.push_back("For cardstock we have " + words::listed(plain_ones) + ".");
  if (!patterned.empty())
    part.say.push_back("For patterned paper we have " + words::listed(patterned) + ".");
  std::string packs;
  for (const Pack& pack : project.packs)
    packs += (packs.empty() ? "" : " ") + pack_words(project, pack);
  if (!packs.empty()) part.say.push_back(packs);
  part.say = in_one_paragraph(part.say);
  if (!part.say.empty()) parts.push_back(std::move(part));
}

void add_trims(std::vector<RundownPart>& parts, const Project& project) {
  RundownPart part{"Ribbon and trims", "Ribbon, trims and an envelope", {}, true};
  std::vector<std::string> trims, envelopes;
  const auto add = [&](ItemKind kind, std::size_t i, std::vector<std::string>& names,
                       bool several) {
    const ItemRef item{kind, static_cast<int>(i)};
    const std::string noun = item_noun(project, item);
    picture(part, project, item, noun);
    names.push_back(several ? words::plural(noun) : noun);
  };
  for (std::size_t i = 0; i < project.ribbons.size(); ++i) add(ItemKind::Ribbon, i, trims, false);
  for (std::size_t i = 0; i < project.embellishments.size(); ++i)
    add(ItemKind::Embellishment, i, trims, true);
  for (std::size_t i = 0; i < project.envelopes.size(); ++i)
    add(ItemKind::Envelope, i, envelopes, true);
  if (trims.empty() && envelopes.empty()) return;
  if (trims.empty()) {
    part.title = "Envelopes";
    part.show = "An envelope";
  }
  if (!trims.empty()) part.say.push_back("For the trims we have " + words::listed(trims) + ".");
  if (!envelopes.empty()) part.say.push_back("The cards go into " + words::listed(envelopes) + ".");
  part.say = in_one_paragraph(part.say);
  parts.push_back(std::move(part));
}

namespace {

// Its inks and the words on it.
std::string inked_words(const Project& project, int card) {
  std::vector<int> inks;
  std::vector<std::string> greetings;
  for (const supply::Need& need : supply::needs_of(project, card)) {
    if (need.item.kind == ItemKind::Ink) inks.push_back(need.item.index);
    if (need.item.kind != ItemKind::StampSet) continue;
    for (const supply::Need::Part& part : need.parts) {
      const auto& images = project.stamp_sets.at(as_index(need.item.index)).images;
      const StampImage* image = find_at(images, part.image);
      if (image != nullptr && is_greeting(*image)) greetings.push_back(quoted(*image));
    }
  }
  std::string words;
  if (!inks.empty())
    words = "The " + words::noun_for(std::ssize(inks), "ink") + " " +
            words::agreed("be", std::ssize(inks)) + " " + ink_nouns(project, inks) + ".";
  if (!greetings.empty())
    words += (words.empty() ? "" : " ") + list_words("The", "greeting", greetings);
  return words;
}

} // namespace

void add_cards(std::vector<RundownPart>& parts, const Project& project) {
  for (std::size_t i = 0; i < project.cards.size(); ++i) {
    const Card& card = project.cards[i];
    const std::string number = std::to_string(i + 1);
    const bool alone = project.cards.size() == 1;
    const bool tag = card.form.kind == Form::Kind::Tag;
    RundownPart part{(alone ? "" : "Card " + number + ": ") + card.title,
                     tag ? "The finished tag" : "The card, front and inside",
                     {}};
    part.figures.push_back(front_figure(project, card));
    part.say.push_back(alone ? "This is “" + card.title + "”."
                             : "Number " + words::count_words(static_cast<int>(i) + 1) + " is “" +
                                   card.title + "”.");
    if (const std::string intro = spoken(author_text(StepContext{project, card}, card.intro));
        !intro.empty())
      part.say.push_back(intro);
    std::string rest = inked_words(project, static_cast<int>(i));
    if (card.minutes > 0)
      rest += (rest.empty() ? "" : " ") + std::string("It takes about ") +
              words::figured(card.minutes, "minute") + ".";
    part.say.push_back(rest);
    part.say = in_one_paragraph(part.say);
    part.place = card.place;
    parts.push_back(std::move(part));
  }
}

} // namespace leafwright::guide
