#pragma once

#include "guide/block.h"
#include "guide/prose.h"
#include "model/project.h"
#include "plan/supply/needs.h"
#include "plan/supply/sheets.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// Short ways to write the blocks of a section.

namespace leafwright::guide {

template <class T>
void add(Section& section, T what, Place place = {}) {
  section.blocks.push_back(Block{std::move(what), place});
}

inline Heading heading(int level, std::string anchor, std::string text, std::string number = {},
                       std::string aside = {}) {
  return {level, std::move(anchor), std::move(text), std::move(number), std::move(aside)};
}
inline Paragraph body(Inlines text) { return {Paragraph::Kind::Body, std::move(text)}; }
inline Paragraph lead(Inlines text) { return {Paragraph::Kind::Lead, std::move(text)}; }
inline Paragraph small(Inlines text) { return {Paragraph::Kind::Small, std::move(text)}; }

// The anchor of a card's chapter.
inline std::string card_anchor(const std::string& card_id) { return "card-" + card_id; }

// Amounts and items as a list names them.

// What a need comes to: "4 sheets", "22 1/4 in", "about 134 in", "16", "1".
std::string amount_words(const Project& project, const supply::Need& need);
// What a tier includes of an item: "whole spool", "24 in", "a quarter of the pack".
std::string included_words(const Project& project, ItemRef item, const Amount& amount,
                           const supply::Need* need);
// An item with what tells it apart in a shop: "Kraft, 80 lb cover, letter"; "Rust grosgrain ribbon,
// 3/8 in wide". Not repeated when the name says it already.
std::string listed_item(const Project& project, ItemRef item);
// "letter", "A4", "12 × 12 in"
std::string sheet_words(const Project& project, const SheetOffer& offer);
// "all" or "1, 3": numbers of the cards; empty when there is one card only.
std::string cards_words(const Project& project, const std::vector<int>& cards);

// Everything about one card: how it looks when done, its pieces, its steps, its layers drawn apart.
// `guides_apart`: no page of this document shows full-size outlines. `ready`: what was done to its
// parts before their buyer makes it.
Section card_section(const Project& project, int card, bool guides_apart = false,
                     supply::PartsReady ready = {});

// "Make two · 35 min · top fold, A2"
std::string card_aside(const Project& project, const Card& card);
// Front, inside, back (when something is on it), and the envelope when it is decorated.
std::vector<Figure> finished_views(const Project& project, const Card& card);
// What the card asks of a hand beside cutting and taping: "stamping off, foam, bow".
std::string skills_words(const Project& project, const Card& card);

// Whether anything lies on, or is stamped on, one side of the card.
bool has_something_on(const Card& card, View view);
// Whether a full-size guide of that side helps: more stands there than can be laid by eye.
bool needs_guide(const Card& card, View view);

// The project's own date, midnight UTC, in seconds since 1970: a document made twice from one
// project is the same document.
std::optional<std::int64_t> epoch_of(const Project& project);
Section cover_section(const Project& project, const std::string& edition);
// Every card at a glance, and the contents. Empty for one card: a few pages need no list.
Section contents_section(const Project& project);

// "Edition 3 · 2 March 2027"
std::string edition_words(const Project& project);
// "About 35 to 45 min each · confident beginner"; empty when neither is known.
std::string effort_words(const Project& project);
// What one kit makes: "nine cards"; tags are called so, "four cards and one tag".
std::string makes_words(const Project& project);
// "2 h 40 min", "35 min"
std::string time_words(int minutes);
// A time of the day, of minutes after midnight: "9:05".
std::string clock_words(int minutes);

// How to read the booklet: letters, lines, units, a scale bar, and the cautions that this project
// calls for.
Section reading_section(const Project& project, const Tier* tier = nullptr);

// Only the cautions: blades, hot tools, rollers, small parts, inks and glues, and the author's own.
// With a tier those that concern its buyers: cut and pressed parts take no trimmer and no rollers.
std::vector<Notice> cautions(const Project& project, const Tier* tier = nullptr);

// What one kit takes: item, amount and the cards that take it, grouped as the trade lists it.
Section supplies_section(const Project& project, const supply::Needs& needs);

// The table alone, for a packing slip or a handout of one card.
Table supplies_table(const Project& project, const supply::Needs& needs);
// The printed name of an item; inks with their chip.
Inlines item_cell(const Project& project, ItemRef item);

// Which tiers a document shows, and what it calls the tutorial.
struct TierView {
  std::vector<int> tiers; // empty: all
  std::string_view tutorial = "This booklet";
};
// The tiers that anyone may take, or those of the team alone.
std::vector<int> tiers_for(const Project& project, Tier::Audience audience);

// Items down, tiers across; only items that some tier holds or asks for.
Table tiers_table(const Project& project, const supply::Needs& needs, const TierView& view = {});
// The others in one sentence; empty when there are none.
Inlines never_included(const Project& project, const supply::Needs& needs,
                       const TierView& view = {});
// The conditions of one tier, each a sentence; its dates and swaps among them unless they are told
// elsewhere, and what its gifts are worth where that is known.
struct TierTelling {
  bool dates = true;
  std::optional<Money> gifts_worth{};
  bool swaps = true;
};
List tier_conditions(const Project& project, const Tier& tier, const TierTelling& context = {});
// What becomes of a thing in the kit that its buyer owns; empty where nothing is said.
List swap_conditions(const Tier& tier);
// "$26.00 + $6.50 postage"
std::string tier_price_words(const Project& project, const Tier& tier);
// What a picture of the cards says below them: "From $9.50 · Order by March 16, 2027"; empty where
// no price and no day is set.
std::string offer_line(const Project& project);

// The cuts of a sheet in order, then scores and what to keep; of a kit as of a run. The first
// entries are the numbers of the diagram, figure::sheet().
List cutting_order(const Project& project, const supply::CuttingPlan& plan,
                   const supply::SheetLayout& layout);
// The same cuts as a table to tick off, and what is said behind them: scores, what to keep.
Table cutting_table(const Project& project, const supply::CuttingPlan& plan,
                    const supply::SheetLayout& layout);
std::vector<Inlines> after_cutting(const Project& project, const supply::CuttingPlan& plan,
                                   const supply::SheetLayout& layout);

// The letters of a piece in dots, as in its diagram.
Inlines letter_dots(const supply::CutPiece& piece);

} // namespace leafwright::guide
