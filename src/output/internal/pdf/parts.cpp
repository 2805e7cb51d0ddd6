#include "output/internal/pdf/parts.h"

#include "output/internal/pdf/syntax.h"
#include "output/pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <utility>

namespace leafwright::pdf {

void fill_deflated(Haru& haru, Ref stream, std::string entries, const std::string& packed) {
  entries += "/Filter/FlateDecode";
  haru.fill_stream(stream, std::move(entries), packed);
}

void fill_packed(Haru& haru, Ref stream, std::string entries, const std::string& data,
                 const Packing& packing) {
  if (!packing.compress) return haru.fill_stream(stream, std::move(entries), data);
  const std::string packed = std::move(deflated_all({&data, 1}, packing).front());
  if (packed.empty()) return haru.fill_stream(stream, std::move(entries), data);
  fill_deflated(haru, stream, std::move(entries), packed);
}

Ref add_packed(Haru& haru, std::string entries, const std::string& data, const Packing& packing) {
  const Ref ref = haru.reserve_stream();
  fill_packed(haru, ref, std::move(entries), data, packing);
  return ref;
}

namespace {

// Objects to an object stream: few enough that a reader unpacks little to reach one.
constexpr std::size_t most_per_stream = 128;

std::optional<unsigned> number_at(std::string_view text, std::size_t at) {
  while (at < text.size() && (text[at] == ' ' || text[at] == '\n' || text[at] == '\r')) ++at;
  unsigned value = 0;
  const auto read = std::from_chars(text.data() + at, text.data() + text.size(), value);
  return read.ec == std::errc() ? std::optional<unsigned>(value) : std::nullopt;
}
std::optional<unsigned> number_after(std::string_view text, std::string_view key) {
  const std::size_t at = text.rfind(key);
  return at == std::string_view::npos ? std::nullopt : number_at(text, at + key.size());
}

struct Whole {
  std::string_view text;
  std::vector<std::size_t> starts; // by object number; 0 = no such object
  std::vector<std::size_t> sorted;

