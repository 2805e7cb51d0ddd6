#include "read/read.h"

#include "language/agreement.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::reading {
namespace {

struct Range {
  char32_t from, to;
};

constexpr std::array invisible = {
    Range{0x0300, 0x036F},   Range{0x0483, 0x0489}, Range{0x0591, 0x05BD}, Range{0x0610, 0x061A},
    Range{0x064B, 0x065F},   Range{0x0670, 0x0670}, Range{0x06D6, 0x06DC}, Range{0x0730, 0x074A},
    Range{0x0900, 0x0902},   Range{0x093C, 0x093C}, Range{0x0941, 0x0948}, Range{0x094D, 0x094D},
    Range{0x0E31, 0x0E31},   Range{0x0E34, 0x0E3A}, Range{0x0E47, 0x0E4E}, Range{0x1AB0, 0x1AFF},
    Range{0x1DC0, 0x1DFF},   Range{0x200B, 0x200F}, Range{0x202A, 0x202E}, Range{0x2060, 0x2064},
    Range{0x20D0, 0x20F0},   Range{0xFE00, 0xFE0F}, Range{0xFE20, 0xFE2F}, Range{0xFEFF, 0xFEFF},
    Range{0xE0100, 0xE01EF},
};
constexpr std::array wide = {
    Range{0x1100, 0x115F},   Range{0x231A, 0x231B},   Range{0x2329, 0x232A},
    Range{0x23E9, 0x23EC},   Range{0x25FD, 0x25FE},   Range{0x2614, 0x2615},
    Range{0x26AA, 0x26AB},   Range{0x2E80, 0x303E},   Range{0x3041, 0x33FF},
    Range{0x3400, 0x4DBF},   Range{0x4E00, 0x9FFF},   Range{0xA000, 0xA4CF},
    Range{0xA960, 0xA97C},   Range{0xAC00, 0xD7A3},   Range{0xF900, 0xFAFF},
    Range{0xFE30, 0xFE6F},   Range{0xFF00, 0xFF60},   Range{0xFFE0, 0xFFE6},
    Range{0x1F300, 0x1F64F}, Range{0x1F680, 0x1F6FF}, Range{0x1F900, 0x1F9FF},
    Range{0x1FA70, 0x1FAFF}, Range{0x20000, 0x3FFFD},
};

bool within(std::span<const Range> ranges, char32_t c) {
  const auto after =
      std::upper_bound(ranges.begin(), ranges.end(), c,
                       [](char32_t value, const Range& r) { return value < r.from; });
  return after != ranges.begin() && c <= (after - 1)->to;
}

} // namespace

int columns_of(char32_t c) {
  if (c < 0x300) return 1;
  if (within(invisible, c)) return 0;
  return within(wide, c) ? 2 : 1;
}

} // namespace leafwright::reading

