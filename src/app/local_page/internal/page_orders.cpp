#include "app/local_page/internal/page.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "output/write_file.h"
#include "read/csv/csv.h"
#include "read/roster/roster.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

// The list of orders beside the project: read row by row, its headings given our names, single
// cells mended. The rest of the file stays as it was.

namespace leafwright::local_page {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t most_list_bytes = 8'000'000;
constexpr std::string_view left_out = "(left out) ";

// Our name for what a heading is called; empty when it means nothing here.
std::string field_of(std::string_view heading) {
  const std::string small = small_letters(csv::trimmed(heading));
  for (const std::vector<std::string_view>& names : roster_columns())
    if (std::ranges::find(names, small) != names.end()) return std::string(names.front());
  return {};
}

// A list as it stands, with the bytes of each of its cells.
class OrderList {
 public:
  explicit OrderList(std::string bytes)
      : source_("orders", std::move(bytes)), table_(csv::read(source_.text())) {}

  const csv::Table& table() const { return table_; }
  std::string_view text() const { return source_.text(); }

  std::optional<std::size_t> column_of(std::string_view field) const {
    for (std::size_t i = 0; i < table_.header.cells.size(); ++i)
      if (field_of(table_.header.cells[i].text) == field) return i;
    return std::nullopt;
  }

  // The file with another text in one cell, its row filled up to that column.
  std::string with_cell(const csv::Row& row, std::size_t column, std::string_view words) const {
    const std::string cell = csv::quoted(words, table_.separator);
    if (column < row.cells.size()) {
      const auto [from, to] = span_of(row.cells[column]);
      return edit::applied(text(), {{from, to - from, cell}});
    }
    if (row.cells.empty()) return std::string(text());
    const std::size_t end = span_of(row.cells.back()).second;
    return edit::applied(
        text(), {{end, 0, std::string(column + 1 - row.cells.size(), table_.separator) + cell}});
  }

 private:
  std::pair<std::size_t, std::size_t> span_of(const csv::Cell& cell) const {
    const std::string_view bytes = text();
    const auto line = source_.line(cell.place.line);
    std::size_t at = as_index(line.data() - bytes.data()) +
                     source_.bytes_before(cell.place.line, cell.place.column);
    const std::size_t from = at;
    if (at < bytes.size() && bytes[at] == '"') {
      for (++at; at < bytes.size(); ++at) {
        if (bytes[at] != '"') continue;
        if (at + 1 >= bytes.size() || bytes[at + 1] != '"') return {from, at + 1};
        ++at; // a doubled quote is a letter
      }
      return {from, at};
    }
    while (at < bytes.size() && bytes[at] != table_.separator && bytes[at] != '\n' &&
           bytes[at] != '\r')
      ++at;
    return {from, at};
  }

