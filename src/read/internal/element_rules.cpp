#include "read/document.h"
#include "read/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace leafwright::reading {
namespace {

constexpr std::string_view piece_children =
    "score* stamp* window* notch* emboss* distress* ink-edge* round-corners* wash* blend* "
    "splatter* "
    "colour* foil* stitch* tear* glitter* alternative* accept*";
constexpr std::string_view base_children =
    "score* pop-up* stamp* window* notch* emboss* distress* ink-edge* round-corners* wash* blend* "
    "splatter* colour* foil* stitch* tear* glitter* alternative* accept*";
constexpr std::string_view piece_choices =
    "size|inset|width,height at|places raised|with squares|tape";

constexpr std::array rows = {
    ElementRule{"project", "",
                "intro? maker? caution* supplies! card+ tier* run? selling? "
                "accept*"},
    ElementRule{"accept", "", ""},
    ElementRule{"intro", "", "", true},
    ElementRule{"maker", "", "terms?"},
    ElementRule{"terms", "", "", true},
    ElementRule{"caution", "", "", true},
    ElementRule{"supplies", "",
                "stock* pack* stamps* die* ink* ribbon=spool* twine=spool* embellishment* "
                "adhesive* tool* envelope*"},
    ElementRule{
        "stock", "thing sold", "sheet* accept*", false, {}, "sheet,pack?,price?,each?|<sheet>+"},
    ElementRule{"sheet", "sold", ""},
    ElementRule{"pack", "thing", "holds+ accept*"},
    ElementRule{"holds", "", ""},
    ElementRule{"stamps", "thing sold", "image+ accept*"},
    ElementRule{"image", "thing", "path* text* shape* picture*"},
    ElementRule{"path", "", ""},
    ElementRule{"text", "", "", true},
    ElementRule{"shape", "", "", false, {}, "outline|outline=free,grid,d"},
    ElementRule{"picture", "", ""},
    ElementRule{"die", "thing outline sold", "accept*"},
    ElementRule{"ink", "thing sold", "accept*"},
    ElementRule{"spool", "thing sold", "accept*"},
    ElementRule{"embellishment", "thing outline sold", "path* text* shape* picture*"},
    ElementRule{"adhesive", "thing sold", "accept*"},
    ElementRule{"tool", "thing sold", "accept*"},
    ElementRule{"envelope", "thing sold", "accept*"},

    ElementRule{"card",
                "",
                "intro? base! panel* band* liner* ribbon* embellish* stamp=card/stamp* step* tip* "
                "accept*",
                false,
                {},
                "form=top-fold/side-fold/tent/gate/z/flat/tag/easel|form=accordion,leaves|"
                "form=custom,unfolded,leaves? picture,picture-words|"},
    ElementRule{"base", "outline", base_children},
    ElementRule{"panel", "piece outline", piece_children, false, piece_choices},
    ElementRule{"band", "piece outline", piece_children, false, piece_choices},
    ElementRule{"liner", "piece outline", piece_children, false, piece_choices},
    ElementRule{"score", "", ""},
    ElementRule{"stamp", "stamping", "", false, "at|places"},
    ElementRule{"card/stamp", "stamping", "", false, "at|places"},
    ElementRule{"window", "outline", ""},
    ElementRule{"notch", "", ""},
    ElementRule{"pop-up", "", ""},
    ElementRule{"emboss", "", ""},
    ElementRule{"distress", "", ""},
    ElementRule{"ink-edge", "", ""},
    ElementRule{"round-corners", "", ""},
    ElementRule{"wash", "technique", ""},
    ElementRule{"blend", "technique", ""},
    ElementRule{"splatter", "technique", ""},
    ElementRule{"colour", "technique", ""},
    ElementRule{"foil", "technique", ""},
    ElementRule{"stitch", "technique", ""},
    ElementRule{"tear", "technique", ""},
    ElementRule{"glitter", "technique", ""},
    ElementRule{"alternative", "", "", true},
    ElementRule{"ribbon", "", "accept*"},
    ElementRule{"embellish", "", "accept*", false, "at|places"},
    ElementRule{"step", "", "tip? caution?", true, {}, "picture,picture-words|"},
    ElementRule{"tip", "", "", true},

    ElementRule{"tier", "thing", "blurb? include* own* swap? accept*"},
    ElementRule{"blurb", "", "", true},
    ElementRule{"include", "", ""},
    ElementRule{"own", "", "", false, "item|any", "item|any"},
    ElementRule{"swap", "", "choice*"},
    ElementRule{"choice", "", ""},

    ElementRule{"run", "",
                "column* expect* in-hand* order* supplier* day-off* work? labels? class? "
                "accept*"},
    ElementRule{"column", "", "value*"},
    ElementRule{"value", "", ""},
    ElementRule{"order", "", ""},
    ElementRule{"supplier", "", ""},
    ElementRule{"day-off", "", ""},
    ElementRule{"work", "", ""},
    ElementRule{"labels", "", ""},
    ElementRule{"class", "", "slot*"},
    ElementRule{"slot", "", "", false, "card|kind"},
    ElementRule{"selling", "", "fees? postage* packing? outlay*"},
    ElementRule{"fees", "", ""},
    ElementRule{"postage", "", ""},
    ElementRule{"packing", "", ""},
    ElementRule{"outlay", "", "", true},
    ElementRule{"expect", "", ""},
    ElementRule{"in-hand", "", "", false, "sheets|count|length sheets|offcut length|offcut",
                "sheets|count|length|offcut,count?"},
};

} // namespace

