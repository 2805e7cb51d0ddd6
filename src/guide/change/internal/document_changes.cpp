#include "guide/change/internal/content_fingerprint.h"

#include "guide/change/report.h"
#include "guide/prose.h"

#include <algorithm>
#include <map>
#include <utility>

namespace leafwright::guide {

std::vector<std::optional<std::size_t>> aligned(const std::vector<std::string>& a,
                                                const std::vector<std::string>& b) {
  std::vector<std::optional<std::size_t>> partner(b.size());
  // Equal heads and tails first: mostly little differs, and the table is their product.
  std::size_t head = 0;
  while (head < a.size() && head < b.size() && a[head] == b[head]) partner[head] = head, ++head;
  std::size_t tail = 0;
  while (tail < a.size() - head && tail < b.size() - head &&
         a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
    partner[b.size() - 1 - tail] = a.size() - 1 - tail;
    ++tail;
  }
  const std::size_t n = a.size() - head - tail, m = b.size() - head - tail;
  std::vector<std::vector<int>> best(n + 1, std::vector<int>(m + 1, 0));
  for (std::size_t i = n; i-- > 0;)
    for (std::size_t j = m; j-- > 0;)
      best[i][j] = a[head + i] == b[head + j] ? best[i + 1][j + 1] + 1
                                              : std::max(best[i + 1][j], best[i][j + 1]);
  for (std::size_t i = 0, j = 0; i < n && j < m;) {
    if (a[head + i] == b[head + j])
      partner[head + j++] = head + i++;
    else if (best[i + 1][j] >= best[i][j + 1])
      ++i;
    else
      ++j;
  }
  return partner;
}
namespace {

const Section* section_named(const Document& document, const std::string& name) {
  for (const Section& section : document.sections)
    if (section.name == name) return &section;
  return nullptr;
}

std::vector<const Step*> steps_in(const Section* section) {
  std::vector<const Step*> steps;
  if (!section) return steps;
  for (const Block& block : section->blocks)
    if (const auto* run = std::get_if<Steps>(&block.what))
      for (const Step& step : run->steps) steps.push_back(&step);
  return steps;
}

std::string words_of(const Step& step) {
  std::string text = step.title + "\n" + spoken(step.parts) + "\n";
  for (const Inlines& one : step.text) text += spoken(one) + "\n";
  for (const Notice& one : step.notices) text += one.title + spoken(one.text) + "\n";
  return text + step.picture_words;
}

std::string drawing_of(const Step& step) {
  return (step.figure ? fingerprint(step.figure->scene) : std::string()) +
         (step.picture ? std::to_string(*step.picture) : std::string());
}

// Lines and places alone: a paper or an ink of another color leaves them as they were.
std::string shape_of(const Step& step) {
  return step.figure ? shape_fingerprint(step.figure->scene) : std::string();
}

// Partners by title in order; then, between two pairs, the first free with the first free.
std::vector<std::optional<std::size_t>> paired(const std::vector<const Step*>& before,
                                               const std::vector<const Step*>& after) {
  std::vector<std::string> a, b;
  for (const Step* step : before) a.push_back(step->title);
  for (const Step* step : after) b.push_back(step->title);
  std::vector<std::optional<std::size_t>> partner = aligned(a, b);
  std::size_t next = 0; // first of `before` that may still be taken
  for (std::size_t j = 0; j < partner.size(); ++j) {
    if (partner[j]) {
      next = *partner[j] + 1;
      continue;
    }
    std::size_t end = before.size();
    for (std::size_t k = j + 1; k < partner.size(); ++k)
      if (partner[k]) {
        end = *partner[k];
        break;
      }
    if (next < end) partner[j] = next++;
  }
  return partner;
}

StepChange about(const Section& section, const Step* before, const Step* after) {
  StepChange change;
  change.section = section.name;
  change.card = section.running;
  if (before) {
    change.number_before = before->number;
    change.title_before = before->title;
    change.anchor_before = before->anchor;
    change.text_before = before->text;
  }
  if (after) {
    change.number = after->number;
    change.title = after->title;
    change.anchor = after->anchor;
    change.text = after->text;
    change.figure = after->figure;
  }
  change.how = !before  ? StepChange::How::Added
               : !after ? StepChange::How::Gone
                        : StepChange::How::Changed;
  return change;
}

void add_section(std::vector<StepChange>& changes, const Section& named, const Section* before,
                 const Section* after) {
  const std::vector<const Step*> old = steps_in(before), now = steps_in(after);
  const auto partner = paired(old, now);
  std::vector<bool> kept(old.size(), false);
  for (std::size_t j = 0; j < now.size(); ++j) {
    const Step* was = partner[j] ? old[*partner[j]] : nullptr;
    if (partner[j]) kept[*partner[j]] = true;
    StepChange change = about(named, was, now[j]);
    change.words = !was || words_of(*was) != words_of(*now[j]);
    change.drawing = !was || drawing_of(*was) != drawing_of(*now[j]);
    change.shape = !was || shape_of(*was) != shape_of(*now[j]);
    if (change.words || change.drawing) changes.push_back(std::move(change));
  }
  for (std::size_t i = 0; i < old.size(); ++i)
    if (!kept[i]) changes.push_back(about(named, old[i], nullptr));
}

std::string row_text(const Row& row) {
  std::string text;
  for (const Inlines& cell : row.cells) text += spoken(cell) + "\n";
  return text;
}

void mark_rows(Table& now, const Table* before) {
  std::vector<std::string> a, b;
  if (before)
    for (const Row& row : before->rows) a.push_back(row_text(row));
  for (const Row& row : now.rows) b.push_back(row_text(row));
  const auto partner = aligned(a, b);
  for (std::size_t j = 0; j < b.size(); ++j)
    now.rows[j].changed = !partner[j] && now.rows[j].kind != Row::Kind::Group;
}

void mark_steps(Steps& now, const Section* before) {
  const std::vector<const Step*> old = steps_in(before);
  std::vector<const Step*> steps;
  for (const Step& step : now.steps) steps.push_back(&step);
  const auto partner = paired(old, steps);
  for (std::size_t j = 0; j < steps.size(); ++j)
    now.steps[j].changed = !partner[j] || words_of(*old[*partner[j]]) != words_of(*steps[j]) ||
                           drawing_of(*old[*partner[j]]) != drawing_of(*steps[j]);
}

void mark_section(Section& now, const Section* before) {
  std::vector<std::string> a, b;
  if (before)
    for (const Block& block : before->blocks) a.push_back(fingerprint(block));
  for (const Block& block : now.blocks) b.push_back(fingerprint(block));
  const auto partner = aligned(a, b);
  std::vector<const Table*> old_tables;
  if (before)
    for (const Block& block : before->blocks)
      if (const auto* table = std::get_if<Table>(&block.what)) old_tables.push_back(table);
  std::size_t tables = 0;
  for (std::size_t j = 0; j < b.size(); ++j) {
    Block& block = now.blocks[j];
    auto* table = std::get_if<Table>(&block.what);
    const std::size_t number = tables;
    if (table) ++tables;
    if (partner[j]) continue;
    if (table)
      mark_rows(*table, number < old_tables.size() ? old_tables[number] : nullptr);
    else if (auto* steps = std::get_if<Steps>(&block.what))
      mark_steps(*steps, before);
    else
      block.changed = true;
  }
}

} // namespace

std::vector<StepChange> step_changes(const Document& before, const Document& after) {
  std::vector<StepChange> changes;
  for (const Section& section : after.sections)
    if (section.name.starts_with("card-"))
      add_section(changes, section, section_named(before, section.name), &section);
  for (const Section& section : before.sections)
    if (section.name.starts_with("card-") && !section_named(after, section.name))
      add_section(changes, section, &section, nullptr);
  return changes;
}

namespace {

// The first heading's anchor and words.
const Heading* title_of(const Section* section) {
  if (!section) return nullptr;
  for (const Block& block : section->blocks)
    if (const auto* heading = std::get_if<Heading>(&block.what)) return heading;
  return nullptr;
}

// Rows that changed, each group's own line before its rows; nothing when no row did.
std::optional<Table> changed_rows(const Table& marked) {
  Table table = marked;
  table.rows.clear();
  const Row* group = nullptr;
  for (const Row& row : marked.rows) {
    if (row.kind == Row::Kind::Group) group = &row;
    if (!row.changed) continue;
    if (group) table.rows.push_back(*std::exchange(group, nullptr));
    table.rows.push_back(row);
    table.rows.back().changed = false;
  }
  if (table.rows.empty()) return std::nullopt;
  return table;
}

// What a buyer works from: a table's new rows, a diagram with its order of cuts, a list.
std::optional<Block> worth_showing(const Block& block) {
  if (const auto* table = std::get_if<Table>(&block.what)) {
    std::optional<Table> rows = changed_rows(*table);
    if (!rows) return std::nullopt;
    return Block{std::move(*rows), block.place};
  }
  const bool shown =
      std::holds_alternative<Beside>(block.what) || std::holds_alternative<Figure>(block.what) ||
      std::holds_alternative<FigureRow>(block.what) || std::holds_alternative<List>(block.what) ||
      std::holds_alternative<Ticks>(block.what);
  if (!shown || !block.changed) return std::nullopt;
  Block copy = block;
  copy.changed = false;
  return copy;
}

std::vector<Block> changed_blocks(const Section& marked) {
  std::vector<Block> blocks;
  const Block* heading = nullptr;
  for (const Block& block : marked.blocks) {
    if (const auto* one = std::get_if<Heading>(&block.what)) {
      heading = one->level > 1 ? &block : nullptr;
      continue;
    }
    std::optional<Block> shown = worth_showing(block);
    if (!shown) continue;
    if (heading) {
      Heading under = std::get<Heading>(std::exchange(heading, nullptr)->what);
      under.level = 3;
      under.anchor.clear();
      blocks.push_back({std::move(under), block.place});
    }
    blocks.push_back(std::move(*shown));
  }
  return blocks;
}

} // namespace

std::vector<SectionChange> section_changes(const Document& before, const Document& after) {
  // Cards have their steps, guides their list; sizes of pieces stand in a table of their own.
  const auto told_elsewhere = [](const std::string& name) {
    return name.starts_with("card-") || name == "cover" || name == "contents" ||
           name == "cut-list" || name == "templates" || name == "colophon" || name == "reading";
  };
  std::vector<SectionChange> changes;
  for (const Section& section : after.sections) {
    if (told_elsewhere(section.name)) continue;
    const Section* old = section_named(before, section.name);
    Section marked = section;
    mark_section(marked, old);
    std::vector<Block> blocks = changed_blocks(marked);
    if (blocks.empty()) continue;
    const Heading* title = title_of(&section);
    const Heading* was = title_of(old);
    changes.push_back({title ? title->text : section.running, was ? was->anchor : std::string(),
                       std::move(blocks)});
  }
  return changes;
}

std::vector<std::string> full_size_changes(const Document& before, const Document& after) {
  std::multimap<std::string, std::string> known;
  const auto each = [](const Document& document, auto tell) {
    for (const Section& section : document.sections)
      for (const Block& block : section.blocks)
        if (const auto* one = std::get_if<FullSize>(&block.what)) tell(*one);
  };
  each(before, [&](const FullSize& one) { known.emplace(one.title, fingerprint(one.scene)); });
  std::vector<std::string> changes;
  each(after, [&](const FullSize& one) {
    const auto [from, to] = known.equal_range(one.title);
    const std::string now = fingerprint(one.scene);
    if (std::none_of(from, to, [&](const auto& old) { return old.second == now; }))
      changes.push_back(one.title);
  });
  return changes;
}

void mark_changes(Document& now, const Document& before) {
  for (Section& section : now.sections) {
    if (section.name == "cover" || section.name == "contents") continue;
    mark_section(section, section_named(before, section.name));
  }
}

} // namespace leafwright::guide
