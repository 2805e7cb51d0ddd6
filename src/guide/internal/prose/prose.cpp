#include "guide/prose.h"

#include "language/words.h"

#include <type_traits>

namespace leafwright::guide {

void Prose::settle(std::string_view what_follows) {
  if (!open_aside_ || what_follows.empty()) return;
  open_aside_ = false;
  if (std::string_view(".,:;)").find(what_follows.front()) == std::string_view::npos)
    add(",", Words::Style::Plain);
}

Prose& Prose::add(std::string_view words, Words::Style style) {
  if (words.empty()) return *this;
  settle(words);
  if (!inlines_.empty()) {
    auto* last = std::get_if<Words>(&inlines_.back());
    if (last && last->style == style) {
      last->text += words;
      return *this;
    }
  }
  inlines_.emplace_back(Words{std::string(words), style});
  return *this;
}

Prose& Prose::aside(std::string_view words) {
  if (words.empty()) return *this;
  add(", ", Words::Style::Plain);
  add(words, Words::Style::Plain);
  open_aside_ = true;
  return *this;
}

Prose& Prose::next() { return inlines_.empty() ? *this : say(" "); }

Prose& Prose::letter(std::string_view letter) {
  if (letter.empty()) return *this;
  if (!inlines_.empty()) say("\u00A0");
  inlines_.emplace_back(PieceLetter{std::string(letter)});
  return *this;
}

Prose& Prose::ink(int ink) {
  settle(" ");
  inlines_.emplace_back(InkChip{ink});
  return say("\u00A0");
}

Prose& Prose::page_of(std::string_view anchor) {
  inlines_.emplace_back(PageOf{std::string(anchor)});
  return *this;
}

Prose& Prose::go(std::string_view target, std::string_view text) {
  settle(text);
  inlines_.emplace_back(Go{std::string(target), std::string(text)});
  return *this;
}

Prose& Prose::append(const Inlines& inlines) {
  for (const Inline& one : inlines) {
    if (const auto* words = std::get_if<Words>(&one)) {
      add(words->text, words->style);
    } else {
      settle("x");
      inlines_.push_back(one);
    }
  }
  return *this;
}

Prose& Prose::append(const Prose& other) {
  append(other.inlines_);
  open_aside_ = other.open_aside_;
  return *this;
}

Inlines Prose::sentence() const {
  Inlines out = inlines_;
  if (!out.empty())
    if (auto* first = std::get_if<Words>(&out.front()))
      first->text = words::sentence_case(first->text);
  return out;
}

Inlines plain(std::string_view words) { return {Words{std::string(words), Words::Style::Plain}}; }
Inlines strong(std::string_view words) { return {Words{std::string(words), Words::Style::Strong}}; }
Inlines quiet(std::string_view words) { return {Words{std::string(words), Words::Style::Quiet}}; }

std::string spoken(const Inlines& inlines) {
  std::string out;
  for (const Inline& one : inlines) {
    out += std::visit(
        [](const auto& part) -> std::string {
          using T = std::decay_t<decltype(part)>;
          if constexpr (std::is_same_v<T, Words> || std::is_same_v<T, Go>)
            return part.text;
          else if constexpr (std::is_same_v<T, PieceLetter>)
            return "(" + part.letter + ")";
          else if constexpr (std::is_same_v<T, InkChip>)
            return "▪";
          else if constexpr (std::is_same_v<T, PageOf>)
            return "<page of " + part.anchor + ">";
          else
            return "☐";
        },
        one);
  }
  return out;
}

} // namespace leafwright::guide
