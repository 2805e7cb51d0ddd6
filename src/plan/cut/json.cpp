#include "plan/cut/json.h"

#include <fmt/format.h>

#include <iterator>
#include <string_view>

namespace leafwright::cut {

namespace {

std::string text(std::string_view value) {
  std::string result = "\"";
  for (const char c : value) {
    switch (c) {
    case '"': result += "\\\""; break;
    case '\\': result += "\\\\"; break;
    case '\n': result += "\\n"; break;
    case '\r': result += "\\r"; break;
    case '\t': result += "\\t"; break;
    default:
      if (static_cast<unsigned char>(c) < 0x20) {
        result += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
      } else {
        result += c;
      }
    }
  }
  return result + '"';
}

std::string_view name_of(StoppedBy stopped) {
  switch (stopped) {
  case StoppedBy::Work: return "work";
  case StoppedBy::Time: return "time";
  case StoppedBy::Caller: return "caller";
  case StoppedBy::Nothing: break;
  }
  return "nothing";
}

std::string_view name_of(FindingKind kind) {
  switch (kind) {
  case FindingKind::PieceFitsNoSheet: return "piece-fits-no-sheet";
  case FindingKind::TooFewSheets: return "too-few-sheets";
  case FindingKind::RulesForbid: return "rules-forbid";
  case FindingKind::BadNumber: break;
  }
  return "bad-number";
}

// Writes a list with one item a line.
class List {
 public:
  List(std::string& out, std::string_view name, int indent) : out_(out), indent_(indent) {
    fmt::format_to(std::back_inserter(out_), ",\n{:{}}\"{}\": [", "", indent_, name);
  }
  List(const List&) = delete;
  List& operator=(const List&) = delete;
  List(List&&) = delete;
  List& operator=(List&&) = delete;
  ~List() {
    if (count_ > 0) fmt::format_to(std::back_inserter(out_), "\n{:{}}", "", indent_);
    out_ += ']';
  }
  void next() {
    fmt::format_to(std::back_inserter(out_), "{}\n{:{}}", count_++ > 0 ? "," : "", "", indent_ + 2);
  }

 private:
  std::string& out_;
  int indent_;
  int count_ = 0;
};

void write_parts(std::string& out, const Job& job, const Pattern& pattern) {
  const auto end = std::back_inserter(out);
  {
    List pieces(out, "pieces", 6);
    for (const Part& part : pattern.parts) {
      if (part.kind != PartKind::Piece) continue;
      pieces.next();
      fmt::format_to(end,
                     R"({{"id": {}, "x": {}, "y": {}, "width": {}, "height": {}, "turned": {}}})",
                     text(job.pieces[static_cast<std::size_t>(part.piece)].id), part.x, part.y,
                     part.width, part.height, part.turned);
    }
  }
  List leftovers(out, "leftovers", 6);
  for (const Part& part : pattern.parts) {
    if (part.kind != PartKind::Leftover) continue;
    leftovers.next();
    fmt::format_to(end, R"({{"x": {}, "y": {}, "width": {}, "height": {}}})", part.x, part.y,
                   part.width, part.height);
  }
}

} // namespace

std::string to_json(const Job& job, const Plan& plan) {
  std::string out;
  const auto end = std::back_inserter(out);
  fmt::format_to(end, "{{\n  \"sheets\": {},\n  \"cost\": {},\n  \"bound_cost\": {}", plan.sheets,
                 plan.cost, plan.bound_cost);
  if (plan.bound_sheets > 0) fmt::format_to(end, ",\n  \"bound_sheets\": {}", plan.bound_sheets);
  fmt::format_to(end, ",\n  \"proven\": {},\n  \"words\": {},\n  \"stopped_by\": {}", plan.proven,
                 text(plan.words), text(name_of(plan.stopped)));
  fmt::format_to(end, ",\n  \"seconds\": {:.3f}", plan.statistics.seconds);
  {
    List findings(out, "findings", 2);
    for (const Finding& finding : plan.findings) {
      findings.next();
      fmt::format_to(end, R"({{"kind": {}, "words": {}}})", text(name_of(finding.kind)),
                     text(finding.words));
    }
  }
  {
    List patterns(out, "patterns", 2);
    for (const Pattern& pattern : plan.patterns) {
      patterns.next();
      const SheetType& sheet = job.sheets[static_cast<std::size_t>(pattern.sheet)];
      fmt::format_to(end,
                     "{{\n      \"count\": {},\n      \"sheet\": {},\n      \"width\": {},\n"
                     "      \"height\": {}",
                     pattern.count, text(sheet.id), sheet.width, sheet.height);
      write_parts(out, job, pattern);
      out += "\n    }";
    }
  }
  out += "\n}\n";
  return out;
}

} // namespace leafwright::cut
