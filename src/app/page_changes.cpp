#include "app/editions.h"

#include "guide/change/report.h"

#include <fmt/format.h>

#include <iterator>
#include <type_traits>
#include <utility>

namespace leafwright::app {

namespace {

class PagePrinter {
 public:
  std::string print(const page::LaidPage& page) {
    for (const DrawItem& item : page.items) {
      if (const auto* begin = std::get_if<Begin>(&item)) furniture_ = begin->node < 0;
      if (std::holds_alternative<End>(item)) furniture_ = false;
      // Running feet, rules and change bars are no content.
      if (!furniture_) std::visit([this](const auto& what) { show(what); }, item);
    }
    return std::move(out_);
  }

 private:
  template <class... T>
  void say(fmt::format_string<T...> format, T&&... values) {
    fmt::format_to(std::back_inserter(out_), format, std::forward<T>(values)...);
  }
  void path(const Path& path) {
    for (const Segment& one : path)
      say("{} {} {} {} {} {} {};", static_cast<int>(one.kind), one.control1.x.nm, one.control1.y.nm,
          one.control2.x.nm, one.control2.y.nm, one.end.x.nm, one.end.y.nm);
  }
  void show(const Fill& one) {
    path(one.path);
    say("{:02x}{:02x}{:02x} {};", one.colour.red, one.colour.green, one.colour.blue, one.opacity);
  }
  void show(const Stroke& one) {
    path(one.path);
    say("{:02x}{:02x}{:02x} {} {};", one.colour.red, one.colour.green, one.colour.blue,
        one.width.nm, one.dash.size());
  }
  void show(const TextRun& one) {
    say("{} {} {} {};", one.shaped.text, one.baseline.x.nm, one.baseline.y.nm, one.turned.udeg);
  }
  void show(const Image& one) {
    say("image {} {} {} {} {};", one.picture, one.box.origin.x.nm, one.box.origin.y.nm,
        one.box.size.width.nm, one.box.size.height.nm);
  }
  void show(const PushClip& one) { path(one.path); }
  void show(const PopClip&) { say("pop;"); }
  void show(const Link&) {}
  void show(const Begin&) {}
  void show(const End&) {}
  void show(const Mark& one) { say("{} {};", one.kind, one.id); }

  std::string out_;
  bool furniture_ = false;
};

std::vector<std::string> prints_of(const page::Laid& laid) {
  std::vector<std::string> prints;
  for (const page::LaidPage& page : laid.pages) prints.push_back(PagePrinter().print(page));
  return prints;
}

} // namespace

guide::PageChanges page_changes(const page::Laid& before, const page::Laid& after) {
  guide::PageChanges changes;
  changes.before = before.pages.size();
  changes.after = after.pages.size();
  const auto partner = guide::aligned(prints_of(before), prints_of(after));
  std::vector<bool> kept(before.pages.size(), false);
  for (std::size_t j = 0; j < partner.size(); ++j) {
    if (partner[j])
      kept[*partner[j]] = true;
    else
      changes.changed.push_back(after.pages[j].label);
  }
  for (std::size_t i = 0; i < kept.size(); ++i)
    if (!kept[i]) changes.dropped.push_back(before.pages[i].label);
  return changes;
}

} // namespace leafwright::app
