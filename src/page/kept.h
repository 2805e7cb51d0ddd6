#pragma once

#include "guide/figure/scene_digest.h"
#include "measure/shape.h"

#include <cstdint>
#include <map>
#include <memory>
#include <tuple>

namespace leafwright::page {

// A scene composed.
struct Drawn {
  std::shared_ptr<const Drawing> drawing;
  double scale = 1.0;
  bool crowded = false;
};

// What laying out a document leaves for the next time: the drawings, whose labels are the dearest
// thing to place. Belongs to one set of fonts. Nothing in it changes what comes out: a drawing is
// found only by all that it depends on.
class Kept {
 public:
  struct Key {
    figure::SceneDigest scene;
    Size room;
    double scale = 0;
    friend bool operator<(const Key& a, const Key& b) {
      const auto tied = [](const Key& k) {
        return std::tuple(k.scene, k.room.width.nm, k.room.height.nm, k.scale);
      };
      return tied(a) < tied(b);
    }
  };

  const Drawn* find(const Key& key) {
    const auto known = drawings_.find(key);
    if (known == drawings_.end()) return nullptr;
    known->second.round = round_;
    return &known->second.drawn;
  }
  void keep(const Key& key, const Drawn& drawn) {
    drawings_.insert_or_assign(key, Entry{drawn, round_});
  }
  // Before everything is made again: what the last two rounds had no use for is let go.
  void next_round() {
    std::erase_if(drawings_, [this](const auto& one) { return one.second.round + 1 < round_; });
    ++round_;
  }

 private:
  struct Entry {
    Drawn drawn;
    int round = 0;
  };
  std::map<Key, Entry> drawings_;
  int round_ = 0;
};

} // namespace leafwright::page
