#pragma once

#include <cstddef>
#include <optional>
#include <vector>

// The model counts in int, with -1 for "none"; containers count in std::size_t.

namespace leafwright {

// A number known not to be negative, for subscripts.
template <class Number>
constexpr std::size_t as_index(Number number) {
  return static_cast<std::size_t>(number);
}

// The element of that number; throws std::out_of_range when there is none.
template <class T>
const T& at(const std::vector<T>& list, int index) {
  return list.at(as_index(index));
}

// The element of that number, or nullptr.
template <class T>
const T* find_at(const std::vector<T>& list, int index) {
  return index >= 0 && as_index(index) < list.size() ? &list[as_index(index)] : nullptr;
}

} // namespace leafwright