namespace leafwright {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD"; // U+FFFD
constexpr int tab_stop = 4;

// Characters that would steer a terminal or hide text in it: controls and the bidirectional ones.
bool steers(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == detail::not_a_letter ||
         (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

struct Cell {
  std::string text;
  int columns = 1;
};

// A line as it is printed, one cell for each of its characters.
std::vector<Cell> cells_of(std::string_view line) {
  std::vector<Cell> cells;
  detail::TextCursor cursor(line);
  int column = 0;
  while (!cursor.done()) {
    const char32_t c = cursor.peek();
    const std::size_t from = cursor.at();
    cursor.advance();
    Cell cell;
    if (c == U'\t') {
      cell.columns = tab_stop - column % tab_stop;
      cell.text.assign(as_index(cell.columns), ' ');
    } else if (steers(c)) {
      cell.text = replacement;
    } else {
      cell.text = line.substr(from, cursor.at() - from);
      cell.columns = reading::columns_of(c);
    }
    column += cell.columns;
    cells.push_back(std::move(cell));
  }
  return cells;
}

int columns(const std::vector<Cell>& cells, std::size_t from, std::size_t to) {
  int sum = 0;
  for (std::size_t i = from; i < to; ++i) sum += cells[i].columns;
  return sum;
}

// The characters from..to of a line that is too long, about the marked part.
struct LineWindow {
  std::size_t from = 0, to = 0;
};
LineWindow window_about(const std::vector<Cell>& cells, std::size_t marked, std::size_t marked_end,
                        int width) {
  if (columns(cells, 0, cells.size()) <= width) return {0, cells.size()};
  const int room = std::max(width - 2, 8); // an ellipsis at either end
  LineWindow window{marked, marked};
  int used = 0;
  while (window.to < std::min(marked_end, cells.size()) && used + cells[window.to].columns <= room)
    used += cells[window.to++].columns;
  const int before = (room - used) / 2;
  int taken = 0;
  while (window.from > 0 && taken + cells[window.from - 1].columns <= before)
    taken += cells[--window.from].columns;
  used += taken;
  while (window.to < cells.size() && used + cells[window.to].columns <= room)
    used += cells[window.to++].columns;
  while (window.from > 0 && used + cells[window.from - 1].columns <= room)
    used += cells[--window.from].columns;
  return window;
}

// A readable form of text from a finding: nothing in it may steer a terminal.
std::string harmless(std::string_view text) {
  std::string out;
  detail::TextCursor cursor(text);
  while (!cursor.done()) {
    const char32_t c = cursor.peek();
    const std::size_t from = cursor.at();
    cursor.advance();
    if (c == U'\t' || c == U'\n')
      out += ' ';
    else if (steers(c))
      out += replacement;
    else
      out += text.substr(from, cursor.at() - from);
  }
  return out;
}

const SourceText* source_of(const Place& place, const Sources& sources) {
  if (place.file < 0 || as_index(place.file) >= sources.size()) return nullptr;
  return &sources[as_index(place.file)];
}

std::string place_text(const Place& place, const Sources& sources) {
  const SourceText* source = source_of(place, sources);
  if (source == nullptr) return {};
  const std::string name = harmless(source->name());
  if (place.line <= 0) return name + ": ";
  return fmt::format("{}:{}:{}: ", name, place.line, place.column);
}

// The line and the carets below it, each with two blanks in front.
std::string excerpt(const Place& place, const Sources& sources, const ReportStyle& style) {
  const SourceText* source = source_of(place, sources);
  if (source == nullptr || place.line <= 0) return {};
  // Of a line without end only the part about the mark is looked at; a tab in front of that part
  // may then stand differently, which nobody sees.
  constexpr std::size_t far = 2000;
  std::string_view line = source->line(place.line);
  const std::size_t mark = source->bytes_before(place.line, place.column);
  bool cut_before = false, cut_after = false;
  std::size_t skipped = 0; // bytes in front of the part
  if (line.size() > 2 * far) {
    skipped = mark > far ? mark - far : 0;
    while (skipped > 0 && !detail::begins_character(line[skipped])) --skipped;
    cut_before = skipped > 0;
    cut_after = line.size() - skipped > 2 * far;
    line = line.substr(skipped, 2 * far);
  }
  const std::vector<Cell> cells = cells_of(line);
  const std::size_t marked =
      std::min(cells_of(line.substr(0, mark - skipped)).size(), cells.size());
  const auto marked_end = marked + as_index(std::max(place.length, 1));
  const LineWindow window = window_about(cells, marked, marked_end, style.width);
  cut_before = cut_before || window.from > 0;
  cut_after = cut_after || window.to < cells.size();
  std::string out = cut_before ? "  …" : "  ";
  for (std::size_t i = window.from; i < window.to; ++i) out += cells[i].text;
  if (cut_after) out += "…";
  while (!out.empty() && out.back() == ' ') out.pop_back();
  const int indent = 2 + (cut_before ? 1 : 0) + columns(cells, window.from, marked);
  const int carets = std::max(1, columns(cells, marked, std::min(marked_end, window.to)));
  out += '\n' + std::string(as_index(indent), ' ');
  if (style.colour) out += "\x1b[1m";
  out += std::string(as_index(carets), '^');
  if (style.colour) out += "\x1b[0m";
  return out + '\n';
}

std::string coloured(Severity severity, const ReportStyle& style) {
  std::string word(severity_word(severity));
  if (!style.colour) return word;
  const int colour = severity == Severity::Error ? 31 : (severity == Severity::Warning ? 33 : 36);
  return fmt::format("\x1b[1;{}m{}\x1b[0m", colour, word);
}

void write_place(records::Json& json, const Place& place, const Sources& sources) {
  const SourceText* source = source_of(place, sources);
  json.key("file");
  if (source == nullptr)
    json.nothing();
  else
    json.text(source->name());
  json.key("line").number(place.line);
  json.key("column").number(place.column);
  json.key("length").number(place.length);
}

} // namespace

std::string_view severity_word(Severity severity) {
  switch (severity) {
  case Severity::Error: return "error";
  case Severity::Warning: return "warning";
  case Severity::Note: return "note";
  }
  return "error";
}

std::string finding_text(const Finding& finding, const Sources& sources, const ReportStyle& style) {
  std::string out = place_text(finding.place, sources) + coloured(finding.severity, style) + ": " +
                    harmless(finding.found);
  // Three moves, each with its label: what is wrong, what was expected, what to do.
  if (!finding.expected.empty()) out += ". Expected: " + harmless(finding.expected);
  if (!finding.fix.empty()) out += ". Fix: " + harmless(finding.fix);
  if (!out.ends_with('?') && !out.ends_with('.')) out += '.';
  out += fmt::format(" [{}]\n", finding.code) + excerpt(finding.place, sources, style);
  for (const Finding::Trace& trace : finding.trace)
    out += "  " + place_text(trace.place, sources) + harmless(trace.text) + '\n';
  return out;
}

std::string finding_json(const Finding& finding, const Sources& sources) {
  records::Json json(records::Json::Layout::OneLine);
  json.open_object().key("schema").number(finding_schema);
  json.key("severity").text(severity_word(finding.severity)).key("code").text(finding.code);
  write_place(json, finding.place, sources);
  json.key("found").text(finding.found).key("expected").text(finding.expected);
  json.key("mend").text(finding.fix).key("trace").open_array();
  for (const Finding::Trace& one : finding.trace) {
    json.open_object();
    write_place(json, one.place, sources);
    json.key("text").text(one.text).close_object();
  }
  json.close_array().close_object();
  return json.take();
}

std::string findings_summary(const Findings& findings) {
  const auto count = [&](Severity severity) {
    return std::count_if(findings.begin(), findings.end(),
                         [&](const Finding& f) { return f.severity == severity; });
  };
  const auto errors = count(Severity::Error), warnings = count(Severity::Warning);
  // With plain blanks, for programs that look for the words.
  const auto counted = [](std::int64_t n, std::string_view noun) {
    return fmt::format("{} {}", n, words::noun_for(n, noun));
  };
  std::string of_errors = errors == 0 ? "no errors" : counted(errors, "error");
  if (warnings == 0) return of_errors;
  return of_errors + " and " + counted(warnings, "warning");
}

} // namespace leafwright
