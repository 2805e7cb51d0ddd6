#include "guide/shop/shop_words.h"

#include "guide/prose.h"
#include "guide/sections.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/item.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace leafwright::guide {

Document shop_document(const Project& project, const std::string& title, bool draft) {
  Document document;
  document.title = project.title + ": " + title;
  document.subject = project.subtitle;
  document.author = project.maker.name;
  document.language = project.language;
  document.edition = edition_words(project);
  document.keywords = {"handmade cards", title};
  document.draft = draft;
  document.created = epoch_of(project);
  return document;
}

std::string kits_words(const Project& project, const std::vector<int>& kits) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < kits.size() && i < project.tiers.size(); ++i) {
    if (kits[i] <= 0) continue;
    const std::string& name = project.tiers[i].name;
    parts.push_back(std::to_string(kits[i]) + "\u00A0× " + name);
  }
  return words::listed(parts);
}

void add_findings(Section& section, const Findings& findings) {
  for (const Finding& finding : findings) {
    Notice notice;
    const bool note = finding.severity == Severity::Note;
    notice.kind = note ? Notice::Kind::Tip : Notice::Kind::Warning;
    notice.title = note ? "To know." : "Look at this first.";
    notice.text = plain(words::sentence_case(finding.found) + "; " + finding.fix + ".");
    add(section, std::move(notice), finding.place);
  }
}

std::string sheet_name(const Project& project, int stock, int offer) {
  const Stock& of = project.stocks.at(as_index(stock));
  if (offer < 0 || as_index(offer) >= of.sheets.size()) return {};
  const SheetOffer& sheet = of.sheets[as_index(offer)];
  // "12x12" is a name for the project file; a reader is told the size.
  const bool named = !sheet.name.empty() && (sheet.name[0] < '0' || sheet.name[0] > '9');
  return named ? sheet.name : size_text(sheet.size, project.printing, false);
}

std::vector<std::string> piece_names(const Project& project, const supply::CuttingPlan& sheets,
                                     const supply::CutPiece& piece) {
  // A name that several cards share is said once: "inside panel of cards 1, 2 and 4".
  std::vector<std::pair<std::string, std::vector<std::string>>> named;
  for (const int index : piece.lines) {
    const supply::CutLine& line = sheets.lines.at(as_index(index));
    std::string name = "share of a sheet", card_number;
    if (line.piece.card >= 0) {
      const Card& card = project.cards.at(as_index(line.piece.card));
      name = piece_noun(card.pieces.at(as_index(line.piece.piece)));
      card_number = std::to_string(line.piece.card + 1);
    }
    auto same = std::find_if(named.begin(), named.end(),
                             [&](const auto& one) { return one.first == name; });
    if (same == named.end()) same = named.insert(named.end(), {name, {}});
    if (!card_number.empty() &&
        std::find(same->second.begin(), same->second.end(), card_number) == same->second.end())
      same->second.push_back(card_number);
  }
  std::vector<std::string> names;
  for (auto& [name, cards] : named) {
    if (project.cards.size() > 1 && !cards.empty())
      name += (cards.size() == 1 ? " of card\u00A0" : " of cards\u00A0") + words::listed(cards);
    names.push_back(std::move(name));
  }
  return names;
}

std::string percent_words(Area part, Area whole) {
  if (whole.um2 <= 0) return "0\u00A0%";
  const std::int64_t percent =
      std::llround(static_cast<double>(part.um2) * 100.0 / static_cast<double>(whole.um2));
  return std::to_string(percent) + "\u00A0%";
}

namespace {

std::string_view container(const Adhesive& adhesive) {
  if (adhesive.kind == Adhesive::Kind::Sheet) return "sheet";
  return adhesive.measured == Adhesive::Measured::ByMass ? "bottle" : "roll";
}

} // namespace

std::string units_words(const Project& project, const supply::BuyingLine& line,
                        std::int64_t count) {
  using CountedIn = supply::BuyingLine::CountedIn;
  switch (line.unit) {
  case CountedIn::Sheets: return words::figured(count, "sheet");
  case CountedIn::Spools: return words::figured(count, words::terms(project.language).spool);
  case CountedIn::Rolls:
    return words::figured(count, container(project.adhesives.at(as_index(line.item.index))));
  case CountedIn::Things:
    if (line.item.kind == ItemKind::Pack) return words::figured(count, "pack");
    break;
  case CountedIn::Pieces: break;
  }
  return std::to_string(count);
}

std::string packs_words(const Project& project, const supply::Purchase& purchase) {
  const std::int64_t n = purchase.packs;
  const auto of = [&](std::string_view noun) {
    const std::string packs = words::figured(n, noun);
    return purchase.per_pack > 1 ? packs + " of " + std::to_string(purchase.per_pack) : packs;
  };
  switch (kind_row(purchase.item.kind).counted) {
  case KindRow::Counted::Sheets:
    if (purchase.per_pack == 1) return words::figured(n, "sheet");
    return of("pack");
  case KindRow::Counted::Pieces: return of("pack");
  case KindRow::Counted::Packs: return words::figured(n, "pack");
  case KindRow::Counted::Length:
    return purchase.per_pack > 1 ? of("pack")
                                 : words::figured(n, words::terms(project.language).spool);
  case KindRow::Counted::Adhesive: {
    const Adhesive& one = project.adhesives.at(as_index(purchase.item.index));
    if (one.kind != Adhesive::Kind::Sheet && one.measured == Adhesive::Measured::ByCount)
      return of("pack");
    return of(container(one));
  }
  case KindRow::Counted::Things:
    if (const std::string_view noun = words::sold_as(project.language, purchase.item.kind);
        !noun.empty())
      return words::figured(n, noun);
    break;
  case KindRow::Counted::Nothing: break;
  }
  return std::to_string(n);
}

} // namespace leafwright::guide
