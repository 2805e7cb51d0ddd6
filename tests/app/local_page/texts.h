#pragma once

#include "app/local_page/internal/edit_session.h"

#include <string>
#include <string_view>
#include <vector>

// A small project and wishes about it, by the names of its elements.

namespace leafwright::test {

inline const std::string small_project = R"(<?xml version="1.0" encoding="UTF-8"?>
<!-- a comment that stays -->
<project xmlns="urn:leafwright:project" version="1" id="small" title='One "small" set'>
  <supplies>
    <stock id="kraft" colour="#cfae83" sheet="letter"/> <!-- brown -->
    <stock id="cream" colour="#fcf6ea"
           sheet="letter"/>
  </supplies>
  <card id="one" title="One" form="top-fold" size="A2">
    <base stock="kraft"/>
    <!-- the mat -->
    <panel id="mat" stock="cream" on="front" inset="1/8"/>
    <panel id="label" stock="kraft" on="mat" size="3 x 1"></panel>
    <step for="mat">Tape it <!-- well --> down.<tip>Press.</tip></step>
  </card>
</project>
)";

// The key of the first element of that name, and of that id if one is given.
inline local_page::Key key_of(const local_page::KeyedText& text, std::string_view name,
                              std::string_view id = {}) {
  const local_page::ElementTree tree(text.bytes);
  for (std::size_t i = 0; i < tree.nodes.size(); ++i) {
    const edit::AttributeSpan* own = tree.nodes[i].span->find("id");
    if (tree.nodes[i].span->name == name &&
        (id.empty() || (own && std::string_view(text.bytes).substr(own->value, own->length) == id)))
      return text.keys.at(i);
  }
  return 0;
}

inline local_page::Wish set_wish(local_page::Key key, std::string name, std::string words) {
  local_page::Wish wish;
  wish.key = key;
  wish.name = std::move(name);
  wish.words = std::move(words);
  return wish;
}

inline local_page::Wish wish(local_page::Wish::What what, local_page::Key key,
                             std::optional<local_page::Key> before = std::nullopt) {
  local_page::Wish wish;
  wish.what = what;
  wish.key = key;
  wish.before = before;
  return wish;
}

// Whether it was done.
inline bool done(local_page::Session& session, const local_page::Wish& wish,
                 std::string_view group = {}, double at = 0) {
  std::vector<edit::Written> written;
  return !session.edit({wish}, group, at, written);
}

// The text with one part of it changed.
inline std::string with(std::string text, std::string_view before, std::string_view after) {
  const std::size_t at = text.find(before);
  return at == std::string::npos ? "not there: " + std::string(before)
                                 : text.replace(at, before.size(), after);
}

} // namespace leafwright::test
