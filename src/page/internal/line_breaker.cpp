#include "page/layout.h"

#include "measure/letters.h"
#include "page/internal/paragraph.h"

#include <hyphen.h>
#include <linebreak.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <limits>

namespace leafwright::page {

struct Hyphenation::Inside {
  struct FreeDictionary {
    void operator()(HyphenDict* dictionary) const { hnj_hyphen_free(dictionary); }
  };
  std::unique_ptr<HyphenDict, FreeDictionary> dictionary;
};

Hyphenation::Hyphenation() : inside_(std::make_unique<Inside>()) {}
Hyphenation::Hyphenation(const std::string& dictionary_file) : Hyphenation() {
  inside_->dictionary.reset(hnj_hyphen_load(dictionary_file.c_str()));
}
Hyphenation::Hyphenation(Hyphenation&&) noexcept = default;
Hyphenation& Hyphenation::operator=(Hyphenation&&) noexcept = default;
Hyphenation::~Hyphenation() = default;

bool Hyphenation::loaded() const { return inside_ && inside_->dictionary; }

std::vector<std::size_t> Hyphenation::points(std::string_view word) const {
  std::vector<std::size_t> result;
  constexpr std::size_t longest = 80; // no English word; keeps libhyphen's buffers small
  if (!loaded() || word.size() < 5 || word.size() > longest) return result;
  const std::string lower = small_letters(word);
  std::array<char, longest + 8> marks{};
  std::array<char, 2 * longest + 8> hyphenated{};
  char** replacements = nullptr;
  int* positions = nullptr;
  int* cuts = nullptr;
  const int failed = hnj_hyphen_hyphenate3(
      inside_->dictionary.get(), lower.c_str(), static_cast<int>(lower.size()), marks.data(),
      hyphenated.data(), &replacements, &positions, &cuts, 2, 3, 2, 3);
  // Without spelling changes: an odd mark behind a character allows a hyphen there. The marks count
  // characters; words with more than one byte a character are left whole rather than cut wrongly.
  const bool plain = [&] {
    for (const char c : lower)
      if (static_cast<unsigned char>(c) >= 0x80) return false;
    return true;
  }();
  if (failed == 0 && plain)
    for (std::size_t i = 0; i + 1 < lower.size(); ++i)
      if ((marks[i] & 1) != 0 && (replacements == nullptr || replacements[i] == nullptr))
        result.push_back(i + 1);
  if (replacements != nullptr)
    for (std::size_t i = 0; i + 1 < lower.size(); ++i) std::free(replacements[i]);
  std::free(replacements);
  std::free(positions);
  std::free(cuts);
  return result;
}

Hyphenation system_hyphenation(std::string_view language) {
  std::string name(language);
  for (char& c : name)
    if (c == '-') c = '_';
  const std::string folder = "/usr/share/hyphen/hyph_"; // Debian's place for them
  Hyphenation exact(folder + name + ".dic");
  if (exact.loaded()) return exact;
  if (name.starts_with("en")) return Hyphenation(folder + "en_US.dic");
  return {};
}

std::vector<bool> break_opportunities(std::string_view utf8) {
  // The library builds its look-up table once, for all.
  static const bool ready = [] {
    init_linebreak();
    return true;
  }();
  std::vector<bool> result(utf8.size(), false);
  if (!ready || utf8.empty()) return result;
  // libunibreak 5.1 takes U+FFFF for the end of a text and knows no class for the halves of a flag:
  // an assertion ends the program. Others of as many bytes stand in: a flag is one pictograph with
  // a mark (LB30a keeps its halves together), what is no character a sign that breaks like a
  // letter.
  std::string borne;
  borne.reserve(utf8.size());
  bool half_flag = false;
  for (detail::TextCursor cursor(utf8); !cursor.done();) {
    const char32_t c = cursor.peek();
    const std::size_t from = cursor.at();
    cursor.advance();
    const bool flag = c >= 0x1F1E6 && c <= 0x1F1FF;
    if (flag)
      borne += half_flag ? "\U000E0100" : "\U0001F3F3";
    else if (c == detail::not_a_letter)
      borne += 'x';
    else if (c == 0xFFFF)
      borne += "\uFFFD";
    else
      borne += utf8.substr(from, cursor.at() - from);
    half_flag = flag && !half_flag;
  }
  std::string breaks(borne.size(), '\0');
  set_linebreaks_utf8(reinterpret_cast<const utf8_t*>(borne.data()), borne.size(), "en",
                      breaks.data());
  for (std::size_t i = 0; i < utf8.size(); ++i)
    result[i] = breaks[i] == LINEBREAK_ALLOWBREAK || breaks[i] == LINEBREAK_MUSTBREAK;
  return result;
}

namespace {

double part(Length a, Length of) {
  return of.nm == 0 ? 0.0 : static_cast<double>(a.nm) / static_cast<double>(of.nm);
}

Length room(const Line& line, const Measure& measure) {
  return measure.width - (line.first == 0 ? measure.first_indent : Length{});
}

// The narrowest a justified line can be set.
Length tightest(const Line& line, const Measure& measure) {
  if (!measure.justified) return line.natural;
  const double give = static_cast<double>(line.spaces.nm) * measure.shrink;
  return line.natural - Length{static_cast<std::int64_t>(give)};
}

} // namespace

Line make_line(std::span<const LinePiece> pieces, std::size_t first, std::size_t end,
               const Measure& measure) {
  Line line;
  line.first = first;
  line.end = end;
  if (first > 0) line.natural += pieces[first - 1].next_correction;
  for (std::size_t i = first; i < end; ++i) {
    line.natural += pieces[i].width;
    if (i + 1 < end) line.spaces += pieces[i].space;
  }
  line.natural += line.spaces;
  const LinePiece& final_piece = pieces[end - 1];
  line.last = end == pieces.size() || final_piece.after == LinePiece::After::Must;
  line.hyphenated = !line.last && final_piece.after == LinePiece::After::Hyphen;
  if (line.hyphenated) line.natural += final_piece.hyphen;
  line.overfull = tightest(line, measure) > room(line, measure);
  return line;
}

double line_cost(const Line& line, const Measure& measure, bool previous_hyphenated) {
  const Length width = room(line, measure);
  double cost = 8.0; // each line costs something, so that no line is made for nothing
  if (line.overfull) return overfull_cost * (1.0 + part(line.natural - width, width));
  if (line.hyphenated) cost += previous_hyphenated ? 260.0 : 60.0;
  const Length slack = width - line.natural;
  if (line.last) {
    // A runt under a full paragraph is worse than a little more rag above it.
    if (line.first > 0 && line.natural < measure.shortest_last)
      cost += 40.0 + 120.0 * part(measure.shortest_last - line.natural, measure.shortest_last);
    if (slack.nm >= 0) return cost;
  }
  if (!measure.justified) {
    const double rag = part(slack, width);
    return cost + 1000.0 * rag * rag;
  }
  const double give = static_cast<double>(line.spaces.nm) *
                      (slack.nm >= 0 ? measure.stretch : std::max(measure.shrink, 1e-9));
  if (give <= 0.0) return cost + (slack.nm == 0 ? 0.0 : 2000.0);
  const double ratio = static_cast<double>(slack.nm) / give;
  const double size = ratio < 0 ? -ratio : ratio;
  // Cubic, so that one gaping line is dearer than two that are a little loose.
  return cost + 50.0 * size * size * size;
}

std::vector<Line> break_lines(std::span<const LinePiece> pieces, const Measure& measure) {
  if (pieces.empty()) return {};
  struct BreakNode { // a place where a line may end: before piece `at`
    std::size_t at = 0;
    std::size_t from = 0; // index of the node where that line begins
    double cost = std::numeric_limits<double>::infinity();
    bool hyphenated = false;
  };
  std::vector<BreakNode> nodes{{0, 0, 0.0, false}};
  std::size_t reach = 0; // the earliest node from which a line may still begin
  for (std::size_t end = 1; end <= pieces.size(); ++end) {
    const LinePiece::After after = pieces[end - 1].after;
    if (after == LinePiece::After::Stay && end < pieces.size()) continue;
    BreakNode node;
    node.at = end;
    // Widths only grow as a line begins earlier, so the sums are carried along.
    Line line = make_line(pieces, nodes.back().at, end, measure);
    for (std::size_t k = nodes.size(); k-- > reach;) {
      const BreakNode& from = nodes[k];
      if (k + 1 < nodes.size()) line = make_line(pieces, from.at, end, measure);
      if (line.overfull && k + 1 < nodes.size()) {
        reach = k + 1;
        break;
      }
      const double cost = from.cost + line_cost(line, measure, from.hyphenated);
      if (cost < node.cost) {
        node.cost = cost;
        node.from = k;
        node.hyphenated = line.hyphenated;
      }
    }
    nodes.push_back(node);
    if (after == LinePiece::After::Must) reach = nodes.size() - 1;
  }
  std::vector<Line> lines;
  for (std::size_t k = nodes.size() - 1; k > 0; k = nodes[k].from)
    lines.push_back(make_line(pieces, nodes[nodes[k].from].at, nodes[k].at, measure));
  std::reverse(lines.begin(), lines.end());
  return lines;
}

} // namespace leafwright::page
