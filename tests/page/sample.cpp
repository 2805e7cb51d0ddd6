#include "sample.h"

#include "page/flow.h"

#include <fmt/format.h>

#include <array>
#include <fstream>
#include <sstream>
#include <string_view>

namespace leafwright::page::sample {

using namespace guide;

text::Fonts fonts() {
  Parsed<text::Fonts> read = text::standard_fonts(std::string(LEAFWRIGHT_SOURCE_DIR) + "/fonts");
  return std::move(read).value();
}

Template booklet() {
  const std::string path = std::string(LEAFWRIGHT_SOURCE_DIR) + "/templates/booklet.xml";
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return read_template(text.str(), "booklet.xml").page_template;
}

Inlines words(std::string text) { return {guide::Words{std::move(text)}}; }

std::string babble(Dice& dice, int count) {
  constexpr std::array<std::string_view, 28> stock = {
      "fold",      "the",        "base",        "along",    "its",    "score",  "and",
      "burnish",   "with",       "a",           "bone",     "folder", "centre", "mat",
      "carefully", "underneath", "second",      "of",       "cream",  "panel",  "twice",
      "in",        "moss",       "generations", "adhesive", "to",     "ribbon", "1/8\u00A0in"};
  std::string text;
  for (int i = 0; i < count; ++i) {
    if (i > 0) text += ' ';
    text += stock.at(static_cast<std::size_t>(dice.below(static_cast<int>(stock.size()))));
    if (i + 1 < count && dice.below(9) == 0) text += ',';
  }
  return text + '.';
}

figure::Scene card_scene(Size size, Length inset, Colour base, Colour mat, bool labelled) {
  figure::Scene scene;
  scene.box = {{}, size};
  scene.items.emplace_back(figure::SceneFill{rectangle({{}, size}), base, 1.0});
  const Rect inner{{inset, inset}, {size.width - inset * 2, size.height - inset * 2}};
  if (inset.nm > 0) {
    scene.items.emplace_back(figure::SceneFill{rectangle(inner), mat, 1.0});
    figure::SceneStroke edge;
    edge.path = rectangle(inner);
    edge.colour = {90, 80, 70};
    scene.items.emplace_back(edge);
  }
  figure::SceneStroke edge;
  edge.path = rectangle({{}, size});
  edge.colour = {90, 80, 70};
  scene.items.emplace_back(edge);
  if (labelled) {
    figure::Dimension across;
    across.from = inner.origin;
    across.to = {inner.right(), inner.top()};
    across.words = fmt::format("{:.3g}", in_inches(inner.size.width));
    scene.dimensions.push_back(across);
  }
  scene.alternative = fmt::format("A card of {:.2f} by {:.2f} inches with a mat.",
                                  in_inches(size.width), in_inches(size.height));
  return scene;
}

namespace {

constexpr Colour kraft{0xcf, 0xae, 0x83}, cream{0xfc, 0xf6, 0xea}, moss{0x7d, 0x9b, 0x6d},
    plum{0x64, 0x3c, 0x57}, sky{0xb4, 0xcc, 0xd4};

Table supplies() {
  Table table;
  table.caption = "What one kit takes";
  table.columns = {{words("Item"), Column::Align::Left, 2.0, true},
                   {words("Amount"), Column::Align::Right, 0.3, false},
                   {words("Cards"), Column::Align::Left, 0.6, false}};
  const auto group = [&](const char* name) {
    Row row;
    row.kind = Row::Kind::Group;
    row.cells = {words(name)};
    table.rows.push_back(row);
  };
  const auto row = [&](const char* item, const char* amount, const char* cards) {
    Row line;
    line.cells = {words(item), words(amount), words(cards)};
    table.rows.push_back(line);
  };
  group("Cardstock");
  row("Kraft, 80 lb cover, letter", "4\u00A0sheets", "1, 4");
  row("Cream, 110 lb cover, letter", "2\u00A01/2\u00A0sheets", "1 to 4");
  row("Moss, 80 lb cover, letter", "1\u00A0sheet", "3");
  group("Patterned paper and ribbon");
  row("Windfall dots, 12 × 12 in", "1\u00A0sheet", "1");
  row("Rust grosgrain ribbon, 1/2 in wide", "20\u00A01/2\u00A0in", "1");
  row("Clear domes, 4 mm", "16", "2, 4");
  group("Stamps, dies and inks");
  row("Orchard Gate stamp set (9 images)", "1", "1 to 4");
  row("Rounded label die, 2\u00A01/2 × 13/16 in", "1", "1");
  row("Ink pads: moss, rust, plum", "3", "1 to 4");
  group("Adhesives and tools");
  row("Tape runner", "3.4\u00A0m", "1 to 4");
  row("Foam squares, 1.5 mm", "24", "1, 3");
  row("Straight trimmer, bone folder, acrylic block", "1\u00A0each", "1 to 4");
  return table;
}

Section card_section(int number, std::string title, int steps, Colour base, Colour mat) {
  Section section;
  section.name = fmt::format("card-{}", number);
  section.running = fmt::format("Card {}", number);
  Heading heading;
  heading.level = 1;
  heading.anchor = section.name;
  heading.number = fmt::format("{}", number);
  heading.text = std::move(title);
  heading.aside = "Make two · 35 min · top fold, A2";
  section.blocks.push_back({heading});
  FigureRow row;
  for (const char* name : {"The front", "Inside", "The envelope"}) {
    Figure figure;
    figure.scene =
        card_scene({inches(4, 1, 4), inches(5, 1, 2)}, inches(0, 1, 8), base, mat, false);
    figure.caption = words(name);
    row.figures.push_back(figure);
  }
  section.blocks.push_back({row});
  Dice dice(static_cast<std::uint64_t>(number));
  Steps list;
  for (int s = 1; s <= steps; ++s) {
    Step step;
    step.anchor = fmt::format("card-{}-step-{}", number, s);
    step.number = fmt::format("{}", s);
    step.title = s == 1 ? "Fold the base" : s == 2 ? "Lay the dotted mat" : "Stamp the trees";
    step.text = {words(babble(dice, dice.between(14, 34)))};
    step.parts = {guide::Words{"You need: "},
                  PieceLetter{std::string(1, static_cast<char>('A' + s))},
                  guide::Words{" dotted mat, tape"}};
    Figure figure;
    figure.scene = card_scene({inches(4, 1, 4), inches(5, 1, 2)}, inches(0, s, 8), base, mat, true);
    figure.scene.backdrop = true;
    step.figure = figure;
    if (s == 3) {
      Notice notice;
      notice.kind = Notice::Kind::Caution;
      notice.title = "Heat tool.";
      notice.text = words("The tip stays hot for minutes: put it on its stand.");
      step.notices.push_back(notice);
    }
    list.steps.push_back(step);
  }
  section.blocks.push_back({list});
  Notice tip;
  tip.kind = Notice::Kind::Tip;
  tip.title = "Tip.";
  tip.text = words(babble(dice, 25));
  section.blocks.push_back({tip});
  return section;
}

Section plain_section(std::string name, std::string title) {
  Section section;
  section.name = std::move(name);
  section.running = title;
  Heading heading;
  heading.level = 1;
  heading.anchor = section.name;
  heading.text = std::move(title);
  section.blocks.push_back({heading});
  return section;
}

} // namespace

Document booklet_document() {
  Document document;
  document.title = "Orchard Gate";
  document.author = "Fenmoor Paper Room";
  document.language = "en-US";
  document.edition = "Edition 3 · 2 March 2027";
  Dice dice(7);

  Section cover;
  cover.name = "cover";
  Cover front;
  front.maker = "Fenmoor Paper Room";
  front.title = "Orchard Gate";
  front.subtitle =
      "Four layered cards for the first warm week of the year. Eight cards to make: two "
      "of each.";
  for (const auto& [base, mat] : {std::pair{sky, cream}, std::pair{cream, moss},
                                  std::pair{plum, cream}, std::pair{kraft, moss}})
    front.cards.push_back(
        card_scene({inches(4, 1, 4), inches(5, 1, 2)}, inches(0, 1, 8), base, mat, false));
  front.left = "About 2 h 40 min · confident beginner";
  front.right = "Edition 3 · 2 March 2027";
  cover.blocks.push_back({front});
  document.sections.push_back(cover);

  Section contents = plain_section("contents", "Contents");
  contents.blocks.push_back({Contents{}});
  document.sections.push_back(contents);

  Section reading = plain_section("reading", "How to read this booklet");
  Paragraph lead;
  lead.kind = Paragraph::Kind::Lead;
  lead.text =
      words("Every piece has a letter in a dot. It is the same in the cut list, on the sheet and "
            "in the steps.");
  reading.blocks.push_back({lead});
  Paragraph body;
  body.text = {
      guide::Words{"Piece "},
      PieceLetter{"A"},
      guide::Words{", the base, measures 4\u00A01/4 × 11\u00A0in. You find it on page\u00A0"},
      PageOf{"cut-list"},
      guide::Words{". "},
      guide::Words{babble(dice, 60)}};
  reading.blocks.push_back({body});
  List list;
  list.items = {words("A thin line with arrows is a measurement."),
                words("A dash-dot line is a score; a dashed line a fold away from you."),
                words(babble(dice, 22))};
  reading.blocks.push_back({list});
  reading.blocks.push_back({ScaleBar{}});
  Notice caution;
  caution.title = "Blades and small parts.";
  caution.text =
      words("Trimmer and knife blades cut skin as easily as card: cut away from you, close the "
            "blade between cuts. Domes are small parts: keep them from children under three.");
  reading.blocks.push_back({caution});
  document.sections.push_back(reading);

  Section supply = plain_section("supplies", "What you need");
  supply.blocks.push_back(
      {Paragraph{Paragraph::Kind::Body, words("For one kit: two of each card.")}});
  supply.blocks.push_back({supplies()});
  document.sections.push_back(supply);

  Section cuts = plain_section("cut-list", "Cut list");
  Table pieces;
  pieces.caption = "Pieces to cut";
  pieces.columns = {{words(""), Column::Align::Left, 0.0, false},
                    {words("Piece"), Column::Align::Left, 1.0, true},
                    {words("Paper"), Column::Align::Left, 0.6, false},
                    {words("Size in inches"), Column::Align::Left, 0.3, false},
                    {words("in mm"), Column::Align::Left, 0.3, false},
                    {words("Count"), Column::Align::Decimal, 0.0, false},
                    {words("Score at"), Column::Align::Left, 0.3, false}};
  for (int card = 1; card <= 4; ++card) {
    Row group;
    group.kind = Row::Kind::Group;
    group.cells = {words(fmt::format("Card {}", card))};
    pieces.rows.push_back(group);
    for (int p = 0; p < 8; ++p) {
      Row row;
      row.cells = {
          Inlines{PieceLetter{std::string(1, static_cast<char>('A' + (card - 1) * 6 % 20 + p))}},
          words(babble(dice, 3)),
          words("Kraft, 80 lb cover"),
          words("4\u00A01/4 × 11"),
          words("108 × 279.4"),
          words(fmt::format("{}", dice.between(2, 24))),
          words(p == 0 ? "5\u00A01/2\u00A0in" : "")};
      pieces.rows.push_back(row);
    }
  }
  cuts.blocks.push_back({pieces});
  document.sections.push_back(cuts);

  Section diagrams = plain_section("cut-diagrams", "Cut diagrams");
  for (int sheet = 0; sheet < 3; ++sheet) {
    Heading heading;
    heading.level = 2;
    heading.anchor = fmt::format("sheet-{}", sheet);
    heading.text = fmt::format("Cut sheet {}", sheet + 1);
    diagrams.blocks.push_back({heading});
    Beside beside;
    beside.figure.scene = card_scene({inches(8, 1, 2), inches(11)}, inches(1), kraft, cream, true);
    beside.figure.scene.items.emplace_back(
        figure::SceneMark{"sheet", "kraft", {{}, {inches(8, 1, 2), inches(11)}}});
    beside.figure.scene.scale_group = "sheets";
    List order;
    order.numbered = true;
    for (int k = 0; k < 4; ++k) order.items.push_back(words(babble(dice, 12)));
    beside.blocks.push_back({Heading{3, "", "In this order", "", ""}});
    beside.blocks.push_back({order});
    diagrams.blocks.push_back({beside});
  }
  document.sections.push_back(diagrams);

  document.sections.push_back(card_section(1, "Gate and trees", 4, kraft, moss));
  document.sections.push_back(card_section(2, "The garden gate", 7, sky, cream));
  document.sections.push_back(card_section(3, "Apple at the window", 5, cream, moss));
  document.sections.push_back(card_section(4, "Picked for you", 6, plum, cream));

  Section templates = plain_section("templates", "Full-size templates");
  for (int t = 0; t < 3; ++t) {
    FullSize full;
    full.scene =
        card_scene({inches(4, 1, 4), inches(5, 1, 2)}, inches(0, 1, 4), cream, cream, true);
    full.scene.fixed_scale = 1.0;
    full.scene.items.emplace_back(figure::SceneMark{
        "template", fmt::format("card-{}", t), {{}, {inches(4, 1, 4), inches(5, 1, 2)}}});
    full.title = fmt::format("Card {}: front", t + 1);
    full.note = words("Cut out along the outer line and lay it over the card.");
    templates.blocks.push_back({full});
  }
  document.sections.push_back(templates);

  Section colophon = plain_section("colophon", "About this booklet");
  colophon.blocks.push_back({Paragraph{Paragraph::Kind::Small, words(babble(dice, 50))}});
  document.sections.push_back(colophon);
  return document;
}

Document random_document(std::uint64_t start, int blocks) {
  Dice dice(start);
  Document document;
  document.title = "Random";
  document.language = "en-US";
  document.edition = "Edition 1";
  Section section = plain_section("reading", babble(dice, 4));
  for (int b = 0; b < blocks; ++b) {
    const Place place{0, b + 1, 1, 1};
    switch (dice.below(9)) {
    case 0: {
      Heading heading;
      heading.level = dice.between(2, 3);
      heading.text = babble(dice, dice.between(2, 8));
      heading.anchor = fmt::format("h{}", b);
      section.blocks.push_back({heading, place});
      break;
    }
    case 1: {
      Table table;
      table.caption = "T";
      const int columns = dice.between(2, 6);
      for (int c = 0; c < columns; ++c)
        table.columns.push_back({words(babble(dice, dice.between(1, 3))),
                                 static_cast<Column::Align>(dice.below(4)), 1.0, c == 0});
      const int rows = dice.between(3, 40);
      for (int r = 0; r < rows; ++r) {
        Row row;
        const bool group = r + 1 < rows && dice.below(8) == 0;
        row.kind = group ? Row::Kind::Group : r + 1 == rows ? Row::Kind::Total : Row::Kind::Plain;
        for (int c = 0; c < (group ? 1 : columns); ++c)
          row.cells.push_back(dice.below(3) == 0
                                  ? words(fmt::format("{}\u00A01/8\u00A0in", dice.below(400)))
                                  : words(babble(dice, dice.between(1, 9))));
        table.rows.push_back(row);
      }
      section.blocks.push_back({table, place});
      break;
    }
    case 2: {
      List list;
      list.numbered = dice.below(2) == 0;
      for (int i = dice.between(1, 6); i > 0; --i)
        list.items.push_back(words(babble(dice, dice.between(4, 40))));
      section.blocks.push_back({list, place});
      break;
    }
    case 3: {
      Figure figure;
      figure.scene =
          card_scene({millimetres(dice.between(40, 200)), millimetres(dice.between(40, 280))},
                     millimetres(dice.below(15)), kraft, cream, true);
      figure.width = static_cast<Figure::Width>(dice.below(3));
      if (dice.below(2) == 0) figure.caption = words(babble(dice, 9));
      section.blocks.push_back({figure, place});
      break;
    }
    case 4: {
      Notice notice;
      notice.kind = static_cast<Notice::Kind>(dice.below(5));
      notice.title = "Mind this.";
      notice.text = words(babble(dice, dice.between(8, 60)));
      section.blocks.push_back({notice, place});
      break;
    }
    default: {
      Paragraph paragraph;
      paragraph.kind = static_cast<Paragraph::Kind>(dice.below(3));
      paragraph.text = {guide::Words{babble(dice, dice.between(3, 120))}, guide::Words{" "},
                        PieceLetter{"B"}, guide::Words{", "},
                        guide::Words{babble(dice, 4), guide::Words::Style::Strong}};
      section.blocks.push_back({paragraph, place});
    }
    }
  }
  document.sections.push_back(section);
  return document;
}

} // namespace leafwright::page::sample