  SourceText source_;
  csv::Table table_;
};

void write_fields(Json& json) {
  json.key("fields").open_array();
  for (const std::vector<std::string_view>& names : roster_columns()) {
    const std::string_view name = names.front();
    json.open_object().key("name").text(name).key("label").text(name);
    json.key("required").truth(name == "name" || name == "tier").close_object();
  }
  json.close_array();
}

// Findings by the lines that they are about. What several rows have in common is told once, with
// their places behind it.
std::multimap<int, const Finding*> by_line(const Findings& findings) {
  std::multimap<int, const Finding*> lines;
  for (const Finding& one : findings) {
    lines.emplace(one.place.line, &one);
    for (const Finding::Trace& other : one.trace) lines.emplace(other.place.line, &one);
  }
  return lines;
}

void write_order_finding(Json& json, const Finding& one) {
  json.open_object()
      .key("severity")
      .text(one.severity == Severity::Error     ? "error"
            : one.severity == Severity::Warning ? "warning"
                                                : "remark");
  json.key("rule").text(one.code).key("found").text(plain_blanks(one.found));
  json.key("fix").text(plain_blanks(one.fix)).close_object();
}

void write_rows(Json& json, const OrderList& list, const Findings& findings) {
  const auto lines = by_line(findings);
  json.key("rows").open_array();
  for (const csv::Row& row : list.table().rows) {
    json.open_object().key("line").number(row.place.line).key("cells").open_array();
    for (const csv::Cell& cell : row.cells) json.text(cell.text);
    json.close_array().key("read").open_object();
    std::vector<std::string> said;
    for (std::size_t i = 0; i < row.cells.size() && i < list.table().header.cells.size(); ++i) {
      std::string field = field_of(list.table().header.cells[i].text);
      if (field.empty() || std::ranges::find(said, field) != said.end()) continue;
      json.key(field).text(row.cells[i].text);
      said.push_back(std::move(field));
    }
    json.close_object().key("findings").open_array();
    for (auto [at, end] = lines.equal_range(row.place.line); at != end; ++at)
      write_order_finding(json, *at->second);
    json.close_array().close_object();
  }
  json.close_array();
  // Of the headings, or of the list as a whole.
  json.key("findings").open_array();
  for (const Finding& one : findings)
    if (std::ranges::none_of(list.table().rows,
                             [&](const csv::Row& row) { return row.place.line == one.place.line; }))
      write_order_finding(json, one);
  json.close_array();
}

// A name that a file may have in the maker's folder.
std::string file_name_from(std::string_view given) {
  std::string name;
  for (const char c : given.substr(given.find_last_of("/\\") + 1)) {
    const bool plain = is_letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
    name += plain ? c : '-';
  }
  while (name.starts_with('.') || name.starts_with('-')) name.erase(0, 1);
  if (name.size() > 60) name = name.substr(name.size() - 60);
  if (!name.ends_with(".csv")) name += ".csv";
  return name.size() > 4 ? name : "orders.csv";
}

} // namespace

std::string Page::roster_path() const {
  const std::string& name = last_readable_->project().run.roster;
  if (name.empty() || !name_fault(name).empty()) return {};
  const fs::path folder = fs::path(path_).parent_path();
  const std::string path = (folder / name).string();
  // Links may not lead out of the maker's folder.
  const FileAccess files = disk_access();
  const std::string real = files.real_path(path);
  const std::string home = files.real_path(folder.empty() ? "." : folder.string());
  return !real.empty() && lies_inside(real, home) ? path : std::string();
}

Response Page::get_orders(const Request&, const app::JsonValue&) {
  Json json(Json::Layout::OneLine);
  json.open_object().key("file").text(last_readable_->project().run.roster);
  const std::string path = roster_path();
  FileBytes file = disk_access().read(path, most_list_bytes);
  const auto* bytes = std::get_if<std::string>(&file);
  const OrderList list(path.empty() || bytes == nullptr ? std::string() : *bytes);
  constexpr std::int32_t file_number = 1;
  const Roster read = list.table().header.cells.empty()
                          ? Roster{}
                          : read_roster(list.text(), last_readable_->project(), file_number);
  json.key("headings").open_array();
  for (const csv::Cell& cell : list.table().header.cells) json.text(cell.text);
  json.close_array();
  write_rows(json, list, read.findings);
  write_fields(json);
  json.key("mapping").open_object();
  for (const csv::Cell& cell : list.table().header.cells)
    if (const std::string field = field_of(cell.text); !field.empty())
      json.key(cell.text).text(field);
  json.close_object().close_object();
  Response response;
  response.body = json.take();
  return response;
}

// Reads the list, lets `change` make another text of it, and writes that.
template <class Change>
Response Page::change_orders(Change change) {
  const std::string path = roster_path();
  FileBytes file = disk_access().read(path, most_list_bytes);
  const auto* bytes = std::get_if<std::string>(&file);
  if (path.empty() || bytes == nullptr)
    return refusal(404, "There is no order list beside the project.", "Drop one onto the page.");
  const std::variant<std::string, Refusal> made = change(OrderList(*bytes));
  if (const Refusal* no = std::get_if<Refusal>(&made))
    return refusal(no->status, no->error, no->fix);
  if (const auto fault = file::write_file(path, std::get<std::string>(made)))
    return refusal(500, fmt::format("The list could not be written: {}.", fault->found),
                   fault->fix);
  facts_asked_for_.clear(); // what is earned and bought follows from the orders
  return get_orders({}, {});
}

