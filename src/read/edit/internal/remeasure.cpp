#include "read/edit/remeasure.h"

#include "measure/parse_length.h"
#include "measure/print_length.h"
#include "read/edit/internal/measured_values.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace leafwright::edit {
namespace {

using Names = MeasuredAttribute::Names;

class Remeasurer {
 public:
  Remeasurer(std::string_view bytes, const std::string& path, const RemeasureOptions& options,
             const ReadOptions& read, Remeasuring& out)
      : bytes_(bytes), path_(path), options_(options), read_(read), out_(out) {}

  void run() {
    Reading old = read_project(bytes_, path_, read_);
    if (!take_findings(old)) return;
    const auto root = spans_of(bytes_);
    if (!root) return;
    before_ = std::move(old.project);
    from_ = before_.printing.unit;
    const Unit other = from_ == Unit::Inch ? Unit::Millimetre : Unit::Inch;
    out_.unit = to_ = options_.to.value_or(other);
    const bool inch = to_ == Unit::Inch;
    out_.mark = mark_ = options_.mark.nm > 0 ? options_.mark
                        : inch               ? inches(0, 1, 16)
                                             : millimetres(1);
    MeasuredValues found = measured_values(bytes_, *root, from_);
    std::vector<MeasuredValue>& values = found.values;
    for (MeasuredValue& value : values) choose(value);
    head(*root);
    drawings(*root, false);
    in_hand(*root);
    const Settling how{before_, to_, mark_, [this](const std::vector<MeasuredValue>& now) {
                         return read_project(applied(bytes_, edits(now)), path_, read_);
                       }};
    Reading now = settle(how, values);
    if (!take_findings(now)) return;
    out_.edits = edits(values);
    for (const MeasuredValue& value : values) tell(value);
    remarks(found);
  }

 private:
  bool take_findings(Reading& reading) {
    if (reading.ok()) return true;
    out_.findings = std::move(reading.findings);
    out_.sources = std::move(reading.sources);
    return false;
  }

  bool stays_as_bought(const MeasuredValue& value) const {
    return value.bought() && !options_.bought;
  }

  Length rounded(Length a, const MeasuredValue& value) const {
    if (a.nm == 0 || on_mark(a, mark_)) return a;
    // Shares of a sheet: two of half a sheet must not become more than the sheet.
    const bool share =
        value.measured && value.measured->as == TypedAs::Amount && value.lengths.size() == 2;
    const Length near = share ? Length{a.nm - a.nm % mark_.nm} : nearest(a, mark_);
    return near.nm == 0 ? mark_ : near;
  }

  void choose(MeasuredValue& value) {
    if (value.measured && value.measured->names != Names::None && choose_name(value)) return;
    if (stays_as_bought(value)) return;
    for (Length& one : value.now) one = rounded(one, value);
  }

  // A size by its name; false when it is none.
  bool choose_name(MeasuredValue& value) {
    const Names among = value.measured->names;
    const auto size = named_size(among, value.text);
    if (!size) return false;
    value.lengths.clear();
    value.now.clear();
    const bool wanted = among == Names::Sheets ? options_.usual_sheets : options_.usual_cards;
    if (const auto usual = usual_counterpart(among, value.text, to_);
        usual && wanted && value.element != "labels") {
      replaced_.insert(value.text);
      value.instead = std::string(*usual);
      value.why = "the usual one in its place";
      return true;
    }
    if (value.bought() || (on_mark(size->width, mark_) && on_mark(size->height, mark_)))
      return true;
    // A card of that name would lie between two marks: its size is measured from now on.
    value.lengths = {{0, 0, 0, size->width, {}}, {0, 0, 0, size->height, {}}};
    for (const Length side : {size->width, size->height}) value.now.push_back(rounded(side, value));
    value.named = true;
    return true;
  }

  std::string text_of(const MeasuredValue& value) const {
    if (stays_as_bought(value) && !value.instead)
      return to_ == from_ ? value.text : with_unit(value, from_);
    if (value.named && !value.instead)
      return fmt::format("{} x {}", file_number(value.now[0], to_, mark_),
                         file_number(value.now[1], to_, mark_));
    return written_anew(value, to_, mark_);
  }

  std::vector<Edit> edits(const std::vector<MeasuredValue>& values) const {
    std::vector<Edit> all = fixed_;
    for (const MeasuredValue& value : values) {
      if (covered_.contains(value.at)) continue;
      std::string text = text_of(value);
      if (!value.renamed.empty())
        all.push_back({value.name_at, value.attribute.size(), value.renamed});
      if (text != value.text) all.push_back({value.at, value.text.size(), std::move(text)});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Edit& a, const Edit& b) { return a.at < b.at; });
    return all;
  }

  // --- What follows from the unit itself ----------------------------------------------------

