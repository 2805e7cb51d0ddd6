#include "plan/fit/check.h"

#include "plan/fit/internal/rules.h"
#include "plan/supply/sheets.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace leafwright::fit {

namespace {

struct Entry {
  Rule rule;
  CardRule card = nullptr; // one of the two is set
  ProjectRule project = nullptr;
};

void sheet_too_small(const Project& project, const supply::CuttingPlan* sheets, Reporter& report) {
  const Findings found = sheets ? sheets->findings : supply::pieces_without_sheet(project);
  for (const Finding& finding : found)
    report(finding.place, finding.found, finding.expected, finding.fix).trace = finding.trace;
}

using enum Severity;

constexpr std::array entries{
    Entry{{"fit-mat-wider", Error, "a layer is larger than the side of the card it lies on"},
          mat_wider},
    Entry{{"fit-off-card", Error, "a layer reaches past the edge of the card or its envelope"},
          off_card},
    Entry{{"fit-overhang", Warning, "a layer reaches past what carries it and is not said to"},
          overhang},
    Entry{{"fit-stuck-past", Error, "adhesive goes past what a layer is stuck to"}, stuck_past},
    Entry{{"fit-reveal", Warning, "an inset does not show the same on every side"}, reveal_unequal},
    Entry{{"fit-reveal-slip", Note, "opposite edges differ by so little that it looks like a slip"},
          reveal_slip},
    Entry{{"fit-over-fold", Warning, "a layer lies across a fold without a score"}, over_fold},
    Entry{{"fit-base", Error, "the base does not fold to the size of the card"}, base_size},
    Entry{{"fit-score", Error, "a fold has no score, or a score has no fold"}, score_at_fold},
    Entry{{"fit-gates", Error, "the gates overlap"}, gates_overlap},
    Entry{{"fit-gate-gap", Note, "the gates leave a gap between them"}, gates_gap},
    Entry{{"fit-grain", Warning, "a fold runs across the grain and will crack"}, grain_across_fold},
    Entry{{"fit-die", Error, "a die is larger than the piece it cuts from"}, die_larger_than_piece},
    Entry{{"fit-die-size", Warning, "a die-cut piece is not the size its die cuts"},
          die_of_other_size},
    Entry{{"fit-window", Error, "a window reaches past the edge of its piece"}, window_past_edge},
    Entry{{"fit-window-rim", Warning, "a window leaves a rim that tears"}, window_rim_thin},
    Entry{{"fit-strip", Warning, "a piece is narrower than the trimmer holds"}, strip_too_narrow},
    Entry{{"fit-image", Warning, "a stamped image reaches past what it is stamped on"},
          image_past_panel},
    Entry{{"fit-image-window", Warning, "an image is stamped where its piece has a window"},
          image_in_window},
    Entry{{"fit-image-inks", Warning, "an image is given more inks than it has colors"},
          image_short_of_colours},
    Entry{{"fit-embellishment", Warning, "an embellishment reaches past what it sits on"},
          embellishment_past_edge},
    Entry{{"fit-ribbon", Error, "a ribbon is cut shorter than its way"}, ribbon_short},
    Entry{{"fit-ribbon-ends", Warning, "a ribbon leaves too little for its ends or its tie"},
          ribbon_ends_short},
    Entry{{"fit-ribbon-spool", Error, "one cut of ribbon is longer than a spool"},
          ribbon_longer_than_spool},
    Entry{{"fit-band", Warning, "a paper band does not go round with an overlap"}, band_short},
    Entry{{"fit-ribbon-edge", Warning, "a ribbon lies past the edge of what it is tied round"},
          ribbon_past_edge},
    Entry{{"fit-adhesive", Warning, "a piece is narrower than its adhesive"},
          adhesive_wider_than_piece},
    Entry{{"fit-hollow", Warning, "a layer lies partly on a raised one and partly on nothing"},
          hollow_beneath},
    Entry{{"fit-hidden", Note, "a layer is wholly hidden by a later one"}, hidden_layer},
    Entry{{"fit-step-work", Warning,
           "a step of the author's speaks of cutting or rounding that is also written for it"},
          work_named_in_words},
    Entry{{"fit-image-hidden", Warning, "a stamped image is wholly covered by a later layer"},
          image_hidden},
    Entry{{"fit-pane", Warning, "a clear or vellum pane is smaller than the window it backs"},
          pane_too_small},
    Entry{{"fit-glued-shut", Warning, "a layer is glued across the edge where the card opens"},
          glued_shut},
    Entry{{"fit-pocket", Error, "a piece does not fit into the pocket it is tucked into"},
          pocket_too_narrow},
    Entry{{"fit-pocket-place", Warning, "a piece lies over the adhesive of its pocket"},
          pocket_misses},
    Entry{{"fit-pocket-grip", Warning, "a piece cannot be pulled out of its pocket"},
          pocket_without_grip},
    Entry{{"fit-easel", Error, "an easel card has no panel on its flap alone"},
          easel_without_panel},
    Entry{{"fit-easel-stopper", Warning, "nothing stops the panel of an easel card"},
          easel_without_stopper},
    Entry{{"fit-pop-up", Error, "a pop-up does not close inside its card"}, pop_up_past_edge},
    Entry{{"fit-pop-up-layer", Error, "a layer on a pop-up keeps the card from closing or opening"},
          layer_past_pop_up},
    Entry{{"fit-stock-work", Warning, "a stock does not bear what is done to it"},
          stock_does_not_bear},
    Entry{{"fit-stock-care", Note, "a stock wants care with what is done to it"}, stock_wants_care},
    Entry{{"fit-ink-wet", Warning, "an ink does not dry on what is stamped"}, ink_stays_wet},
    Entry{{"fit-wash-order", Warning, "a wash is laid over images that it dissolves"},
          washed_over_stamping},
    Entry{{"fit-wash-paper", Note, "a wash buckles paper that is not made for it"},
          wet_paper_buckles},
    Entry{{"fit-emboss-order", Note, "a piece is dry embossed before it is heat embossed"},
          embossed_before_heat},
    Entry{{"fit-folder", Warning, "an embossing folder or stencil is smaller than its piece"},
          folder_too_small},
    Entry{{"fit-order-thread", Warning, "a cord is threaded through a piece that is stuck down"},
          threaded_late},
    Entry{{"fit-order-press", Note, "a layer is pressed onto a piece that hangs free"},
          pressed_on_hanging},
    Entry{{"fit-order-wrap", Warning, "a ribbon is wrapped over stamping that is finished"},
          wrapped_over_stamping},
    Entry{{"fit-envelope", Error, "the closed card is larger than its envelope"},
          envelope_too_small},
    Entry{{"fit-envelope-snug", Warning, "the closed card has too little room in its envelope"},
          envelope_snug},
    Entry{{"fit-envelope-thick", Warning, "with its layers the card is too thick for its envelope"},
          envelope_bulges},
    Entry{{"fit-thickness", Note, "a paper or foam has no known thickness"}, thickness_unknown},
    Entry{{"fit-mail-size", Note, "the envelope is too small or too large for a letter"},
          mail_size},
    Entry{{"fit-mail-thickness", Note, "the letter is too thick or too thin"}, mail_thickness},
    Entry{{"fit-mail-shape", Note, "the envelope is too square or too long for sorting machines"},
          mail_shape},
    Entry{{"fit-mail-uneven", Note, "raised parts make the letter uneven"}, mail_uneven},
    Entry{{"fit-mail-rigid", Note, "the letter holds something hard"}, mail_rigid},
    Entry{{"fit-outline", Warning, "a drawn outline does not fill the size that is said"},
          nullptr,
          outline_in_part},
    Entry{{"fit-sheet", Error, "a piece fits on no sheet of its stock"}, nullptr, sheet_too_small},
    Entry{{"fit-cut-length", Warning, "a sheet is wider than the trimmer cuts"},
          nullptr,
          cut_too_long},
    Entry{{"fit-margin", Note, "a cut leaves less of the sheet than the trimmer holds"},
          nullptr,
          margin_too_narrow},
    Entry{{"fit-weekday", Warning, "a weekday contradicts its date"}, nullptr, weekday_contradicts},
    Entry{{"fit-dates", Error, "replies are due after kits are sent"}, nullptr, reply_after_ship},
    Entry{
        {"fit-unused", Note, "a supply is used by no card and in no tier"}, nullptr, supply_unused},
    Entry{{"fit-language", Note, "our own sentences are not in the project's language"},
          nullptr,
          foreign_language},
    Entry{{"fit-tool-work", Note, "nothing says which work a tool is for"},
          nullptr,
          tool_without_work},
    Entry{{"fit-not-offered", Note, "no tier holds a stamp set or asks for it"},
          nullptr,
          stamps_not_offered},
};

constexpr auto table = [] {
  std::array<Rule, entries.size()> all{};
  for (std::size_t i = 0; i < entries.size(); ++i) all[i] = entries[i].rule;
  return all;
}();

// The post asks the same of several cards: it is told once, the others stand behind the first.
void tell_mail_once(Findings& findings) {
  for (std::size_t i = 0; i < findings.size(); ++i) {
    if (!findings[i].code.starts_with("fit-mail-")) continue;
    for (std::size_t j = i + 1; j < findings.size();) {
      Finding& first = findings[i];
      const Finding& other = findings[j];
      if (other.code != first.code || other.expected != first.expected || other.fix != first.fix) {
        ++j;
        continue;
      }
      first.trace.push_back({other.place, other.found});
      findings.erase(findings.begin() + static_cast<std::ptrdiff_t>(j));
    }
  }
}

} // namespace

std::span<const Rule> rules() { return table; }

Findings check_batch(const Project& project, const supply::CuttingPlan& sheets) {
  Findings findings;
  const auto* margin = std::find_if(entries.begin(), entries.end(), [](const Entry& entry) {
    return entry.project == margin_too_narrow;
  });
  Reporter report(margin->rule, project, findings);
  batch_margin_too_narrow(project, sheets, report);
  leave_out_accepted(project, findings);
  return findings;
}

Findings check(const Project& project, const supply::CuttingPlan* sheets) {
  Findings findings;
  for (const Card& card : project.cards) {
    const ClosedCard closed = closed_card(project, card);
    const Case one{project, card, closed};
    for (const Entry& entry : entries) {
      if (!entry.card) continue;
      Reporter report(entry.rule, project, findings);
      entry.card(one, report);
    }
  }
  for (const Entry& entry : entries) {
    if (!entry.project) continue;
    Reporter report(entry.rule, project, findings);
    entry.project(project, sheets, report);
  }
  leave_out_accepted(project, findings);
  tell_mail_once(findings);
  return findings;
}

} // namespace leafwright::fit
