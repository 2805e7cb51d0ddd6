#include "model/work.h"

#include "measure/letters.h"
#include "model/project.h"
#include "model/technique.h"

#include <algorithm>
#include <array>
#include <string>

namespace leafwright {

namespace {

constexpr std::array rows{
    WorkRow{Work::Trim, "trim", "straight cuts", true, false, "Paper trimmer"},
    WorkRow{Work::HandCut, "hand-cut", "cutting with scissors", true, false, "Scissors"},
    WorkRow{Work::Knife, "knife", "cutting windows by hand", true, false,
            "Craft knife, ruler and mat"},
    WorkRow{Work::DieCut, "die-cut", "die cutting", true, false, "Die-cutting machine"},
    WorkRow{Work::Punch, "punch", "punching", true, false, "Punch"},
    WorkRow{Work::Hole, "hole", "punching holes", true, false, "Hole punch"},
    WorkRow{Work::Cut, "cut", "cutting to shape", false, true, ""},
    WorkRow{Work::Round, "round", "rounding corners", true, true, "Corner rounder"},
    WorkRow{Work::Score, "score", "scoring", true, false, ""},
    WorkRow{Work::Fold, "fold", "scoring and folding", true, true, "Bone folder"},
    WorkRow{Work::Stamp, "stamp", "stamping", true, true, ""},
    WorkRow{Work::StampOff, "stamp-off", "stamping off", true, false, "Scrap paper"},
    WorkRow{Work::Heat, "heat", "heat embossing", true, false, "Heat tool"},
    WorkRow{Work::Powder, "powder", "covering with powder", true, false, "Embossing powder"},
    WorkRow{Work::Emboss, "emboss", "dry embossing", true, true, ""},
    WorkRow{Work::Ink, "ink", "inking with a sponge", true, true, "Sponge"},
    WorkRow{Work::Distress, "distress", "roughening edges", true, true, ""},
    WorkRow{Work::Stick, "stick", "sticking", true, true, ""},
    WorkRow{Work::Light, "light", "lighting", true, false, ""},
    WorkRow{Work::Wash, "wash", "washing with color", true, true, "Brush and water"},
    WorkRow{Work::Blend, "blend", "blending through a stencil", true, true, "Blending brush"},
    WorkRow{Work::Splatter, "splatter", "splattering", true, true, "Stiff brush"},
    WorkRow{Work::ColourIn, "colour", "coloring", true, true, "Markers or pencils"},
    WorkRow{Work::Foil, "foil", "foiling", true, true, "Foil and its adhesive"},
    WorkRow{Work::Stitch, "stitch", "stitching", true, true, "Needle and thread"},
    WorkRow{Work::Tear, "tear", "tearing", true, true, ""},
    WorkRow{Work::Glitter, "glitter", "adding glitter", true, true, "Liquid glitter"},
};

constexpr bool in_order() {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i].work != static_cast<Work>(i)) return false;
  return true;
}
static_assert(in_order());

void add_impression(Works& works, const Impression& one) {
  works.add(Work::Stamp);
  switch (one.method) {
  case Impression::Method::Plain: return;
  case Impression::Method::SecondGeneration: works.add(Work::StampOff); return;
  case Impression::Method::Sponged: works.add(Work::Ink); return;
  case Impression::Method::Masked: works.add({Work::StampOff, Work::HandCut}); return;
  case Impression::Method::HeatEmbossed: works.add({Work::Heat, Work::Powder}); return;
  }
}

void add_finish(Works& works, const Finish& finish) {
  // With a tool of its own it takes that and no other.
  const TechniqueRow& row = technique_row(finish.kind);
  if (row.own_tool_alone && !finish.with.empty()) return;
  works.add(row.work);
}