  struct Wish {
    std::string_view attribute;
    std::string value;
    std::string_view usual; // said by nobody, it is this
  };
  void set(const ElementSpan& span, const std::vector<Wish>& wishes) {
    std::string added;
    for (const Wish& wish : wishes) {
      const AttributeSpan* there = span.find(wish.attribute);
      if (there) {
        if (bytes_.substr(there->value, there->length) != wish.value)
          fixed_.push_back({there->value, there->length, wish.value});
        covered_.insert(there->value);
      } else if (wish.value != wish.usual) {
        added += fmt::format(" {}=\"{}\"", wish.attribute, wish.value);
      }
    }
    if (!added.empty()) fixed_.push_back({span.attributes_end(), 0, std::move(added)});
  }

  void head(const ElementSpan& root) {
    const bool inch = to_ == Unit::Inch;
    const std::string_view own_usual = inch ? "1/16" : "0.5", other_usual = inch ? "0.5" : "1/16";
    std::vector<Wish> wishes{{"units", inch ? "inch" : "mm", "inch"},
                             {"print-to", file_number(mark_, to_, mark_), own_usual}};
    // Beside it stands the ruler that was the project's own.
    if (to_ != from_)
      wishes.push_back({"print-other-to",
                        file_number(before_.printing.step, from_, before_.printing.step),
                        other_usual});
    std::string paper = options_.paper.empty() ? before_.paper : options_.paper;
    if (options_.paper.empty() && options_.usual_sheets) paper = inch ? "letter" : "a4";
    wishes.push_back({"paper", std::move(paper), inch ? "letter" : "a4"});
    set(root, wishes);
    for (const ElementSpan& child : root.children)
      if (child.name == "run")
        for (const ElementSpan& inner : child.children)
          if (inner.name == "labels" && inner.find("paper") == nullptr)
            set(inner, {{"paper", before_.paper, ""}});
  }

  // Drawings without a grid are in the project's unit: the grid says which numbers fill the size.
  void drawings(const ElementSpan& span, bool in_supplies) {
    const bool drawn = in_supplies && (span.name == "image" || span.name == "embellishment") &&
                       !span.children.empty() && span.find("grid") == nullptr;
    if (const AttributeSpan* size = drawn ? span.find("size") : nullptr; size && to_ != from_) {
      const auto sides = parse_size(bytes_.substr(size->value, size->length), from_);
      if (sides)
        set(span,
            {{"grid", fmt::format("{} x {}", plain((*sides).width), plain((*sides).height)), ""}});
    }
    for (const ElementSpan& child : span.children)
      drawings(child, in_supplies || span.name == "supplies");
  }
  // In the old unit, as a decimal number.
  std::string plain(Length a) const {
    const double nm = static_cast<double>(a.nm);
    return fmt::format("{}",
                       nm / static_cast<double>(from_ == Unit::Inch ? nm_per_inch : nm_per_mm));
  }

  // Sheets in hand are of the old size, whatever is bought from now on.
  void in_hand(const ElementSpan& root) {
    if (!options_.usual_sheets) return;
    for (const ElementSpan& run : root.children)
      for (const ElementSpan& line : run.children) {
        const AttributeSpan* sheets = line.name == "in-hand" ? line.find("sheets") : nullptr;
        const AttributeSpan* item = line.find("item");
        if (!sheets || !item) continue;
        const std::string_view id = bytes_.substr(item->value, item->length);
        for (const Stock& stock : before_.stocks) {
          if (stock.id != id || stock.sheets.empty()) continue;
          if (!usual_counterpart(Names::Sheets, stock.sheets.front().name, to_)) continue;
          const Size size = stock.sheets.front().size;
          const Length fine = from_ == Unit::Inch ? inches(0, 1, 64) : micrometres(100);
          fixed_.push_back({sheets->begin, sheets->end() - sheets->begin,
                            fmt::format("offcut=\"{} x {} {}\" count=\"{}\"",
                                        file_number(size.width, from_, fine),
                                        file_number(size.height, from_, fine), unit_word(from_),
                                        bytes_.substr(sheets->value, sheets->length))});
        }
      }
  }

  // --- What is told ---------------------------------------------------------------------------

  void tell(const MeasuredValue& value) {
    if (covered_.contains(value.at)) return;
    Chosen chosen{value.where, value.text, text_of(value), {}, value.why, value.at};
    const bool told_alone = value.instead.has_value();
    bool moved = told_alone;
    for (std::size_t i = 0; i < value.lengths.size(); ++i) {
      if (!told_alone) chosen.measures.push_back({value.lengths[i].value, value.now[i]});
      moved = moved || value.now[i] != value.lengths[i].value;
    }
    if (!value.renamed.empty()) chosen.after = fmt::format("{} {}", value.renamed, chosen.after);
    if (stays_as_bought(value) && !told_alone) {
      if (chosen.before != chosen.after) out_.kept.push_back(std::move(chosen));
    } else if (moved) {
      out_.chosen.push_back(std::move(chosen));
    }
  }

