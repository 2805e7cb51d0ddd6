#include "guide/change/worth_words.h"

#include "guide/words/count.h"
#include "guide/words/list.h"
#include "plan/supply/said.h"

#include <type_traits>

namespace leafwright::guide {

std::string worth_words(const std::optional<change::Worth>& worth, const Printing& how) {
  if (!worth) return "–";
  return std::visit(
      [&](const auto& what) -> std::string {
        using What = std::decay_t<decltype(what)>;
        if constexpr (std::is_same_v<What, std::string>)
          return what.empty() ? "–" : what;
        else if constexpr (std::is_same_v<What, std::int64_t>)
          return std::to_string(what);
        else if constexpr (std::is_same_v<What, Length> || std::is_same_v<What, Size>)
          return supply::said(what, how);
        else if constexpr (std::is_same_v<What, Point>)
          return supply::said(what.x, how) + " from left, " + supply::said(what.y, how) +
                 " from top";
        else if constexpr (std::is_same_v<What, Money>)
          return money_text(what);
        else
          return "its drawing";
      },
      *worth);
}

std::string thing_words(const change::Thing& thing) {
  const change::Worth* letter = thing.find("letter");
  const auto* text = letter ? std::get_if<std::string>(letter) : nullptr;
  return text ? thing.name + " (" + *text + ")" : thing.name;
}

namespace {

std::string trim_words(const change::Refit& refit, const Printing& how) {
  struct Side {
    Length length;
    const char* name;
  };
  const Side sides[] = {
      {refit.left, "left"}, {refit.right, "right"}, {refit.top, "top"}, {refit.bottom, "bottom"}};
  std::vector<std::string> parts;
  std::vector<bool> told(4, false);
  for (std::size_t i = 0; i < 4; ++i) {
    if (sides[i].length.nm <= 0 || told[i]) continue;
    std::vector<std::string> names;
    for (std::size_t j = i; j < 4; ++j)
      if (sides[j].length == sides[i].length) {
        told[j] = true;
        names.emplace_back(sides[j].name);
      }
    parts.push_back(supply::said(sides[i].length, how) + " off the " + words::listed(names));
  }
  return "cut " + words::listed(parts);
}

std::string loss_words(const change::Refit& refit, const Printing& how) {
  switch (refit.loss) {
  case change::Loss::Paper: return "it is another paper now";
  case change::Loss::Outline: return "its outline is another";
  case change::Loss::Fold: return "its old fold would stay in sight";
  case change::Loss::Opening: return "its old opening would stay in sight";
  case change::Loss::TooSmall: {
    std::vector<std::string> parts;
    if (refit.narrow.nm > 0) parts.push_back(supply::said(refit.narrow, how) + " too narrow");
    if (refit.low.nm > 0) parts.push_back(supply::said(refit.low, how) + " too low");
    return words::listed(parts);
  }
  case change::Loss::None: break;
  }
  return {};
}

} // namespace

std::string refit_words(const change::Refit& refit, const Printing& how) {
  if (refit.fate == change::Fate::Lost) return loss_words(refit, how);
  std::vector<std::string> parts;
  if (refit.turned) parts.emplace_back("turn it by a quarter");
  if (refit.left.nm > 0 || refit.right.nm > 0 || refit.top.nm > 0 || refit.bottom.nm > 0)
    parts.push_back(trim_words(refit, how));
  if (refit.cut_out) parts.emplace_back("cut the new outline out of it");
  if (refit.new_scores > 0)
    parts.push_back("score " + words::counted(refit.new_scores, "new line"));
  if (refit.new_windows > 0) parts.push_back("cut " + words::counted(refit.new_windows, "opening"));
  return parts.empty() ? "use it as it is" : words::listed(parts);
}

} // namespace leafwright::guide
