#include "guide/change/internal/report_parts.h"
#include "guide/change/report.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "records/records.h"

#include <type_traits>

namespace leafwright::guide {

namespace {

using records::Json;
using records::millimetre_text;

using change::ThingChange;

void write_worth(Json& json, const std::optional<change::FactValue>& worth) {
  if (!worth) {
    json.nothing();
    return;
  }
  std::visit(
      [&](const auto& what) {
        using What = std::decay_t<decltype(what)>;
        if constexpr (std::is_same_v<What, std::string>) {
          json.text(what);
        } else if constexpr (std::is_same_v<What, std::int64_t>) {
          json.number(what);
        } else if constexpr (std::is_same_v<What, Length>) {
          json.open_object().key("mm").decimal(millimetre_text(what)).close_object();
        } else if constexpr (std::is_same_v<What, Size>) {
          json.open_object().key("width_mm").decimal(millimetre_text(what.width));
          json.key("height_mm").decimal(millimetre_text(what.height)).close_object();
        } else if constexpr (std::is_same_v<What, Point>) {
          json.open_object().key("x_mm").decimal(millimetre_text(what.x));
          json.key("y_mm").decimal(millimetre_text(what.y)).close_object();
        } else if constexpr (std::is_same_v<What, Money>) {
          json.open_object().key("minor").number(what.minor);
          json.key("currency").text(what.currency.code).close_object();
        } else {
          json.text("drawing");
        }
      },
      *worth);
}

const char* how_word(ThingChange::How how) {
  return how == ThingChange::How::Added  ? "added"
         : how == ThingChange::How::Gone ? "gone"
                                         : "changed";
}
const char* kind_word(change::Kind kind) {
  constexpr const char* words[] = {"project", "card",   "piece", "ribbon", "embellishment",
                                   "step",    "supply", "tier",  "run"};
  return words[as_index(kind)];
}

void write_things(Json& json, const ChangeStory& story) {
  json.key("things").open_array();
  for (const ThingChange& change : story.comparison.things) {
    json.open_object().key("kind").text(kind_word(change.now().kind));
    json.key("id").text(change.now().key).key("name").text(thing_words(change.now()));
    json.key("how").text(how_word(change.how)).key("facts").open_array();
    for (const change::FactChange& fact : change.facts) {
      json.open_object().key("fact").text(fact.name).key("before");
      write_worth(json, fact.before);
      json.key("after");
      write_worth(json, fact.after);
      json.close_object();
    }
    json.close_array().close_object();
  }
  json.close_array().key("unaffected").open_array();
  for (const change::Thing& thing : story.comparison.same) json.text(thing.key);
  json.close_array();
}

void write_counts(Json& json, const char* name, std::int64_t before, std::int64_t after) {
  json.key(name).open_object().key("before").number(before).key("after").number(after);
  json.close_object();
}

void write_table(Json& json, const change::TableVerdict& verdict) {
  json.key("table").open_object();
  json.key("good").number(verdict.good).key("to_trim").number(verdict.trimmed);
  json.key("spare").number(verdict.spare).key("lost").number(verdict.lost);
  json.key("to_cut").number(verdict.recut).key("sheets").number(verdict.sheets);
  json.key("offcuts").number(verdict.offcuts);
  json.key("piles").open_array();
  for (const change::Pile& pile : verdict.piles) {
    const supply::CutLine& line = verdict.old_run.lines.at(as_index(pile.old_line));
    json.open_object().key("letter").text(line.letter).key("cut").number(pile.cut);
    json.key("good").number(pile.good).key("to_trim").number(pile.trimmed);
    json.key("spare").number(pile.spare).key("lost").number(pile.lost).close_object();
  }
  json.close_array().key("wanted").open_array();
  for (const change::Wanted& want : verdict.wanted) {
    const supply::CutLine& line = verdict.to_cut.lines.at(as_index(want.new_line));
    json.open_object().key("letter").text(line.letter).key("needed").number(want.needed);
    json.key("have").number(want.good + want.trimmed).key("to_cut").number(want.to_cut);
    json.close_object();
  }
  json.close_array().close_object();
}

void write_steps(Json& json, const ChangeStory& story) {
  json.key("steps").open_array();
  for (const StepChange& step : story.steps) {
    json.open_object().key("card").text(step.section);
    json.key("before").text(step.number_before).key("after").text(step.number);
    json.key("title").text(step.title.empty() ? step.title_before : step.title);
    json.key("words").truth(step.words).key("drawing").truth(step.drawing).close_object();
  }
  json.close_array();
}

} // namespace

std::string change_json(const ChangeStory& story) {
  Json json;
  const change::Comparison& comparison = story.comparison;
  json.open_object().key("schema").number(1);
  json.key("before").text(story.label_before).key("after").text(story.label_after);
  json.key("written").open_array();
  for (const SourceChange& one : story.written) {
    json.open_object().key("where").text(one.where).key("before").text(one.before);
    json.key("after").text(one.after).close_object();
  }
  json.close_array();
  write_things(json, story);
  json.key("findings").open_array();
  for (const change::FindingChange& one : comparison.findings) {
    json.open_object().key("how").text(one.gone ? "gone" : "new");
    json.key("code").text(one.finding.code).key("found").text(one.finding.found);
    json.key("mend").text(one.finding.fix).close_object();
  }
  json.close_array().key("sheets").open_array();
  for (const change::SheetCounts& one : comparison.sheets) {
    json.open_object().key("paper").text(one.kit.name);
    write_counts(json, "kit", one.kit.before, one.kit.after);
    write_counts(json, "run", one.run.before, one.run.after);
    json.close_object();
  }
  json.close_array().key("supplies").open_array();
  for (const change::BuyingChange& one : comparison.buying) {
    json.open_object().key("item").text(one.name).key("moved").truth(one.moved());
    write_counts(json, "needed", one.needed_before, one.needed_after);
    write_counts(json, "bought", one.bought_before, one.bought_after);
    write_counts(json, "cost_minor", one.cost_before.minor, one.cost_after.minor);
    json.close_object();
  }
  json.close_array();
  write_counts(json, "total_minor", comparison.total_before.minor, comparison.total_after.minor);
  write_steps(json, story);
  if (story.pages) {
    json.key("pages").open_object();
    json.key("before").number(static_cast<std::int64_t>(story.pages->before));
    json.key("after").number(static_cast<std::int64_t>(story.pages->after));
    json.key("changed").open_array();
    for (const std::string& page : story.pages->changed) json.text(page);
    json.close_array().close_object();
  }
  if (comparison.table) write_table(json, *comparison.table);
  json.close_object();
  return json.take();
}

std::string fact_words(const std::optional<change::FactValue>& worth, const Printing& how) {
  if (!worth) return "–";
  return std::visit(
      [&](const auto& what) -> std::string {
        using What = std::decay_t<decltype(what)>;
        if constexpr (std::is_same_v<What, std::string>)
          return what.empty() ? "–" : what;
        else if constexpr (std::is_same_v<What, std::int64_t>)
          return std::to_string(what);
        else if constexpr (std::is_same_v<What, Length> || std::is_same_v<What, Size>)
          return unrounded(what, how);
        else if constexpr (std::is_same_v<What, Point>)
          return unrounded(what.x, how) + " from left, " + unrounded(what.y, how) + " from top";
        else if constexpr (std::is_same_v<What, Money>)
          return money_text(what);
        else
          return "its drawing";
      },
      *worth);
}

std::string thing_words(const change::Thing& thing) {
  const change::FactValue* letter = thing.find("letter");
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
    parts.push_back(unrounded(sides[i].length, how) + " off the " + words::listed(names));
  }
  return "cut " + words::listed(parts);
}