void add_piece(Works& works, const Piece& piece) {
  // A punch takes a whole sheet; all else is a rectangle first.
  switch (piece.cut) {
  case Piece::CutBy::Trimmer: works.add(Work::Trim); break;
  case Piece::CutBy::Die: works.add(Work::Trim).add(Work::DieCut).add(Work::Cut); break;
  case Piece::CutBy::Punch: works.add(Work::Punch).add(Work::Cut); break;
  case Piece::CutBy::Scissors: works.add(Work::Trim).add(Work::HandCut).add(Work::Cut); break;
  }
  if (piece.die >= 0) works.add(Work::DieCut);
  if (punches_hole(piece)) works.add(Work::Hole);
  for (const Window& window : piece.windows)
    works
        .add(window.die >= 0                       ? Work::DieCut
             : window.notch != Window::Notch::None ? Work::Punch
                                                   : Work::Knife)
        .add(Work::Cut);
  if (!piece.alternative.empty()) works.add(Work::HandCut);
  if (!piece.scores.empty()) works.add(Work::Score).add(Work::Fold);
  for (const Impression& one : piece.stamped) add_impression(works, one);
  for (const Finish& finish : piece.finishes) add_finish(works, finish);
  if (piece.attach.adhesive >= 0) works.add(Work::Stick);
}

} // namespace

std::span<const WorkRow> work_rows() { return rows; }
const WorkRow& work_row(Work work) { return rows.at(static_cast<std::size_t>(work)); }

std::string words_of(Works works) {
  std::string words;
  for (const WorkRow& row : rows)
    if (works.has(row.work)) words += (words.empty() ? "" : " ") + std::string(row.word);
  return words;
}

Works works_on(const Piece& piece) {
  Works works;
  add_piece(works, piece);
  return works;
}

Works works_of(const Card& card) {
  Works works;
  for (const Piece& piece : card.pieces) add_piece(works, piece);
  for (const FaceStamping& stamping : card.face_stampings)
    add_impression(works, stamping.impression);
  if (!card.ribbons.empty()) works.add(Work::HandCut);
  if (!card.plan.scores.empty()) works.add(Work::Score).add(Work::Fold);
  if (!card.pop_ups.empty()) works.add(Work::Knife);
  return works;
}

bool punches_hole(const Piece& piece) {
  return piece.shape.outline == Shape::Outline::Tag && piece.shape.radius > Length{} &&
         piece.cut != Piece::CutBy::Die && piece.cut != Piece::CutBy::Punch;
}

Works usually_replaced() {
  return {Work::Fold,  Work::Stamp,  Work::Emboss, Work::Ink,      Work::Distress,
          Work::Stick, Work::Wash,   Work::Blend,  Work::Splatter, Work::ColourIn,
          Work::Foil,  Work::Stitch, Work::Tear,   Work::Glitter};
}

int tool_for(const Project& project, Work work) {
  const auto found = std::ranges::find_if(
      project.tools, [work](const Tool& tool) { return tool.works.has(work); });
  return found == project.tools.end() ? -1 : static_cast<int>(found - project.tools.begin());
}

namespace {

// A finish finds it by the words as they stand; a list shows it with a capital.
void name_in_words(Tool& tool, const std::string& with) {
  tool.id = with;
  if (is_letter(with.front()) && !is_capital(with.front()))
    tool.name.front() = static_cast<char>(with.front() - 'a' + 'A');
}

} // namespace

void name_works(Project& project) {
  for (Tool& tool : project.tools)
    for (const WorkRow& row : rows)
      if (!row.tool.empty() && tool.works.empty() &&
          small_letters(tool.name) == small_letters(row.tool))
        tool.works.add(row.work);
}

std::vector<Tool> implied_tools(const Project& project) {
  std::vector<Tool> implied;
  const auto begin = [&](std::string name) -> Tool& {
    Tool& tool = implied.emplace_back();
    tool.id = small_letters(name);
    std::ranges::replace(tool.id, ' ', '-');
    std::erase(tool.id, ',');
    tool.name = std::move(name);
    tool.implied = true;
    return tool;
  };
  Works taken;
  for (const Card& card : project.cards) taken.add(works_of(card));
  for (const WorkRow& row : rows) {
    if (row.tool.empty() || !taken.has(row.work) || tool_for(project, row.work) >= 0) continue;
    begin(std::string(row.tool)).works.add(row.work);
  }
  const auto known = [](const std::vector<Tool>& tools, const std::string& with) {
    return std::ranges::any_of(
        tools, [&](const Tool& tool) { return tool.id == with || tool.name == with; });
  };
  for (const Card& card : project.cards)
    for (const Piece& piece : card.pieces)
      for (const Finish& finish : piece.finishes)
        if (!finish.with.empty() && !known(project.tools, finish.with) &&
            !known(implied, finish.with))
          name_in_words(begin(finish.with), finish.with);
  return implied;
}

} // namespace leafwright
