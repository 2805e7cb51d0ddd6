#include "guide/change/internal/content_fingerprint.h"

#include "guide/change/report.h"
#include "guide/dump.h"
#include "guide/prose.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <type_traits>
#include <utility>

namespace leafwright::guide {
namespace {

class Printer {
 public:
  std::string take() { return std::move(out_); }

  void scene(const figure::Scene& scene) {
    rect(scene.box);
    for (const figure::SceneItem& item : scene.items)
      std::visit([this](const auto& what) { show(what); }, item);
    for (const figure::Dimension& one : scene.dimensions) {
      point(one.from);
      point(one.to);
      say("{};", one.words);
    }
    for (const figure::Badge& one : scene.badges) {
      point(one.at);
      say("{};", one.letter);
    }
    for (const figure::Label& one : scene.labels) {
      rect(one.within);
      say("{} ", one.letter);
      for (const std::string& line : one.lines) say("{};", line);
    }
    say("{}", scene.alternative);
  }

 private:
  template <class... T>
  void say(fmt::format_string<T...> format, T&&... values) {
    fmt::format_to(std::back_inserter(out_), format, std::forward<T>(values)...);
  }
  void point(Point p) { say("{},{} ", p.x.nm, p.y.nm); }
  void rect(Rect box) {
    point(box.origin);
    say("{}x{} ", box.size.width.nm, box.size.height.nm);
  }
  void colour(Colour c) { say("#{:02x}{:02x}{:02x} ", c.red, c.green, c.blue); }
  void path(const Path& path) {
    for (const Segment& one : path) {
      say("{} ", static_cast<int>(one.kind));
      if (one.kind == Segment::Kind::Curve) {
        point(one.control1);
        point(one.control2);
      }
      if (one.kind != Segment::Kind::Close) point(one.end);
    }
  }
  void show(const figure::SceneFill& one) {
    path(one.path);
    colour(one.colour);
    say("{};", one.opacity);
  }
  void show(const figure::SceneStroke& one) {
    path(one.path);
    colour(one.colour);
    say("{} {} {};", one.width.nm, one.dash.size(), one.opacity);
  }
  void show(const figure::SceneText& one) {
    point(one.centre);
    colour(one.colour);
    say("{} {} {};", one.text, one.height.nm, one.turned.udeg);
  }
  void show(const figure::SceneImage& one) {
    rect(one.box);
    say("{} {};", one.picture, one.turned.udeg);
  }
  void show(const figure::SceneClip& one) { path(one.path); }
  void show(const figure::SceneUnclip&) { say("unclip;"); }
  void show(const figure::SceneMark& one) {
    rect(one.box);
    say("{} {};", one.kind, one.id);
  }

  std::string out_;
};

} // namespace

std::string fingerprint(const figure::Scene& scene) {
  Printer printer;
  printer.scene(scene);
  return printer.take();
}

std::string fingerprint(const Block& block) {
  Section section;
  section.blocks.push_back(block);
  std::string text = dump(section);
  const auto add = [&](const figure::Scene& scene) { text += "\n" + fingerprint(scene); };
  std::visit(
      [&](const auto& what) {
        using What = std::decay_t<decltype(what)>;
        if constexpr (std::is_same_v<What, Figure> || std::is_same_v<What, FullSize>) {
          add(what.scene);
        } else if constexpr (std::is_same_v<What, FigureRow>) {
          for (const Figure& one : what.figures) add(one.scene);
        } else if constexpr (std::is_same_v<What, Beside>) {
          add(what.figure.scene);
          for (const Block& one : what.blocks) text += fingerprint(one);
        } else if constexpr (std::is_same_v<What, Cover>) {
          for (const figure::Scene& one : what.cards) add(one);
        } else if constexpr (std::is_same_v<What, Steps>) {
          for (const Step& one : what.steps)
            if (one.figure) add(one.figure->scene);
        }
      },
      block.what);
  return text;
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