  void remark(std::size_t at, std::size_t length, std::string words) {
    out_.remarks.push_back(
        {SourceText(path_, std::string(bytes_)).place(0, at, length), std::move(words)});
  }

  // "2 3/4 in" among words: nobody but the author can say it otherwise.
  static std::optional<std::pair<std::size_t, std::size_t>>
  measure_in(std::string_view words, std::size_t from, Unit unit) {
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    for (std::size_t i = from; i < words.size(); ++i) {
      if (!digit(words[i]) || (i > 0 && (digit(words[i - 1]) || words[i - 1] == '#'))) continue;
      std::size_t end = i;
      while (end < words.size() &&
             (digit(words[end]) || words[end] == '/' || words[end] == '.' ||
              (words[end] == ' ' && end + 1 < words.size() && digit(words[end + 1]))))
        ++end;
      std::size_t behind = end;
      if (behind < words.size() && (words[behind] == ' ' || words[behind] == '-')) ++behind;
      // A quotation mark may close the words, so of the signs only those that mean nothing else.
      const std::string_view rest = words.substr(behind);
      detail::TextCursor cursor(rest);
      const bool sign = rest.starts_with("″") || rest.starts_with("&quot;");
      const LengthUnit* measured =
          !rest.empty() && is_letter(rest.front()) ? take_length_unit(cursor) : nullptr;
      if (sign ? unit == Unit::Inch : measured != nullptr && measured->system == unit)
        return std::pair(i, end - i);
      i = end;
    }
    return std::nullopt;
  }

  void remarks(const MeasuredValues& found) {
    for (const MeasuredValues::Words& words : found.words) {
      std::size_t from = 0;
      if (to_ == from_) break;
      while (const auto there = measure_in(words.text, from, from_)) {
        remark(words.at + there->first, there->second,
               fmt::format("words that name a measure stay as they are: “{}”",
                           around(words.text, there->first)));
        from = there->first + there->second;
      }
    }
    for (const MeasuredValues::Words& words : found.words)
      for (const std::string& name : replaced_)
        if (const std::size_t at = word_at(words.text, name); at != std::string_view::npos)
          remark(words.at + at, name.size(),
                 fmt::format("words that name the size {} stay as they are: “{}”", name,
                             around(words.text, at)));
    for (const MeasuredValues::Words& unclear : found.unclear)
      remark(unclear.at, unclear.text.size(),
             fmt::format("“{}” is written with signs that were not looked into: it stays as it is",
                         unclear.text));
    std::stable_sort(out_.remarks.begin(), out_.remarks.end(),
                     [](const Remark& a, const Remark& b) { return a.place.line < b.place.line; });
  }

  // The name as a word of its own.
  static std::size_t word_at(std::string_view words, std::string_view name) {
    const auto letter = [&](std::size_t i) {
      if (i >= words.size()) return false;
      const char c = words[i];
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
    };
    for (std::size_t at = words.find(name); at != std::string_view::npos;
         at = words.find(name, at + 1))
      if (!(at > 0 && letter(at - 1)) && !letter(at + name.size())) return at;
    return std::string_view::npos;
  }

  // A few words on either side.
  static std::string around(std::string_view words, std::size_t at) {
    constexpr std::size_t before = 24, after = 28;
    std::size_t from = at > before ? words.rfind(' ', at - before) : 0;
    if (from == std::string_view::npos) from = 0;
    std::size_t to = std::min(words.find(' ', at + after), words.size());
    std::string text;
    for (const char c : words.substr(from, to - from)) {
      const bool blank = c == ' ' || c == '\n' || c == '\r' || c == '\t';
      if (!blank)
        text += c;
      else if (!text.empty() && text.back() != ' ')
        text += ' ';
    }
    return text;
  }

  std::string_view bytes_;
  const std::string& path_;
  const RemeasureOptions& options_;
  const ReadOptions& read_;
  Remeasuring& out_;
  Project before_;
  Unit from_ = Unit::Inch, to_ = Unit::Inch;
  Length mark_{};
  std::vector<Edit> fixed_;        // what does not change while pieces settle
  std::set<std::string> replaced_; // names of sizes that gave way to their counterparts
  std::set<std::size_t> covered_;  // values that `fixed_` speaks of
};

} // namespace

Remeasuring remeasured(std::string_view file_bytes, const std::string& path,
                       const RemeasureOptions& options, const ReadOptions& read) {
  Remeasuring out;
  Remeasurer(file_bytes, path, options, read, out).run();
  return out;
}

} // namespace leafwright::edit
