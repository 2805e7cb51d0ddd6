#include "guide/announcing/internal/rundown_parts.h"
#include "guide/announcing/rundown.h"

#include "guide/plain/lines.h"
#include "language/english.h"

#include <fmt/format.h>

#include <utility>

// A talk as text alone: for a prompter, and as cues with times.

namespace leafwright::guide {

namespace {

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : plaintext::with_common_blanks(text)) {
    if (c != ' ' && c != '\n')
      words.back() += c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

} // namespace

int spoken_words(std::string_view text) {
  return static_cast<int>(words_of(std::string(text)).size());
}

int spoken_words(const RundownPart& part) {
  int words = 0;
  for (const std::string& one : part.say) words += spoken_words(one);
  return words;
}

int milliseconds_for(int spoken_words) { return spoken_words * (60'000 / words_a_minute); }

std::vector<std::string> sentences_of(const std::string& text) {
  std::vector<std::string> sentences(1);
  for (const std::string& word : words_of(text)) {
    sentences.back() += (sentences.back().empty() ? "" : " ") + word;
    // A closing quote belongs to its sentence.
    std::string_view end = word;
    if (end.ends_with("”")) end.remove_suffix(std::string_view("”").size());
    if (end.ends_with('.') || end.ends_with('?') || end.ends_with('!')) sentences.emplace_back();
  }
  if (sentences.back().empty()) sentences.pop_back();
  return sentences;
}

std::string prompter_text(const Project& project, const Rundown& told) {
  int said = 0;
  for (const RundownPart& part : told.parts) said += spoken_words(part);
  std::string text = fmt::format("{} ({} words, about {})\n", project.title, said,
                                 words::duration_text(milliseconds_for(said) / 1000));
  for (const RundownPart& part : told.parts) {
    text += "\n[" + part.title + (part.show.empty() ? "" : ". Show: " + part.show) + "]\n";
    for (const std::string& paragraph : part.say)
      for (const std::string& one : sentences_of(paragraph)) text += one + "\n";
  }
  return plaintext::with_common_blanks(std::move(text));
}

namespace {

// What a viewer reads at once: two lines of 42 characters (common practice for captions).
constexpr std::size_t line_room = 42, lines_of_a_cue = 2;

using Cue = std::vector<std::string>; // its lines

std::vector<Cue> cues_of(const std::string& sentence) {
  std::vector<Cue> cues;
  for (std::string& line : plaintext::lines_of(sentence, line_room)) {
    if (cues.empty() || cues.back().size() == lines_of_a_cue) cues.emplace_back();
    cues.back().push_back(std::move(line));
  }
  return cues;
}

// W3C WebVTT, 4.2.2: `&` and `<` are escaped in cue text, and `-->` may not stand in it.
std::string escaped(const std::string& line) {
  std::string out;
  for (const char c : line) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else
      out += c;
  }
  return out;
}

std::string time_mark(int milliseconds) {
  return fmt::format("{:02}:{:02}:{:02}.{:03}", milliseconds / 3'600'000,
                     milliseconds / 60'000 % 60, milliseconds / 1000 % 60, milliseconds % 1000);
}

} // namespace

std::string cues_text(const Rundown& told) {
  std::string text = "WEBVTT\n";
  int before = 0;
  for (const RundownPart& part : told.parts)
    for (const std::string& paragraph : part.say)
      for (const std::string& sentence : sentences_of(paragraph))
        for (const Cue& cue : cues_of(sentence)) {
          std::string lines;
          int after = before;
          for (const std::string& line : cue) {
            lines += escaped(line) + "\n";
            after += spoken_words(line);
          }
          text += fmt::format("\n{} --> {}\n{}", time_mark(milliseconds_for(before)),
                              time_mark(milliseconds_for(after)), lines);
          before = after;
        }
  return text;
}

} // namespace leafwright::guide