std::string loss_words(const change::Refit& refit, const Printing& how) {
  switch (refit.loss) {
  case change::Loss::Paper: return "it is another paper now";
  case change::Loss::Outline: return "it has another outline";
  case change::Loss::Fold: return "its old fold would show";
  case change::Loss::Opening: return "its old opening would show";
  case change::Loss::TooSmall: {
    std::vector<std::string> parts;
    if (refit.narrow.nm > 0) parts.push_back(unrounded(refit.narrow, how) + " too narrow");
    if (refit.low.nm > 0) parts.push_back(unrounded(refit.low, how) + " too short");
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
  if (refit.turned) parts.emplace_back("give it a quarter turn");
  if (refit.left.nm > 0 || refit.right.nm > 0 || refit.top.nm > 0 || refit.bottom.nm > 0)
    parts.push_back(trim_words(refit, how));
  if (refit.cut_out)
    parts.push_back("cut the new outline out of it" +
                    (refit.around.nm > 0
                         ? " (only " + unrounded(refit.around, how) + " is left all round)"
                         : std::string()));
  if (refit.new_scores > 0)
    parts.push_back("score " + words::counted(refit.new_scores, "new line"));
  if (refit.new_windows > 0) parts.push_back("cut " + words::counted(refit.new_windows, "opening"));
  return parts.empty() ? "use it as it is" : words::listed(parts);
}

} // namespace leafwright::guide
