#include "read/internal/vocabulary.h"

#include "measure/letters.h"
#include "read/source.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace leafwright::reading {
namespace {

constexpr std::size_t longest = 40; // names beyond are not compared: nobody means them by mistake

std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c == '-' || c == '_') continue;
    out += small_letter(c);
  }
  return out;
}

// Optimal string alignment; three rows are enough because a swap looks back two.
std::size_t distance(std::string_view a, std::string_view b) {
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};
  const auto row = [&](std::size_t i) -> auto& { return rows.at(i % 3); };
  for (std::size_t j = 0; j <= b.size(); ++j) row(0).at(j) = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row(i).at(0) = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = row(i - 1).at(j - 1) + (a[i - 1] == b[j - 1] ? 0 : 1);
      std::size_t best = std::min({replaced, row(i - 1).at(j) + 1, row(i).at(j - 1) + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) best = std::min(best, row(i - 2).at(j - 2) + 1);
      row(i).at(j) = best;
    }
  }
  return row(a.size()).at(b.size());
}

} // namespace

std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string wanted = plain(word);
  if (wanted.empty() || wanted.size() > longest) return {};
  std::size_t best = std::max<std::size_t>(1, (wanted.size() + 1) / 3) + 1;
  std::string_view nearest;
  for (const std::string_view candidate : candidates) {
    const std::string other = plain(candidate);
    if (other.empty() || other.size() > longest) continue;
    const std::size_t apart =
        other.size() > wanted.size() ? other.size() - wanted.size() : wanted.size() - other.size();
    if (apart >= best) continue;
    const std::size_t d = distance(wanted, other);
    if (d < best && d < wanted.size()) {
      best = d;
      nearest = candidate;
    }
  }
  return nearest;
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string_view near = nearest_name(word, candidates);
  if (!near.empty()) return fmt::format("did you mean {}?", near);
  if (candidates.empty()) return "there is none to choose from";
  constexpr std::size_t most = 8;
  std::string list;
  for (std::size_t i = 0; i < candidates.size() && i < most; ++i)
    list += fmt::format("{}{}", i == 0 ? "" : ", ", candidates[i]);
  return fmt::format("choose one of: {}{}", list, candidates.size() > most ? " …" : "");
}

