#include "guide/internal/section/chapters.h"
#include "guide/prose.h"
#include "language/words.h"
#include "measure/index.h"

#include <algorithm>
#include <utility>

namespace leafwright::guide {
namespace {

using supply::SheetLayout;

// Passes of the blade at one setting of the fence.
struct Setting {
  Length at;
  bool across = false;
  int cuts = 0;
  std::vector<std::string> letters; // of the pieces that fall free
  bool last = false;                // what is left after it is a piece too
  friend bool same_work(const Setting& a, const Setting& b) {
    return a.at == b.at && a.across == b.across && a.cuts == b.cuts;
  }
};

// A part of the sheet that is cut up in one direction, or several alike.
struct Part {
  Rect from; // where it lies on the sheet
  int count = 1;
  std::vector<Setting> settings;
};

bool same_work(const Part& a, const Part& b) {
  return a.from.size == b.from.size &&
         std::equal(a.settings.begin(), a.settings.end(), b.settings.begin(), b.settings.end(),
                    [](const Setting& x, const Setting& y) { return same_work(x, y); });
}

// Whether `move` goes on with what `before` has left over.
bool goes_on(const SheetLayout::Move& before, const SheetLayout::Move& move) {
  if (before.across != move.across) return false;
  return before.across
             ? move.from.left() == before.from.left() &&
                   move.from.size.width == before.from.size.width &&
                   move.from.bottom() == before.from.bottom() && move.from.top() > before.from.top()
             : move.from.top() == before.from.top() &&
                   move.from.size.height == before.from.size.height &&
                   move.from.right() == before.from.right() &&
                   move.from.left() > before.from.left();
}

std::vector<std::string> letters_of(const supply::KitSheets& sheets, const SheetLayout& layout,
                                    const std::vector<int>& gives) {
  std::vector<std::string> out;
  for (const int index : gives) {
    if (index < 0 || as_index(index) >= layout.pieces.size()) continue;
    const int line = layout.pieces[as_index(index)].line;
    if (line >= 0 && as_index(line) < sheets.lines.size())
      out.push_back(sheets.lines[as_index(line)].letter);
  }
  return out;
}

std::vector<Part> parts_of(const supply::KitSheets& sheets, const SheetLayout& layout) {
  std::vector<Part> parts;
  const SheetLayout::Move* before = nullptr;
  for (const SheetLayout::Move& move : layout.moves) {
    const bool same_part = before && goes_on(*before, move);
    if (!same_part) parts.push_back({move.from, 1, {}});
    Part& part = parts.back();
    const bool same_setting = same_part && part.settings.back().at == move.at;
    if (!same_setting) part.settings.push_back({move.at, move.across, 0, {}, false});
    Setting& setting = part.settings.back();
    setting.cuts += 1;
    const auto letters = letters_of(sheets, layout, move.gives);
    setting.letters.insert(setting.letters.end(), letters.begin(), letters.end());
    before = &move;
  }
  return parts;
}

// Strips of one size that are cut up alike go under the blade together, if the later one has been
// cut free by then.
std::vector<Part> stacked(const std::vector<Part>& parts) {
  std::vector<Part> out;
  std::vector<std::size_t> told_at; // for each part, where it stands in `out`
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Part& part = parts[i];
    std::size_t free_from = 0; // the last part that holds this one is the one it was cut from
    for (std::size_t k = 0; k < i; ++k)
      if (parts[k].from.contains(part.from)) free_from = told_at[k] + 1;
    const auto begin = out.begin() + static_cast<std::ptrdiff_t>(free_from);
    const auto same =
        std::find_if(begin, out.end(), [&](const Part& one) { return same_work(one, part); });
    told_at.push_back(as_index(same - out.begin()));
    if (same == out.end()) {
      out.push_back(part);
      continue;
    }
    same->count += part.count;
    for (std::size_t k = 0; k < part.settings.size(); ++k) {
      auto& letters = same->settings[k].letters;
      letters.insert(letters.end(), part.settings[k].letters.begin(),
                     part.settings[k].letters.end());
    }
  }
  return out;
}

// "two (C) and one (D)"; a single piece is only its letter.
void say_letters(Prose& prose, const std::vector<std::string>& letters) {
  std::vector<std::pair<std::string, int>> counted;
  for (const std::string& letter : letters) {
    const auto found = std::find_if(counted.begin(), counted.end(),
                                    [&](const auto& one) { return one.first == letter; });
    if (found == counted.end())
      counted.emplace_back(letter, 1);
    else
      ++found->second;
  }
  for (std::size_t i = 0; i < counted.size(); ++i) {
    if (i > 0) prose.say(i + 1 == counted.size() ? " and " : ", ");
    if (letters.size() > 1) prose.say(words::count_words(counted[i].second) + "\u00A0");
    prose.append(Inlines{PieceLetter{counted[i].first}});
  }
}

Inlines setting_words(const Project& project, const Part& part, const Setting& setting,
                      bool first_of_sheet, bool first_of_part) {
  Prose prose;
  if (first_of_part && !first_of_sheet) {
    const std::string size = size_text(part.from.size, project.printing, true);
    const bool square = part.from.size.width == part.from.size.height;
    if (part.count > 1)
      prose.say("Stack the " + words::count_words(part.count) + " strips of " + size +
                ", fence at ");
    else
      prose.say((square ? "Take the square of " : "Take the strip of ") + size + ", fence at ");
  } else {
    prose.say("Fence at ");
  }
  prose.strong(length_text(setting.at, project.printing));
  prose.say(first_of_part ? (setting.across ? ", across: " : ", down: ") : ": ");
  prose.say(words::counted(setting.cuts, "cut"));
  if (!setting.letters.empty()) {
    prose.say(setting.cuts == 1 && setting.letters.size() == 1
                  ? " gives "
                  : (setting.cuts == 1 ? " gives " : " give "));
    say_letters(prose, setting.letters);
  }
  prose.say(".");
  return prose.sentence();
}

} // namespace

List cutting_order(const Project& project, const supply::KitSheets& sheets,
                   const SheetLayout& layout) {
  List list;
  list.numbered = true;
  for (const Part& part : stacked(parts_of(sheets, layout)))
    for (std::size_t i = 0; i < part.settings.size(); ++i)
      list.items.push_back(
          setting_words(project, part, part.settings[i], list.items.empty(), i == 0));
  return list;
}

} // namespace leafwright::guide
