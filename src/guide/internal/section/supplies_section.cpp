#include "guide/sections.h"

#include "guide/figure/scenes.h"
#include "guide/internal/section/chapters.h"
#include "guide/prose.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/region.h"
#include "model/stock_kind.h"
#include "plan/supply/needs.h"

#include <algorithm>
#include <optional>

namespace leafwright::guide {

Inlines item_cell(const Project& project, ItemRef item) {
  Prose prose;
  if (item.kind == ItemKind::Ink) prose.ink(item.index);
  prose.say(listed_item(project, item));
  return prose.fragment();
}

Table supplies_table(const Project& project, const supply::Needs& needs) {
  const bool several = project.cards.size() > 1;
  Table table;
  table.caption = "What one kit takes";
  table.columns.push_back({{}, Column::Align::Left, 0.0, false});
  table.columns.push_back({plain("Item"), Column::Align::Left, 3.0, true});
  table.columns.push_back({plain("Amount"), Column::Align::Right, 1.0, false});
  if (several) table.columns.push_back({plain("Cards"), Column::Align::Left, 1.0, false});
  std::optional<supply::Group> group;
  for (const supply::Need& need : needs) {
    if (need.group != group) {
      group = need.group;
      table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(need.group))}});
    }
    Row row;
    row.cells.push_back(Inlines{TickBox{}});
    row.cells.push_back(item_cell(project, need.item));
    row.cells.push_back(plain(amount_words(project, need)));
    if (several) row.cells.push_back(plain(cards_words(project, need.cards)));
    table.rows.push_back(std::move(row));
  }
  return table;
}

namespace {

// What is told apart by its look: papers, ribbons, small things and the outlines of dies. Stamps
// are pictured image by image elsewhere.
bool is_pictured(ItemKind kind) {
  return kind == ItemKind::Stock || kind == ItemKind::Ribbon || kind == ItemKind::Embellishment ||
         kind == ItemKind::Die;
}

FigureRow swatches(const Project& project, const supply::Needs& needs) {
  FigureRow row;
  row.swatches = true;
  for (const supply::Need& need : needs) {
    if (!is_pictured(need.item.kind)) continue;
    Figure figure;
    figure.scene = figure::swatch(project, need.item);
    std::string words = item_name(project, need.item);
    if (const Stock* stock = find_at(project.stocks, need.item.index);
        need.item.kind == ItemKind::Stock && stock != nullptr && !stock->weight_words.empty())
      words += ", " + stock->weight_words;
    figure.caption = plain(words::tie_measures(words));
    figure.width = Figure::Width::Narrow;
    if (!figure.scene.items.empty()) row.figures.push_back(std::move(figure));
  }
  return row;
}

} // namespace

Section supplies_section(const Project& project, const supply::Needs& needs) {
  Section section{"supplies", "What you need", {}};
  add(section, heading(1, "supplies", "What you need"));
  const int each = std::max(1, project.run.of_each);
  const auto designs = static_cast<std::int64_t>(project.cards.size());
  std::string words = "For " + makes_words(project);
  if (designs > 1)
    words += each == 1 ? ", one of each" : ", " + words::count_words(each) + " of each";
  words += ". You keep the stamps, dies, inks and tools. The cards use up the rest.";
  if (std::any_of(needs.begin(), needs.end(), [](const supply::Need& need) {
        return need.item.kind == ItemKind::Stock && need.sheets > 0;
      }))
    words += " The sheets are just enough for the cut diagrams. Keep one more of each on hand for "
             "mistakes.";
  add(section, lead(plain(words)));
  if (FigureRow shown = swatches(project, needs); !shown.figures.empty())
    add(section, std::move(shown));
  add(section, supplies_table(project, needs));
  return section;
}

namespace {

// Names of the tools of one risk, as one says them: "the straight trimmer and the small scissors".
// `needed`: only these, where it is given.
std::vector<std::string> tools_of(const Project& project,
                                  const std::optional<supply::Needs>& needed, Tool::Risk risk) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < project.tools.size(); ++i) {
    const Tool& tool = project.tools[i];
    if (tool.risk != risk) continue;
    if (needed && !supply::find(*needed, {ItemKind::Tool, static_cast<int>(i)})) continue;
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

bool uses_stock(const Project& project, Stock::Kind kind) {
  return std::ranges::any_of(project.cards, [&](const Card& card) {
    return std::ranges::any_of(card.pieces, [&](const Piece& piece) {
      const Stock* stock = find_at(project.stocks, piece.stock);
      return stock && stock->kind == kind;
    });
  });
}

Notice caution(std::string title, std::string_view text) {
  return {Notice::Kind::Caution, std::move(title), plain(text)};
}

} // namespace

std::vector<Notice> cautions(const Project& project, const Tier* tier) {
  std::vector<Notice> out;
  // Who gets her parts cut and pressed is not told of tools that she does not need.
  std::optional<supply::Needs> needs;
  if (tier != nullptr) needs = supply::needs_beside_parts(project, *tier);
  const bool presses =
      needs ? std::ranges::any_of(
                  *needs, [](const supply::Need& need) { return need.item.kind == ItemKind::Die; })
            : supply::cuts_with_a_die(project);
  const std::vector<std::string> blades = tools_of(project, needs, Tool::Risk::Blade);
  std::string cutters = blades.empty() ? "A trimmer or a knife" : "The " + words::listed(blades);
  const bool many = blades.size() > 1 || (blades.size() == 1 && words::is_plural(blades.front()));
  if (!blades.empty() || tier == nullptr || !comes_cut(project, *tier))
    out.push_back(caution(
        "Blades.",
        cutters + (many ? " cut" : " cuts") +
            " skin as easily as cardstock. Cut away from yourself, keep your fingers out of "
            "the blade's path, and close or cover it between cuts."));
  if (const auto hot = tools_of(project, needs, Tool::Risk::Heat);
      !hot.empty() || any_impression(project, Impression::Method::HeatEmbossed))
    out.push_back(
        caution("Hot tools.",
                words::sentence_case(hot.empty() ? "a heat tool" : "the " + words::listed(hot)) +
                    " can burn skin and scorch paper. Work on a heatproof surface and hold the "
                    "card with tongs. Let everything cool, and unplug the tool when you are "
                    "done."));
  if (presses || !tools_of(project, needs, Tool::Risk::Pressure).empty())
    out.push_back(caution(
        "Rollers and dies.",
        "Keep fingers, hair and sleeves away from the rollers. Pick up a die by its dull side."));
  for (const StockRow& row : stock_rows())
    if (!row.caution.empty() && uses_stock(project, row.kind))
      out.push_back(caution(words::sentence_case(row.words) + ".", row.caution));
  if (const auto small = small_parts(project); !small.empty())
    out.push_back(
        caution("Small parts.",
                words::sentence_case(words::listed(small)) +
                    " can be swallowed. Keep them, and the finished card, away from children under "
                    "three."));
  if (!project.inks.empty() || !project.adhesives.empty())
    out.push_back(
        caution("Inks and adhesives.",
                std::string(in_united_states(project) ? "Look for ASTM D4236 on the label"
                                                      : "Read the safety label and follow it") +
                    ". Open a window when you use glue or heat."));
  for (const std::string& own : project.cautions) out.push_back(caution("Take care.", own));
  out.push_back({Notice::Kind::Caution, "Above all.",
                 plain("Follow the instructions that came with your tools and materials, and the "
                       "rules where you live, teach or sell.")});
  return out;
}

} // namespace leafwright::guide