  // What stands between "obj" and "endobj", without the white space around it.
  std::string_view body(unsigned number) const {
    const std::size_t begin = starts.at(number);
    const auto next = std::upper_bound(sorted.begin(), sorted.end(), begin);
    std::string_view object = text.substr(begin, next == sorted.end() ? next[-1] : *next - begin);
    const std::size_t open = object.find("obj"), close = object.rfind("endobj");
    if (open == std::string_view::npos || close == std::string_view::npos || close < open)
      return {};
    object = object.substr(open + 3, close - open - 3);
    const auto blank = [](char c) { return c == ' ' || c == '\n' || c == '\r'; };
    while (!object.empty() && blank(object.front())) object.remove_prefix(1);
    while (!object.empty() && blank(object.back())) object.remove_suffix(1);
    return object;
  }
};

std::optional<Whole> read_table(std::string_view text) {
  const auto table_at = number_after(text, "startxref");
  if (!table_at || *table_at >= text.size()) return std::nullopt;
  std::string_view table = text.substr(*table_at);
  if (!table.starts_with("xref")) return std::nullopt;
  std::size_t at = table.find('\n');
  if (at == std::string_view::npos) return std::nullopt;
  ++at;
  const auto first = number_at(table, at);
  const auto count = number_at(table, table.find(' ', at));
  at = table.find('\n', at);
  constexpr std::size_t entry = 20; // each line of the table (ISO 32000-1, 7.5.4)
  if (first != 0U || !count || at == std::string_view::npos ||
      table.size() - at < entry * std::size_t{*count})
    return std::nullopt;
  ++at;
  Whole whole{text, {}, {}};
  for (unsigned i = 0; i < *count; ++i, at += entry) {
    const auto offset = number_at(table, at);
    const bool used = table[at + 17] == 'n';
    if (!offset || *offset >= *table_at) return std::nullopt;
    whole.starts.push_back(used ? *offset : 0);
    if (used) whole.sorted.push_back(*offset);
  }
  whole.sorted.push_back(*table_at);
  std::sort(whole.sorted.begin(), whole.sorted.end());
  return whole;
}

// libharu keeps a stream's length in an object of its own; written where it belongs it needs none.
// Gives that object's number.
std::optional<unsigned> inline_length(std::string& body, const Whole& whole) {
  const std::size_t head = body.find("stream");
  const std::size_t at = body.find("/Length ");
  if (at == std::string::npos || at > head) return std::nullopt;
  const std::size_t end = body.find(" 0 R", at);
  if (end == std::string::npos || end > head) return std::nullopt;
  const auto holder = number_at(body, at + 8);
  if (!holder || *holder >= whole.starts.size()) return std::nullopt;
  body.replace(at + 8, end + 4 - at - 8, std::string(whole.body(*holder)));
  return holder;
}

struct XrefEntry {
  unsigned kind = 0; // 0 free, 1 at an offset, 2 in an object stream
  std::size_t where = 0, index = 0;
};

// The cross-reference stream's rows, each as its difference from the one above (PNG's "Up"): most
// then are alike and deflate to little.
std::string rows_of(const std::vector<XrefEntry>& places) {
  constexpr std::size_t width = 1 + 4 + 1;
  std::string rows;
  std::array<unsigned char, width> above{};
  for (const XrefEntry& place : places) {
    std::array<unsigned char, width> row{};
    row[0] = static_cast<unsigned char>(place.kind);
    for (std::size_t i = 0; i < 4; ++i)
      row[1 + i] = static_cast<unsigned char>(place.where >> (8U * (3U - i)) & 0xffU);
    row[5] = static_cast<unsigned char>(place.index);
    rows.push_back(2);
    for (std::size_t i = 0; i < width; ++i)
      rows.push_back(static_cast<char>(static_cast<unsigned char>(row[i] - above[i])));
    above = row;
  }
  return rows;
}

// Small objects in object streams (ISO 32000-1, 7.5.7).
std::vector<ObjectStream> packed_streams(const Whole& whole, const std::vector<unsigned>& small,
                                         const Packing& packing) {
  std::vector<ObjectStream> all;
  std::vector<std::string> heads, data;
  for (std::size_t begin = 0; begin < small.size(); begin += most_per_stream) {
    const std::size_t end = std::min(small.size(), begin + most_per_stream);
    ObjectStream packed;
    std::string index, bodies;
    for (std::size_t i = begin; i < end; ++i) {
      packed.numbers.push_back(small[i]);
      index += fmt::format("{} {} ", small[i], bodies.size());
      bodies += whole.body(small[i]);
      bodies.push_back('\n');
    }
    heads.push_back(fmt::format("<</Type/ObjStm/N {}/First {}/Filter/FlateDecode/Length ",
                                end - begin, index.size()));
    data.push_back(index + bodies);
    all.push_back(std::move(packed));
  }
  const std::vector<std::string> deflated = deflated_all(data, packing);
  for (std::size_t i = 0; i < data.size(); ++i)
    all[i].body =
        fmt::format("{}{}>>stream\n{}\nendstream", heads[i], deflated[i].size(), deflated[i]);
  return all;
}

} // namespace

Parsed<Parts> Parts::of(const std::string& plain, const Packing& packing,
                        std::span<const unsigned> open) {
  const ParseError other{0, 0, "the finished PDF could not be packed", "a whole document",
                         "write it without packing"};
  const std::optional<Whole> whole = read_table(plain);
  const std::size_t trailer_at = plain.rfind("trailer");
  if (!whole || trailer_at == std::string::npos) return other;
  const std::string_view trailer = std::string_view(plain).substr(trailer_at);
  Parts parts;
  const auto root = number_after(trailer, "/Root"), info = number_after(trailer, "/Info");
  const std::size_t id = trailer.find("/ID[<");
  if (!root || !info || id == std::string_view::npos) return other;
  parts.root_ = *root;
  parts.information_ = *info;
  parts.effort_ = packing.effort;
  parts.identity_ = std::string(trailer.substr(id + 5, 32));
  parts.count_ = static_cast<unsigned>(whole->starts.size());

  const auto is_open = [&open, &parts](unsigned number) {
    return number == parts.information_ ||
           std::find(open.begin(), open.end(), number) != open.end();
  };
  std::vector<bool> dropped(parts.count_, false);
  std::vector<unsigned> small;
  for (unsigned number = 1; number < parts.count_; ++number) {
    if (whole->starts[number] == 0) continue;
    const std::string_view body = whole->body(number);
    if (body.empty()) return other;
    if (!body.ends_with("endstream") && !is_open(number)) {
      small.push_back(number);
      continue;
    }
    Loose loose{number, std::string(body), is_open(number)};
    if (body.ends_with("endstream"))
      if (const auto holder = inline_length(loose.body, *whole)) dropped[*holder] = true;
    parts.loose_.push_back(std::move(loose));
  }
  std::erase_if(small, [&dropped](unsigned number) { return dropped[number]; });
  parts.packed_ = packed_streams(*whole, small, packing);
  return parts;
}

std::string Parts::joined(std::string_view identity, std::span<const Replacement> replaced) const {
  const unsigned first_packed = count_;
  const unsigned table = first_packed + static_cast<unsigned>(packed_.size());
  std::vector<XrefEntry> places(table + 1U);
  std::size_t size = 4096 + std::size_t{table} * 8;
  for (const Loose& loose : loose_) size += loose.body.size() + 32;
  for (const ObjectStream& packed : packed_) size += packed.body.size() + 32;
  for (const Replacement& one : replaced) size += one.body.size();
  std::string out;
  out.reserve(size);
  // The second line tells transports that the file is binary (ISO 32000-1, 7.5.2).
  out += "%PDF-1.7\n%\xb7\xbe\xad\xaa\n";
  const auto add = [&out, &places](unsigned number, std::string_view body) {
    places[number] = {1, out.size(), 0};
    append_number(out, number);
    out += " 0 obj\n";
    out += body;
    out += "\nendobj\n";
  };
  for (const Loose& loose : loose_) {
    const auto other =
        loose.open ? std::find_if(replaced.begin(), replaced.end(),
                                  [&loose](const auto& one) { return one.number == loose.number; })
                   : replaced.end();
    add(loose.number, other == replaced.end() ? loose.body : other->body);
  }
  for (std::size_t i = 0; i < packed_.size(); ++i) {
    const unsigned number = first_packed + static_cast<unsigned>(i);
    for (std::size_t k = 0; k < packed_[i].numbers.size(); ++k)
      places[packed_[i].numbers[k]] = {2, number, k};
    add(number, packed_[i].body);
  }
  const std::size_t start = out.size();
  places[table] = {1, start, 0};
  const std::string rows = deflated(rows_of(places), effort_);
  out += fmt::format("{} 0 obj\n<</Type/XRef/Size {}/W[1 4 1]/Root {} 0 R/Info {} 0 R"
                     "/ID[<{}><{}>]/Filter/FlateDecode/DecodeParms<</Predictor 12/Columns 6>>"
                     "/Length {}>>stream\n",
                     table, table + 1, root_, information_, identity, identity, rows.size());
  out += rows;
  out += fmt::format("\nendstream\nendobj\nstartxref\n{}\n%%EOF\n", start);
  return out;
}

} // namespace leafwright::pdf
