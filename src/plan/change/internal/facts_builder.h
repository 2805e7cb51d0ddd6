#pragma once

#include "language/lists.h"
#include "measure/index.h"
#include "measure/print_length.h"
#include "plan/change/compare.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <utility>

// Writing facts down. Inside this room.

namespace leafwright::change {

class Writer {
 public:
  Writer(Thing& thing, const Project& project) : thing_(thing), project_(project) {}

  // What says nothing (no words, no price) is no fact.
  void put(std::string name, std::string words) {
    if (!words.empty()) add(std::move(name), std::move(words));
  }
  void put(std::string name, std::int64_t number) { add(std::move(name), number); }
  void put(std::string name, Length length) { add(std::move(name), length); }
  void put(std::string name, Size size) {
    if (size != Size{}) add(std::move(name), size);
  }
  void put(std::string name, Point point) { add(std::move(name), point); }
  void put(std::string name, const std::optional<Money>& money) {
    if (money) add(std::move(name), *money);
  }
  void yes(std::string name, bool truth) {
    add(std::move(name), std::string(truth ? "yes" : "no"));
  }
  void drawn(std::string name, std::string exact) {
    if (!exact.empty()) add(std::move(name), Drawn{std::move(exact)});
  }
  void put(std::string name, const AuthorText& text);
  std::string piece_name(int index) const; // of the card that the thing belongs to
  void put(std::string name, Colour colour) {
    put(std::move(name), fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue));
  }
  void put(std::string name, Grammage grammage) {
    if (grammage.mg_per_m2 > 0) put(std::move(name), grammage_text(grammage));
  }
  void put(std::string name, Mass mass) {
    if (mass.mg > 0) put(std::move(name), mass_text(mass) + exact_mass(mass));
  }
  void outline(const std::string& name, const Shape& shape);
  void artwork(const std::string& name, const Artwork& artwork);
  void sold(const Sold& sold);
  void picture(const std::string& name, int index, const std::string& words);

  std::string item(ItemRef ref) const { return item_id(project_, ref); }
  std::string items(const std::vector<ItemRef>& refs) const;
  std::string amount(const Amount& amount) const;
  const Project& project() const { return project_; }

 private:
  void add(std::string name, FactValue worth) {
    thing_.facts.push_back({std::move(name), std::move(worth)});
  }
  static std::string exact_mass(Mass mass) {
    return mass.mg % 10 == 0 ? std::string() : fmt::format(" ({} mg)", mass.mg);
  }
  Thing& thing_;
  const Project& project_;
};

template <class List>
std::string id_at(const List& list, int index) {
  return index >= 0 && as_index(index) < list.size() ? list[as_index(index)].id : std::string();
}
// Words for the values of an enumeration, in its order; a number behind the last.
template <class Enum, std::size_t N>
std::string word(Enum value, const char* const (&words)[N]) {
  const auto index = as_index(value);
  return index < N ? words[index] : std::to_string(index);
}

std::string path_text(const Path& path);

void add_card_things(std::vector<Thing>& things, const Project& project, int card);
void add_supplies(std::vector<Thing>& things, const Project& project);
void add_tiers(std::vector<Thing>& things, const Project& project);
void add_run(std::vector<Thing>& things, const Project& project);

} // namespace leafwright::change
