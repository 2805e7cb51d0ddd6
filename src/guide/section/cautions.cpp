#include "guide/prose/naming.h"
#include "guide/prose/prose.h"
#include "guide/section/reading.h"
#include "guide/words/letter_case.h"
#include "guide/words/list.h"
#include "guide/words/plural.h"
#include "plan/supply/ready.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

// Names of the tools of one risk, as one says them: "the straight trimmer and the small scissors".
std::vector<std::string> tools_of(const Project& project, Tool::Risk risk) {
  std::vector<std::string> out;
  for (const Tool& tool : project.tools) {
    if (tool.risk != risk) continue;
    // The measure behind a trimmer's name is of no use in a caution.
    out.push_back(in_sentence(tool.name.substr(0, tool.name.find(','))));
  }
  return out;
}

bool any_impression(const Project& project, Impression::Method method) {
  const auto is = [&](const Impression& one) { return one.method == method; };
  for (const Card& card : project.cards) {
    for (const Piece& piece : card.pieces)
      if (std::any_of(piece.stamped.begin(), piece.stamped.end(), is)) return true;
    for (const FaceStamping& one : card.face_stampings)
      if (is(one.impression)) return true;
  }
  return false;
}

std::vector<std::string> small_parts(const Project& project) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < project.embellishments.size(); ++i) {
    const bool used =
        std::any_of(project.cards.begin(), project.cards.end(), [&](const Card& card) {
          return std::any_of(card.embellishments.begin(), card.embellishments.end(),
                             [&](const EmbellishmentUse& use) {
                               return use.embellishment == static_cast<int>(i);
                             });
        });
    if (!used || !project.embellishments[i].small_part) continue;
    out.push_back(
        words::plural(item_noun(project, {ItemKind::Embellishment, static_cast<int>(i)})));
  }
  return out;
}

Notice caution(std::string title, std::string_view text) {
  return {Notice::Kind::Caution, std::move(title), plain(text)};
}

} // namespace

std::vector<Notice> cautions(const Project& project) {
  std::vector<Notice> out;
  // Every card has a base that is cut, so blades are always there.
  const std::vector<std::string> blades = tools_of(project, Tool::Risk::Blade);
  std::string cutters = blades.empty() ? "A trimmer or a knife" : "The " + words::listed(blades);
  const bool many = blades.size() > 1 || (blades.size() == 1 && words::is_plural(blades.front()));
  out.push_back(
      caution("Blades.",
              cutters + (many ? " cut" : " cuts") +
                  " skin as easily as card. Cut away from yourself, keep your fingers out of the "
                  "line of the blade, and close or cover it between cuts."));
  if (const auto hot = tools_of(project, Tool::Risk::Heat);
      !hot.empty() || any_impression(project, Impression::Method::HeatEmbossed))
    out.push_back(
        caution("Hot tools.",
                words::sentence_case(hot.empty() ? "a heat tool" : "the " + words::listed(hot)) +
                    " can burn skin and scorch paper. Work on a surface that bears "
                    "heat, hold the card with tongs, let everything cool, and unplug the tool "
                    "when you leave it."));
  if (const auto pressing = tools_of(project, Tool::Risk::Pressure);
      !pressing.empty() || supply::cuts_with_a_die(project))
    out.push_back(caution(
        "Rollers and dies.",
        "Keep fingers, hair and sleeves clear of the rollers, and lift dies by their blunt side."));
  if (const auto small = small_parts(project); !small.empty())
    out.push_back(caution(
        "Small parts.",
        words::sentence_case(words::listed(small)) +
            " can be swallowed. They are not for children under three, on the table or on the "
            "finished card."));
  if (!project.inks.empty() || !project.adhesives.empty())
    out.push_back(caution("Inks and adhesives.",
                          "Look for art materials whose label says that they conform to ASTM D4236 "
                          "or to the rule that "
                          "holds in your country, and air the room when you use glue or heat."));
  for (const std::string& own : project.cautions) out.push_back(caution("Take care.", own));
  out.push_back({Notice::Kind::Caution, "Above all of this",
                 plain("stand the instructions of the makers of your tools and materials, and the "
                       "rules of the place where you live, teach or sell.")});
  return out;
}

} // namespace leafwright::guide
