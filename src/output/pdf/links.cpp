#include "measure/index.h"
#include "output/pdf/navigation.h"

#include "output/list/address.h"
#include "output/pdf/syntax.h"

#include <fmt/format.h>

#include <map>

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

} // namespace leafwright::pdf
