#include "page/grey.h"

#include <cmath>
#include <type_traits>
#include <variant>

namespace leafwright::page {

namespace {

template <class T>
concept Coloured = requires(T item) {
  item.colour;
};

} // namespace

Colour grey_of(Colour colour) {
  const auto luma = static_cast<std::uint8_t>(
      std::lround(0.299 * colour.red + 0.587 * colour.green + 0.114 * colour.blue));
  return {luma, luma, luma};
}

void make_grey(std::vector<DrawItem>& items) {
  for (DrawItem& item : items)
    std::visit(
        [](auto& what) {
          if constexpr (Coloured<std::decay_t<decltype(what)>>) what.colour = grey_of(what.colour);
        },
        item);
}

void make_grey(Laid& laid) {
  for (LaidPage& page : laid.pages) make_grey(page.items);
}

} // namespace leafwright::page