Response Page::map_orders(const Request&, const app::JsonValue& body) {
  const app::JsonValue* mapping = body.find("mapping");
  if (mapping == nullptr || mapping->kind != app::JsonValue::Kind::Object)
    return refusal(400, "No heading was given a meaning.", "Reload the page.");
  return change_orders([&](const OrderList& first) -> std::variant<std::string, Refusal> {
    std::string text(first.text());
    for (std::size_t i = 0; i < first.table().header.cells.size(); ++i) {
      const std::string& heading = first.table().header.cells[i].text;
      const std::string wanted = mapping->text_at(heading), now = field_of(heading);
      if (wanted == now) continue;
      std::string name = wanted.empty() ? std::string(left_out) + heading : wanted;
      if (!wanted.empty() && field_of(wanted) != wanted)
        return Refusal{fmt::format("No column of an order list is called {}.", wanted),
                       "Choose one of the list.", 400};
      const OrderList list(text);
      text = list.with_cell(list.table().header, i, name);
    }
    return text;
  });
}

Response Page::set_order(const Request&, const app::JsonValue& body) {
  const std::string field = body.text_at("field"), value = body.text_at("value");
  const double line = body.number_at("line").value_or(0);
  if (field_of(field) != field)
    return refusal(400, "No column of an order list is called so.", "Reload the page.");
  return change_orders([&](const OrderList& list) -> std::variant<std::string, Refusal> {
    const auto row = std::ranges::find_if(list.table().rows, [&](const csv::Row& one) {
      return static_cast<double>(one.place.line) == line;
    });
    if (row == list.table().rows.end())
      return Refusal{"This row is not there any more.", "Reload the page.", 409};
    const std::size_t column = list.column_of(field).value_or(list.table().header.cells.size());
    const std::string text = list.with_cell(*row, column, value);
    if (column < list.table().header.cells.size()) return text;
    const OrderList wider(text);
    return wider.with_cell(wider.table().header, column, field);
  });
}

Response Page::drop_orders(const Request&, const app::JsonValue& body) {
  const std::string bytes = body.text_at("csv");
  if (bytes.size() > most_list_bytes || csv::read(bytes).header.cells.empty())
    return refusal(400, "This is no list of orders that could be read.",
                   "Export it as CSV, with the names of the columns in the first line.");
  const fs::path folder = fs::path(path_).parent_path();
  const std::string stem = file_name_from(body.text_at("name"));
  std::string name = stem;
  std::error_code ignored;
  // What is there already stays; the same list dropped again is no second one.
  for (int number = 2; fs::exists(fs::symlink_status(folder / name, ignored)); ++number) {
    FileBytes file = disk_access().read((folder / name).string(), most_list_bytes);
    if (const auto* there = std::get_if<std::string>(&file); there && *there == bytes) break;
    name = fmt::format("{}-{}.csv", stem.substr(0, stem.size() - 4), number);
  }
  if (const auto fault = file::write_file((folder / name).string(), bytes))
    return refusal(500, fmt::format("The list could not be written: {}.", fault->found),
                   fault->fix);
  const auto is_run = [](const ElementTree::Node& one) {
    return one.parent == 0 && one.span->name == "run";
  };
  const auto run = std::ranges::find_if(shown_->tree.nodes, is_run);
  Wish wish;
  if (run == shown_->tree.nodes.end()) {
    if (shown_->tree.nodes.empty()) return refusal(409, "The project cannot be read.", "Mend it.");
    wish.what = Wish::What::Add;
    wish.key = shown_->text.keys.front();
    wish.element = {"run", "", {{"roster", name}}, {}};
  } else {
    wish.key = shown_->text.keys.at(as_index(run - shown_->tree.nodes.begin()));
    wish.name = "roster";
    wish.words = name;
  }
  std::vector<edit::Written> written;
  if (const auto no = session_.edit({wish}, {}, now(), written))
    return refusal(no->status, no->error, no->fix);
  facts_asked_for_.clear();
  take_change();
  return get_orders({}, {});
}

} // namespace leafwright::local_page
