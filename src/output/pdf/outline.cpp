#include "measure/index.h"
#include "output/pdf/navigation.h"
#include "output/pdf/syntax.h"

#include <fmt/format.h>

namespace leafwright::pdf {
namespace {

constexpr std::size_t none = as_index(-1);

struct Entry {
  std::size_t source = 0;
  std::size_t parent = none, previous = none, next = none, first = none, last = none;
  int children = 0;
};

// Links the entries by their levels. A level that is skipped hangs on the last entry above it.
std::vector<Entry> link_up(std::span<const page::OutlineEntry> outline, std::size_t page_count) {
  std::vector<Entry> entries;
  std::vector<std::size_t> above; // the open entry of each depth
  std::vector<int> levels;
  std::size_t first_root_last = none;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const page::OutlineEntry& source = outline[i];
    if (source.page < 0 || as_index(source.page) >= page_count) continue;
    while (!levels.empty() && levels.back() >= source.level) {
      levels.pop_back();
      above.pop_back();
    }
    const std::size_t index = entries.size();
    Entry entry;
    entry.source = i;
    entry.parent = above.empty() ? none : above.back();
    std::size_t& last = entry.parent == none ? first_root_last : entries[entry.parent].last;
    entry.previous = last;
    if (last != none) entries[last].next = index;
    last = index;
    if (entry.parent != none) {
      if (entries[entry.parent].first == none) entries[entry.parent].first = index;
      ++entries[entry.parent].children;
    }
    entries.push_back(entry);
    above.push_back(index);
    levels.push_back(source.level);
  }
  return entries;
}

} // namespace

std::string add_outline(Haru& haru, const page::Laid& laid, std::span<const Ref> pages) {
  const std::vector<Entry> entries = link_up(laid.outline, pages.size());
  if (entries.empty()) return {};
  const Ref root = haru.reserve();
  std::vector<Ref> refs;
  for (std::size_t i = 0; i < entries.size(); ++i) refs.push_back(haru.reserve());
  std::size_t roots = 0, last_root = 0;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const Entry& entry = entries[i];
    const page::OutlineEntry& source = laid.outline[entry.source];
    const auto page = as_index(source.page);
    std::string out = "/Title" + text_string(source.title) + "/Parent " +
                      ref_text(entry.parent == none ? root : refs[entry.parent]);
    if (entry.previous != none) out += "/Prev " + ref_text(refs[entry.previous]);
    if (entry.next != none) out += "/Next " + ref_text(refs[entry.next]);
    if (entry.first != none)
      // Negative: closed when the document opens.
      out += fmt::format("/First {}/Last {}/Count -{}", ref_text(refs[entry.first]),
                         ref_text(refs[entry.last]), entry.children);
    out += fmt::format("/Dest[{}/XYZ null ", ref_text(pages[page]));
    append_points(out, laid.pages[page].size.height - source.at.y);
    out += " null]";
    haru.fill(refs[i], std::move(out));
    if (entry.parent == none) {
      ++roots;
      last_root = i;
    }
  }
  haru.fill(root, fmt::format("/Type/Outlines/First {}/Last {}/Count {}", ref_text(refs.front()),
                              ref_text(refs[last_root]), roots));
  return fmt::format("/Outlines {}/PageMode/UseOutlines", ref_text(root));
}

} // namespace leafwright::pdf
