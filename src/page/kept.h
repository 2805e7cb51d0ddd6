#pragma once

#include "guide/figure/drawing.h"
#include "measure/fingerprint.h"
#include "page/frame.h"
#include "page/hyphenation.h"

#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <tuple>

namespace leafwright::page {

// A scene composed.
struct Drawn {
  std::shared_ptr<const Drawing> drawing;
  double scale = 1.0;
  bool crowded = false;
};

// What laying out a document leaves for the next time: drawings, whose labels are the dearest thing
// to place, and paragraphs set. Belongs to one set of fonts. Nothing in it changes what comes out:
// each is found only by all that it depends on.
class Kept {
 public:
  // Beyond so many paragraphs no more are kept: a list of thousands of parcels hardly repeats
  // itself.
  explicit Kept(std::size_t most_paragraphs = 50'000) : most_paragraphs_(most_paragraphs) {}

  struct DrawingKey {
    Fingerprint scene;
    Size room;
    double scale = 0;
    friend bool operator<(const DrawingKey& a, const DrawingKey& b) {
      const auto tied = [](const DrawingKey& k) {
        return std::tuple(k.scene, k.room.width.nm, k.room.height.nm, k.scale);
      };
      return tied(a) < tied(b);
    }
  };
  const Drawn* find(const DrawingKey& key) { return found(drawings_, key); }
  void keep(const DrawingKey& key, const Drawn& drawn) {
    drawings_.insert_or_assign(key, Entry<Drawn>{drawn, round_});
  }

  const Flow* find(const Fingerprint& paragraph) { return found(paragraphs_, paragraph); }
  void keep(const Fingerprint& paragraph, const Flow& flow) {
    if (paragraphs_.size() < most_paragraphs_)
      paragraphs_.insert_or_assign(paragraph, Entry<Flow>{flow, round_});
  }

  // Read from its file once; as system_hyphenation().
  const Hyphenation& hyphenation(std::string_view language) {
    const auto known = dictionaries_.find(language);
    if (known != dictionaries_.end()) return known->second;
    return dictionaries_.emplace(std::string(language), system_hyphenation(language)).first->second;
  }

  // Before everything is made again: what the last two rounds had no use for is let go.
  void next_round() {
    const auto forgotten = [this](const auto& one) { return one.second.round + 1 < round_; };
    std::erase_if(drawings_, forgotten);
    std::erase_if(paragraphs_, forgotten);
    ++round_;
  }

 private:
  template <class T>
  struct Entry {
    T made;
    int round = 0;
  };
  template <class K, class T>
  const T* found(std::map<K, Entry<T>>& all, const K& key) {
    const auto known = all.find(key);
    if (known == all.end()) return nullptr;
    known->second.round = round_;
    return &known->second.made;
  }

  std::map<std::string, Hyphenation, std::less<>> dictionaries_;
  std::map<DrawingKey, Entry<Drawn>> drawings_;
  std::map<Fingerprint, Entry<Flow>> paragraphs_;
  std::size_t most_paragraphs_;
  int round_ = 0;
};

} // namespace leafwright::page