std::vector<std::string_view> parted(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(separator), text.size());
    parts.push_back(text.substr(0, end));
    if (end + 1 == text.size()) parts.emplace_back(); // behind a separator at the end
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return parts;
}

std::vector<ChildRule> children_of(const ElementRule& rule) {
  std::vector<ChildRule> all;
  for (std::string_view child : parted(rule.children, ' ')) {
    const char count = child.back();
    child.remove_suffix(1);
    const std::vector<std::string_view> sides = parted(child, '=');
    all.push_back({sides.front(), sides.back(), count});
  }
  return all;
}

std::span<const ElementRule> element_rules() { return rows; }

// Its name first, then what is its own, then what it shares.
std::vector<Attribute> attributes_of(const ElementRule& rule) {
  std::vector<Attribute> all;
  const auto add = [&](std::string_view owner) {
    for (const Attribute& one : attribute_rows())
      if (one.element == owner) all.push_back(one);
  };
  std::string_view groups = rule.groups;
  if (groups.starts_with("thing")) {
    add("@thing");
    groups.remove_prefix(std::min<std::size_t>(6, groups.size()));
  }
  const bool piece = groups.starts_with("piece");
  if (!piece) add(rule.key);
  for (const std::string_view group : parted(groups, ' ')) add("@" + std::string(group));
  return all;
}

const ElementRule* rule_for(std::string_view key) {
  const auto found = std::find_if(rows.begin(), rows.end(),
                                  [&](const ElementRule& rule) { return rule.key == key; });
  return found == rows.end() ? nullptr : &*found;
}

std::string_view value_type(std::string_view element, std::string_view attribute) {
  const ElementRule* rule = rule_for(element);
  if (rule == nullptr) return {};
  const std::vector<Attribute> all = attributes_of(*rule);
  const auto found = std::ranges::find(all, attribute, &Attribute::name);
  return found == all.end() ? std::string_view{} : found->type;
}

std::string reference_tables() {
  std::string out;
  const auto table = [&](const std::vector<Attribute>& all) {
    out += "| attribute | value | without it | |\n|---|---|---|---|\n";
    for (const Attribute& one : all) {
      std::string type;
      for (const std::string_view word : parted(one.type, '|'))
        type += fmt::format("{}`{}`", type.empty() ? "" : " ", word);
      out += fmt::format("| `{}`{} | {} | {} | {} |\n", one.name, one.required ? "!" : "", type,
                         one.fallback, one.help);
    }
    out += "\n";
  };
  for (const ElementRule& rule : element_rules()) {
    const std::vector<Attribute> own = attributes_of(rule);
    if (own.empty()) continue;
    const std::string key = rule.key == "spool" ? "ribbon> and <twine" : std::string(rule.key);
    out += fmt::format("### `<{}>`{}\n\n", key == "card/stamp" ? "stamp" : key,
                       key == "card/stamp"   ? " on a card"
                       : rule.key == "spool" ? " among supplies"
                                             : "");
    table(own);
  }
  return out;
}

} // namespace leafwright::reading
