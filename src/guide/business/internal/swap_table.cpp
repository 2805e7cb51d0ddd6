#include "guide/business/internal/swap_table.h"

#include "guide/prose.h"
#include "guide/sections.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/tier/substitution.h"

#include <algorithm>
#include <vector>

namespace leafwright::guide {
namespace {

constexpr std::size_t shown_answers = 2; // and one that costs a little more: three in all

std::string choice_words(const Project& project, const SwapChoice& choice, int times) {
  const bool whole_thing = choice.amount.kind == Amount::Kind::Whole && choice.amount.count == 1;
  std::string words = item_noun(project, choice.item);
  if (choice.item.kind == ItemKind::Ink) words += " ink";
  if (!whole_thing) words += ", " + included_words(project, choice.item, choice.amount, nullptr);
  return times == 1 ? words : std::to_string(times) + "\u00A0× " + words;
}

std::string answer_words(const Project& project, const Tier& tier, const tiers::SwapAnswer& one) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < one.counts.size(); ++i)
    if (one.counts[i] > 0)
      parts.push_back(choice_words(project, tier.substitution.choices.at(i), one.counts[i]));
  std::string words = words::listed(parts) + ", " + money_text(one.value);
  if (one.to_pay.minor > 0) return words + " (you add " + money_text(one.to_pay) + ")";
  return words;
}

} // namespace

std::optional<Table> swap_table(const Project& project, int index) {
  const Tier& tier = project.tiers.at(as_index(index));
  if (!tier.substitution.allowed || tier.substitution.choices.empty()) return std::nullopt;
  Table table;
  table.caption = "What you can pick instead: " + tier.name;
  table.columns = {
      {plain("You own (" + in_sentence(tier.name) + ")"), Column::Align::Left, 1.5, true},
      {plain("Credit"), Column::Align::Right, 0.5, false},
      {plain("Pick instead"), Column::Align::Left, 3.6, false}};
  std::vector<ItemRef> told;
  for (const Inclusion& one : tier.includes) {
    if (one.gift || std::find(told.begin(), told.end(), one.item) != told.end()) continue;
    told.push_back(one.item);
    const std::vector<ItemRef> owned{one.item};
    const tiers::SwapAnswers answers = tiers::swap_answers(project, index, owned, shown_answers);
    if (answers.credit.credit.minor <= 0) continue;
    Row row;
    row.cells = {plain(item_name(project, one.item)), plain(money_text(answers.credit.credit)), {}};
    std::vector<std::string> lines;
    for (const tiers::SwapAnswer& answer : answers.within)
      lines.push_back(answer_words(project, tier, answer));
    if (!answers.above.empty()) lines.push_back(answer_words(project, tier, answers.above.front()));
    std::string words;
    for (std::size_t i = 0; i < lines.size(); ++i) words += (i > 0 ? ". Or " : "") + lines[i];
    words = words::sentence_case(words);
    row.cells[2] = plain(words.empty() ? "Nothing on our list costs so little." : words + ".");
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) return std::nullopt;
  return table;
}

} // namespace leafwright::guide