namespace {

#define LEAFWRIGHT_SOLD " pack price each"
#define LEAFWRIGHT_OUTLINE " shape grid outline radius depth points edge"
#define LEAFWRIGHT_PIECE                                                                           \
  "id! name like stock on size inset width height at places turn die cut cut-from raised with "    \
  "layers squares tape over-edge under" LEAFWRIGHT_OUTLINE
#define LEAFWRIGHT_PIECE_CHILDREN                                                                  \
  "score* stamp* window* emboss* distress* ink-edge* round-corners* alternative*"
#define LEAFWRIGHT_STAMPING "image! ink method times fading columns rows turn at places"

constexpr std::string_view piece_choices =
    "size|inset|width,height at|places raised|with squares|tape";

constexpr std::array rules = {
    ElementRule{"project",
                "version! id! title! subtitle language units print-to print-other print-other-to currency "
                "edition date accent paper level",
                "intro? maker? caution* supplies! card+ tier* run? selling?"},
    ElementRule{"intro", "", "", true},
    ElementRule{"maker", "name! contact web", "terms?"},
    ElementRule{"terms", "", "", true},
    ElementRule{"caution", "", "", true},
    ElementRule{"supplies", "",
                "stock* pack* stamps* die* ink* ribbon=spool* twine=spool* embellishment* "
                "adhesive* tool* envelope*"},
    ElementRule{"stock",
                "id! name kind weight caliper colour figure pattern repeat upright grain "
                "sheet" LEAFWRIGHT_SOLD,
                "sheet*"},
    ElementRule{"sheet", "size!" LEAFWRIGHT_SOLD, ""},
    ElementRule{"pack", "id! name price", "holds+"},
    ElementRule{"holds", "stock! sheets", ""},
    ElementRule{"stamps", "id! name" LEAFWRIGHT_SOLD, "image+"},
    ElementRule{"image", "id! name size! grid", "path* text* shape* picture*"},
    ElementRule{"path", "d! line tone ink", ""},
    ElementRule{"text", "face height! at tone ink", "", true},
    ElementRule{"shape", "outline! grid d radius depth points edge box line tone ink", ""},
    ElementRule{"picture", "file! box tone ink", ""},
    ElementRule{"die", "id! name size!" LEAFWRIGHT_OUTLINE LEAFWRIGHT_SOLD, ""},
    ElementRule{"ink", "id! name colour mark" LEAFWRIGHT_SOLD, ""},
    ElementRule{"spool", "id! name width! thickness spool colour" LEAFWRIGHT_SOLD, ""},
    ElementRule{"embellishment",
                "id! name size! height small-part hard colour" LEAFWRIGHT_OUTLINE LEAFWRIGHT_SOLD,
                "path* text* shape* picture*"},
    ElementRule{"adhesive",
                "id! name kind! thickness width length piece count spacing mass "
                "spread" LEAFWRIGHT_SOLD,
                ""},
    ElementRule{"tool", "id! name risk cut-length smallest-strip stack optional" LEAFWRIGHT_SOLD,
                ""},
    ElementRule{"envelope", "id! name size! weight colour" LEAFWRIGHT_SOLD, ""},

    ElementRule{"card",
                "id! title! form! leaves unfolded size! minutes level envelope picture "
                "picture-words",
                "intro? base! panel* band* liner* ribbon* embellish* stamp=card/stamp* step* tip*"},
    ElementRule{"base", "id name stock! cut" LEAFWRIGHT_OUTLINE, LEAFWRIGHT_PIECE_CHILDREN},
    ElementRule{"panel", LEAFWRIGHT_PIECE, LEAFWRIGHT_PIECE_CHILDREN, false, piece_choices},
    ElementRule{"band", LEAFWRIGHT_PIECE, LEAFWRIGHT_PIECE_CHILDREN, false, piece_choices},
    ElementRule{"liner", LEAFWRIGHT_PIECE, LEAFWRIGHT_PIECE_CHILDREN, false, piece_choices},
    ElementRule{"score", "at! along fold", ""},
    ElementRule{"stamp", LEAFWRIGHT_STAMPING, "", false, "at|places"},
    ElementRule{"card/stamp", "on! " LEAFWRIGHT_STAMPING, "", false, "at|places"},
    ElementRule{"window", "id size die at" LEAFWRIGHT_OUTLINE, ""},
    ElementRule{"emboss", "with", ""},
    ElementRule{"distress", "with", ""},
    ElementRule{"ink-edge", "ink! with", ""},
    ElementRule{"round-corners", "radius! with", ""},
    ElementRule{"alternative", "", "", true},
    ElementRule{"ribbon", "id of! as on along at extra length adhesive", ""},
    ElementRule{"embellish", "id with! on times at places", "", false, "at|places"},
    ElementRule{"step", "for title picture picture-words", "tip? caution?", true},
    ElementRule{"tip", "", "", true},

    ElementRule{"tier", "id! name price audience open shipping parts ready",
                "blurb? include* own* swap?"},
    ElementRule{"blurb", "", "", true},
    ElementRule{"include", "item! amount gift cards value", ""},
    ElementRule{"own", "item any", "", false, "item|any"},
    ElementRule{"swap", "allowed top-up over most round-down", "choice*"},
    ElementRule{"choice", "item! amount value most", ""},

    ElementRule{"run", "of-each spare spare-pieces reply-by ship-by roster wrapping",
                "expect* in-hand* order* supplier* day-off* work? labels? class?"},
    ElementRule{"order", "name! address tier! quantity owned swaps region note date", ""},
    ElementRule{"supplier", "name! lead-days! items", ""},
    ElementRule{"day-off", "date! until name", ""},
    ElementRule{"work", "days minutes-a-day people setting cut die stamp part item parcel", ""},
    ElementRule{"labels", "paper size! columns! rows! left top gap-across gap-down first", ""},
    ElementRule{"class", "date start places tables venue", "slot*"},
    ElementRule{"slot", "card title minutes kind", "", false, "card|kind"},
    ElementRule{"selling", "", "fees? postage* packing? outlay*"},
    ElementRule{"fees", "percent fixed", ""},
    ElementRule{"postage", "up-to cost!", ""},
    ElementRule{"packing", "cost!", ""},
    ElementRule{"outlay", "cost!", "", true},
    ElementRule{"expect", "tier! kits!", ""},
    ElementRule{"in-hand", "item! sheets count length offcut", "", false,
                "sheets|count|length sheets|offcut length|offcut"},
};

#undef LEAFWRIGHT_SOLD
#undef LEAFWRIGHT_OUTLINE
#undef LEAFWRIGHT_PIECE
#undef LEAFWRIGHT_PIECE_CHILDREN
#undef LEAFWRIGHT_STAMPING

} // namespace

std::span<const ElementRule> element_rules() { return rules; }

const ElementRule* rule_for(std::string_view key) {
  const auto found = std::find_if(rules.begin(), rules.end(),
                                  [&](const ElementRule& rule) { return rule.key == key; });
  return found == rules.end() ? nullptr : &*found;
}

} // namespace leafwright::reading
