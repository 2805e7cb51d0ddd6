#include "model/project.h"

#include "measure/index.h"

namespace leafwright {

namespace {

// What all listed things share. A view rather than a copy: names may be long and the lists are
// asked often.
struct Called {
  const std::string* id = nullptr;
  const std::string* name = nullptr;
};

template <class T>
Called called(const std::vector<T>& list, int index) {
  if (index < 0 || as_index(index) >= list.size()) return {};
  const T& thing = list[as_index(index)];
  return {&thing.id, &thing.name};
}

Called called(const Project& project, ItemRef item) {
  switch (item.kind) {
  case ItemKind::Stock: return called(project.stocks, item.index);
  case ItemKind::Pack: return called(project.packs, item.index);
  case ItemKind::Die: return called(project.dies, item.index);
  case ItemKind::StampSet: return called(project.stamp_sets, item.index);
  case ItemKind::Ink: return called(project.inks, item.index);
  case ItemKind::Ribbon: return called(project.ribbons, item.index);
  case ItemKind::Embellishment: return called(project.embellishments, item.index);
  case ItemKind::Adhesive: return called(project.adhesives, item.index);
  case ItemKind::Tool: return called(project.tools, item.index);
  case ItemKind::Envelope: return called(project.envelopes, item.index);
  case ItemKind::Tutorial:
  case ItemKind::Parts: break;
  }
  return {};
}

} // namespace

std::string item_name(const Project& project, ItemRef item) {
  if (item.kind == ItemKind::Tutorial) return "tutorial";
  if (item.kind == ItemKind::Parts) return "cut parts";
  const Called found = called(project, item);
  if (!found.name) return {};
  return found.name->empty() ? *found.id : *found.name;
}

std::string item_id(const Project& project, ItemRef item) {
  if (item.kind == ItemKind::Tutorial) return "tutorial";
  if (item.kind == ItemKind::Parts) return "parts";
  const Called found = called(project, item);
  return found.id ? *found.id : std::string{};
}

} // namespace leafwright
