#include "output/internal/pdf/navigation.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "output/internal/list/display_list.h"
#include "output/internal/pdf/syntax.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace leafwright::pdf {
namespace {

// RFC 3986 allows ASCII only: whatever else stands in an address goes in as %xx.
std::string escaped_address(std::string_view address) {
  std::string out;
  for (const char c : address) {
    if (c > ' ' && c <= '~')
      out.push_back(c);
    else
      out += fmt::format("%{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
  }
  return out;
}

using Anchors = std::map<std::string_view, const page::Anchor*>;

Anchors anchors_of(const page::Laid& laid) {
  Anchors anchors;
  for (const page::Anchor& anchor : laid.anchors)
    if (anchor.page >= 0 && as_index(anchor.page) < laid.pages.size())
      anchors.emplace(anchor.id, &anchor);
  return anchors;
}

// What a link says to those who do not see it (ISO 14289-1, 7.18.5).
std::string contents_of(const LinkOnPage& link, const page::Laid& laid,
                        const page::Anchor* anchor) {
  if (!link.link.says.empty()) return link.link.says;
  if (link.link.node >= 0 && as_index(link.link.node) < laid.nodes.size())
    if (const auto& said = laid.nodes[as_index(link.link.node)].alternative; !said.empty())
      return said;
  return anchor == nullptr ? link.link.target : laid.pages[as_index(anchor->page)].label;
}

} // namespace

std::vector<LinkObject> add_links(Haru& haru, const page::Laid& laid, std::span<const Ref> pages,
                                  std::span<const PageContent> contents) {
  const Anchors anchors = anchors_of(laid);
  std::vector<LinkObject> objects;
  for (std::size_t page = 0; page < contents.size(); ++page) {
    for (const LinkOnPage& link : contents[page].links) {
      const bool address = is_address(link.link);
      const auto found = anchors.find(link.link.target);
      // The page room has reported a link that leads nowhere; here it stays plain text.
      if (!address && found == anchors.end()) continue;
      const page::Anchor* anchor = address ? nullptr : found->second;
      std::string out = "/Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect";
      append_box(out, link.link.box, laid.pages[page].size.height);
      if (const std::string says = contents_of(link, laid, anchor); !says.empty())
        out += "/Contents" + text_string(says);
      if (!laid.nodes.empty() && link.link.node >= 0)
        out += fmt::format("/StructParent {}", pages.size() + objects.size());
      if (address) {
        out += "/A<</S/URI/URI" + byte_string(escaped_address(link.link.target)) + ">>";
      } else {
        const auto to = as_index(anchor->page);
        out += fmt::format("/Dest[{}/XYZ null ", ref_text(pages[to]));
        append_points(out, laid.pages[to].size.height - anchor->at.y);
        out += " null]";
      }
      objects.push_back(
          {haru.add(std::move(out)), static_cast<int>(page), link.link.node, link.marked_before});
    }
  }
  return objects;
}

namespace {

constexpr std::size_t none = as_index(-1);

struct OutlineEntry {
  std::size_t source = 0;
  std::size_t parent = none, previous = none, next = none, first = none, last = none;
  int children = 0;
};

// Links the entries by their levels. A level that is skipped hangs on the last entry above it.
std::vector<OutlineEntry> link_up(std::span<const page::OutlineEntry> outline,
                                  std::size_t page_count) {
  std::vector<OutlineEntry> entries;
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
    OutlineEntry entry;
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
  const std::vector<OutlineEntry> entries = link_up(laid.outline, pages.size());
  if (entries.empty()) return {};
  const Ref root = haru.reserve();
  std::vector<Ref> refs;
  for (std::size_t i = 0; i < entries.size(); ++i) refs.push_back(haru.reserve());
  std::size_t roots = 0, last_root = 0;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const OutlineEntry& entry = entries[i];
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

namespace {

// A label as PDF counts: prefix, then a number in a style (D, r, R) or none (0).
struct Label {
  char style = 0;
  std::string prefix;
  int number = 0;
};

std::string roman(int number) {
  constexpr std::array<std::pair<int, const char*>, 13> parts{{{1000, "m"},
                                                               {900, "cm"},
                                                               {500, "d"},
                                                               {400, "cd"},
                                                               {100, "c"},
                                                               {90, "xc"},
                                                               {50, "l"},
                                                               {40, "xl"},
                                                               {10, "x"},
                                                               {9, "ix"},
                                                               {5, "v"},
                                                               {4, "iv"},
                                                               {1, "i"}}};
  std::string text;
  for (const auto& [value, letters] : parts)
    for (; number >= value; number -= value) text += letters;
  return text;
}

// The number a roman label stands for, 0 when it is none below 500 (a lone "c" or "d" may be a
// letter, but a booklet's front matter is short: "c" is read as 100 and still printed "c").
int roman_value(const std::string& lower) {
  if (lower.empty() || lower.size() > 12 || lower.find_first_not_of("ivxlcd") != std::string::npos)
    return 0;
  for (int number = 1; number < 500; ++number)
    if (roman(number) == lower) return number;
  return 0;
}

Label read_label(const std::string& text) {
  const std::string lower = small_letters(text);
  if (const int value = roman_value(lower); value != 0) {
    if (text == lower) return {'r', "", value};
    const bool upper =
        std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
    if (upper) return {'R', "", value};
  }
  std::size_t digits = text.size();
  while (digits > 0 && text[digits - 1] >= '0' && text[digits - 1] <= '9') --digits;
  // "07" counts on as "8": only a number without leading noughts is one.
  while (digits < text.size() && text[digits] == '0') ++digits;
  const std::size_t length = text.size() - digits;
  if (length == 0 || length > 8) return {0, text, 0};
  int number = 0;
  for (std::size_t i = digits; i < text.size(); ++i) number = number * 10 + (text[i] - '0');
  return {'D', text.substr(0, digits), number};
}

bool goes_on(const Label& before, const Label& label) {
  return before.style == label.style && before.style != 0 && before.prefix == label.prefix &&
         before.number + 1 == label.number;
}

} // namespace

std::string page_labels(std::span<const page::LaidPage> pages) {
  std::vector<Label> labels;
  for (const page::LaidPage& page : pages) labels.push_back(read_label(page.label));
  bool plain = true;
  for (std::size_t i = 0; i < labels.size(); ++i)
    plain = plain && labels[i].style == 'D' && labels[i].prefix.empty() &&
            labels[i].number == static_cast<int>(i) + 1;
  if (plain) return {};
  std::string out = "/PageLabels<</Nums[";
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (i > 0 && goes_on(labels[i - 1], labels[i])) continue;
    const Label& label = labels[i];
    out += fmt::format("{}<<", i);
    if (label.style != 0) out += fmt::format("/S/{}", label.style);
    if (!label.prefix.empty()) out += "/P" + text_string(label.prefix);
    if (label.style != 0 && label.number != 1) out += fmt::format("/St {}", label.number);
    out += ">>";
  }
  return out + "]>>";
}

} // namespace leafwright::pdf
