#include "read/internal/catalogue.h"

#include "measure/letters.h"
#include "model/item.h"
#include "read/document.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::reading {
namespace {

constexpr std::size_t most_candidates = 2000; // compared for a near miss

bool is_id(std::string_view id) {
  if (id.empty()) return false;
  const auto letter = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' ||
           static_cast<unsigned char>(c) >= 0x80;
  };
  const auto inner = [&](char c) { return letter(c) || (c >= '0' && c <= '9') || c == '-'; };
  return letter(id.front()) && std::all_of(id.begin(), id.end(), inner);
}

} // namespace

std::string id_of(Context& context, const Element& element, std::string_view fallback) {
  const auto value = element.attribute("id");
  if (!value) return std::string(fallback);
  if (is_id(value->view())) return value->text();
  note(context, *value, "read-id",
       "a name of letters, digits and hyphens that begins with a letter",
       "write an id such as cream-panel");
  return std::string(fallback);
}

std::string name_from_id(std::string_view id) {
  std::string name(id);
  std::replace(name.begin(), name.end(), '-', ' ');
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

void Catalogue::add(Context& context, const Element& element, Supply supply) {
  const std::string id = id_of(context, element);
  if (id.empty()) return;
  const auto value = element.attribute("id");
  supply.place = value ? value->place() : element.place();
  const auto [where, fresh] = supplies_.emplace(id, supply);
  const bool reserved = id == "tutorial" || id == "parts" || id == "card" || id == "project";
  if (fresh && !reserved) return;
  Finding finding{Severity::Error,
                  "read-id-twice",
                  supply.place,
                  reserved ? fmt::format("the id {}, which has a meaning of its own", id)
                           : fmt::format("the id {} a second time", id),
                  "an id that nothing else has",
                  "choose another id here, and wherever this thing is meant",
                  {}};
  if (!fresh) finding.trace.push_back({where->second.place, fmt::format("{} is first here", id)});
  context.journal.add(std::move(finding));
}

const Supply* Catalogue::find(std::string_view id) const {
  const auto found = supplies_.find(id);
  return found == supplies_.end() ? nullptr : &found->second;
}

std::vector<std::string_view> Catalogue::ids() const {
  std::vector<std::string_view> list;
  for (const auto& [id, supply] : supplies_) {
    if (list.size() == most_candidates) break;
    list.emplace_back(id);
  }
  return list;
}

std::vector<std::string_view> Catalogue::ids_of(ItemKind kind) const {
  std::vector<std::string_view> list;
  for (const auto& [id, supply] : supplies_) {
    if (list.size() == most_candidates) break;
    if (supply.kind == Supply::Kind::Item && supply.item.kind == kind) list.emplace_back(id);
  }
  return list;
}

std::vector<std::string_view> Catalogue::image_ids() const {
  std::vector<std::string_view> list;
  for (const auto& [id, supply] : supplies_) {
    if (list.size() == most_candidates) break;
    if (supply.kind == Supply::Kind::Image) list.emplace_back(id);
  }
  return list;
}

int Catalogue::index_of(Context& context, const Element& element, std::string_view attribute,
                        ItemKind kind) const {
  const auto value = element.attribute(attribute);
  if (!value) return -1;
  return index_of(context, *value, value->view(), 0, kind);
}

int Catalogue::index_of(Context& context, const Value& value, std::string_view id, std::size_t at,
                        ItemKind kind) const {
  const Supply* supply = find(id);
  if (supply != nullptr && supply->kind == Supply::Kind::Item && supply->item.kind == kind)
    return supply->item.index;
  Finding finding{Severity::Error,
                  supply ? "read-wrong-kind" : "read-unknown-name",
                  value.place(at, id.size()),
                  supply ? fmt::format("{}, which is {}", id,
                                       supply->kind == Supply::Kind::Image
                                           ? "a stamp image"
                                           : std::string(kind_row(supply->item.kind).words))
                         : detail::shown(id),
                  fmt::format("{} from <supplies>", kind_row(kind).words),
                  {},
                  {}};
  finding.fix = context.journal.suggestion(id, [&] { return ids_of(kind); });
  if (supply) finding.trace.push_back({supply->place, fmt::format("{} is here", id)});
  context.journal.add(std::move(finding));
  return -1;
}

std::optional<ItemRef> Catalogue::item_of(Context& context, const Value& value, std::string_view id,
                                          std::size_t at, bool tier_words) const {
  if (tier_words && id == "tutorial") return ItemRef{ItemKind::Tutorial, -1};
  if (tier_words && id == "parts") return ItemRef{ItemKind::Parts, -1};
  const Supply* supply = find(id);
  if (supply != nullptr && supply->kind == Supply::Kind::Item) return supply->item;
  const auto known = [&] {
    std::vector<std::string_view> list = ids();
    if (tier_words) {
      list.emplace_back("tutorial");
      list.emplace_back("parts");
    }
    return list;
  };
  context.journal.error("read-unknown-name", value.place(at, id.size()),
                        supply ? fmt::format("{}, which is a stamp image", id) : detail::shown(id),
                        "the id of a supply", context.journal.suggestion(id, known));
  return std::nullopt;
}

std::vector<ItemRef> Catalogue::used_in(Context& context, const Element& element) const {
  std::vector<ItemRef> used;
  const auto value = element.attribute("uses");
  if (!value) return used;
  for (const ListedWord& word : listed_words(value->view())) {
    const auto item = item_of(context, *value, word.text, word.at, false);
    if (!item) continue;
    using Counted = KindRow::Counted;
    const Counted counted = kind_row(item->kind).counted;
    if (counted == Counted::Sheets || counted == Counted::Packs || counted == Counted::Length) {
      context.journal.error("read-wrong-kind", value->place(word.at, word.text.size()),
                            fmt::format("{}, which is {}", word.text, kind_row(item->kind).words),
                            "a tool or a supply that is not cut to measure",
                            "write a <panel> or a <ribbon> for it");
      continue;
    }
    if (std::ranges::find(used, *item) == used.end()) used.push_back(*item);
  }
  return used;
}

} // namespace leafwright::reading
