#pragma once

#include <functional>
#include <map>
#include <utility>

// What one round of work leaves for the next.

namespace leafwright {

// Values found again by all that they were made from, so that a hit changes no result. A value that
// two rounds in a row had no use for is dropped. Not for two threads at once.
//
//   if (const Plan* known = cache.find(key)) return *known;
//   return cache.keep(key, made(job));
template <class Key, class Value, class Less = std::less<>>
class AgeingCache {
 public:
  // nullptr when it is not there; a pointer is good until next_round().
  template <class Like>
  const Value* find(const Like& key) {
    const auto known = entries_.find(key);
    if (known == entries_.end()) return nullptr;
    known->second.round = round_;
    return &known->second.value;
  }
  const Value& keep(Key key, Value value) {
    return entries_.insert_or_assign(std::move(key), Entry{std::move(value), round_})
        .first->second.value;
  }
  std::size_t size() const { return entries_.size(); }
  // Before everything is made again.
  void next_round() {
    std::erase_if(entries_, [this](const auto& one) { return one.second.round + 1 < round_; });
    ++round_;
  }

 private:
  struct Entry {
    Value value;
    int round = 0;
  };
  std::map<Key, Entry, Less> entries_;
  int round_ = 0;
};

} // namespace leafwright
