#include "read/document.h"

#include "measure/letters.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace leafwright::reading {
namespace {

constexpr std::string_view blanks = " \t\r\n";

bool is_name_start(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == ':' ||
         static_cast<unsigned char>(c) >= 0x80;
}
bool is_name_character(char c) {
  return is_name_start(c) || (c >= '0' && c <= '9') || c == '-' || c == '.';
}
bool is_blank(char c) { return blanks.find(c) != std::string_view::npos; }

class Scanner {
 public:
  Scanner(const SourceText& source, std::int32_t file, std::size_t most_depth, Journal& journal)
      : source_(source), text_(source.text()), file_(file), most_depth_(most_depth),
        journal_(journal), at_(byte_order_mark(source.text())) {}

  bool run() {
    if (!check_declaration()) return false;
    while (at_ < text_.size()) {
      if (text_[at_] == '<') {
        if (!markup()) return false;
      } else if (!characters()) {
        return false;
      }
    }
    if (!open_.empty()) return unclosed();
    if (!root_seen_) {
      return fault(text_.size(), 1, "read-empty", "no element", "a <project> element",
                   "write a project, or begin with: leafwright new NAME");
    }
    return true;
  }

 private:
  struct Open {
    std::string_view name;
    std::size_t at;
  };

  bool fault(std::size_t from, std::size_t length, std::string_view code, const std::string& found,
             const std::string& expected, const std::string& fix) {
    journal_.error(code, source_.place(file_, from, length), found, expected, fix);
    return false;
  }

  // Where the text breaks off within `what` that began at `from`.
  bool broken_off(std::size_t from, std::string_view what, std::string_view end) {
    return fault(from, std::min<std::size_t>(text_.size() - from, 1), "read-truncated",
                 fmt::format("{} that does not end", what), fmt::format("{} at its end", end),
                 fmt::format("write {}; the file may be cut off", end));
  }

  bool at(std::string_view what) const { return text_.substr(at_).starts_with(what); }

  std::string_view take_name() {
    const std::size_t from = at_;
    if (at_ < text_.size() && is_name_start(text_[at_]))
      while (at_ < text_.size() && is_name_character(text_[at_])) ++at_;
    return text_.substr(from, at_ - from);
  }

  void skip_blanks() {
    while (at_ < text_.size() && is_blank(text_[at_])) ++at_;
  }

  // <?xml version="1.0" encoding="…"?>
  bool check_declaration() {
    if (!at("<?xml") || at_ + 5 >= text_.size() || !is_blank(text_[at_ + 5])) return true;
    const std::size_t end = text_.find("?>", at_);
    if (end == std::string_view::npos) return broken_off(at_, "an XML declaration", "?>");
    const std::string_view inside = text_.substr(at_, end - at_);
    const auto quoted = [&](std::string_view key) -> std::pair<std::size_t, std::string_view> {
      std::size_t from = inside.find(key);
      if (from == std::string_view::npos) return {};
      from = inside.find_first_of("\"'", from);
      if (from == std::string_view::npos) return {};
      const std::size_t to = inside.find(inside[from], from + 1);
      if (to == std::string_view::npos) return {};
      return {at_ + from + 1, inside.substr(from + 1, to - from - 1)};
    };
    const auto [encoding_at, encoding] = quoted("encoding");
    if (!encoding.empty() && !detail::same_ignoring_case(encoding, "utf-8") &&
        !detail::same_ignoring_case(encoding, "us-ascii")) {
      return fault(encoding_at, encoding.size(), "read-encoding", detail::shown(encoding),
                   "the encoding UTF-8", "save the file as UTF-8 and say encoding=\"UTF-8\"");
    }
    const auto [version_at, version] = quoted("version");
    if (!version.empty() && version != "1.0") {
      return fault(version_at, version.size(), "read-xml", "XML " + detail::shown(version),
                   "XML 1.0", "write version=\"1.0\" in the first line");
    }
    at_ = end + 2;
    return true;
  }

  bool markup() {
    if (at("<!--")) return comment();
    if (at("<![CDATA[")) return character_data();
    if (at("<!")) return declaration();
    if (at("<?")) return instruction();
    if (at("</")) return end_tag();
    return start_tag();
  }

  bool comment() {
    const std::size_t from = at_;
    const std::size_t dashes = text_.find("--", at_ + 4);
    if (dashes == std::string_view::npos) return broken_off(from, "a comment", "-->");
    if (!text_.substr(dashes).starts_with("-->")) {
      fault(dashes, 2, "read-xml", "-- inside a comment", "a comment without --",
            "write a single dash or another sign");
      const std::size_t end = text_.find("-->", dashes);
      if (end == std::string_view::npos) return broken_off(from, "a comment", "-->");
      at_ = end + 3;
      return true;
    }
    at_ = dashes + 3;
    return true;
  }

  bool character_data() {
    const std::size_t end = text_.find("]]>", at_);
    if (end == std::string_view::npos) return broken_off(at_, "a CDATA section", "]]>");
    if (open_.empty()) {
      return fault(at_, 9, "read-xml", "text outside the project", "nothing but comments there",
                   "delete it");
    }
    at_ = end + 3;
    return true;
  }

  bool declaration() {
    return fault(at_, 9, "read-doctype", "a document type or entity declaration",
                 "a project without one",
                 "delete the <!DOCTYPE …>; the five entities of XML and numbers such as "
                 "&#189; are always known");
  }

  bool instruction() {
    const std::size_t end = text_.find("?>", at_);
    if (end == std::string_view::npos) return broken_off(at_, "a processing instruction", "?>");
    if (at("<?xml") && at_ + 5 < text_.size() && is_blank(text_[at_ + 5])) {
      return fault(at_, 5, "read-xml", "an XML declaration that is not at the beginning",
                   "nothing before <?xml", "delete what stands before it, blanks too");
    }
    at_ = end + 2;
    return true;
  }

  bool end_tag() {
    const std::size_t from = at_;
    at_ += 2;
    const std::string_view name = take_name();
    skip_blanks();
    if (at_ >= text_.size()) return broken_off(from, "an end tag", ">");
    if (name.empty() || text_[at_] != '>') {
      return fault(from, at_ - from + 1, "read-xml", "an end tag that is not one",
                   "an end tag such as </card>", "write the element's name and >");
    }
    ++at_;
    if (open_.empty()) {
      return fault(from, at_ - from, "read-xml", fmt::format("</{}>", detail::shown(name)),
                   "an end tag after its start tag", "delete it, or write the start tag");
    }
    if (open_.back().name != name) return wrong_end_tag(from, name);
    open_.pop_back();
    return true;
  }

  bool wrong_end_tag(std::size_t from, std::string_view name) {
    const std::string wanted = detail::shown(open_.back().name);
    Finding finding{Severity::Error,
                    "read-xml",
                    source_.place(file_, from, at_ - from),
                    fmt::format("</{}>", detail::shown(name)),
                    fmt::format("</{}>", wanted),
                    fmt::format("close <{}> first, or mend the name", wanted),
                    {}};
    finding.trace.push_back({source_.place(file_, open_.back().at, open_.back().name.size() + 1),
                             fmt::format("<{}> begins here", wanted)});
    journal_.add(std::move(finding));
    return false;
  }

  bool unclosed() {
    const Open& last = open_.back();
    const std::string name = detail::shown(last.name);
    return fault(last.at, last.name.size() + 1, "read-truncated",
                 fmt::format("<{}> that does not end", name), fmt::format("</{}>", name),
                 fmt::format("write </{}>; the file may be cut off", name));
  }

  bool start_tag() {
    const std::size_t from = at_++;
    const std::string_view name = take_name();
    if (name.empty()) {
      return fault(from, 1, "read-xml", "a < that begins no tag", "a tag or &lt;",
                   "write &lt; for the sign itself");
    }
    if (open_.empty() && root_seen_) {
      return fault(from, name.size() + 1, "read-xml",
                   fmt::format("a second element <{}> at the top", detail::shown(name)),
                   "one <project>", "move it inside, or into a file of its own");
    }
    root_seen_ = true;
    attributes_.clear();
    while (true) {
      const std::size_t before = at_;
      skip_blanks();
      if (at_ >= text_.size()) {
        return broken_off(from, fmt::format("the tag <{}>", detail::shown(name)), ">");
      }
      if (text_[at_] == '>') {
        ++at_;
        open_.push_back({name, from});
        if (open_.size() > most_depth_) return too_deep(from, name);
        return true;
      }
      if (at("/>")) {
        at_ += 2;
        return true;
      }
      if (!attribute(name, before == at_)) return false;
    }
  }

  bool too_deep(std::size_t from, std::string_view name) {
    return fault(from, name.size() + 1, "read-too-deep",
                 fmt::format("elements nested {} deep", open_.size()),
                 fmt::format("at most {}", most_depth_),
                 "a project needs no more than six; look for end tags that are missing");
  }

  bool attribute(std::string_view element, bool touches) {
    const std::size_t from = at_;
    const std::string_view name = take_name();
    if (name.empty()) {
      return fault(from, 1, "read-xml", detail::shown(text_.substr(from, 1)),
                   fmt::format("an attribute of <{}>, or >", detail::shown(element)),
                   "write name=\"value\", or close the tag");
    }
    if (touches) {
      fault(from, name.size(), "read-xml",
            fmt::format("{} without a blank before it", detail::shown(name)),
            "a blank between attributes", "put a blank in front");
    }
    skip_blanks();
    if (at_ >= text_.size()) return broken_off(from, "an attribute", "a value");
    if (text_[at_] != '=') {
      return fault(from, name.size(), "read-xml",
                   fmt::format("{} without a value", detail::shown(name)), "name=\"value\"",
                   "write = and the value in quotes");
    }
    ++at_;
    skip_blanks();
    if (at_ >= text_.size()) return broken_off(from, "an attribute", "a value");
    const char quote = text_[at_];
    if (quote != '"' && quote != '\'') {
      return fault(at_, 1, "read-xml", fmt::format("{} without quotes", detail::shown(name)),
                   "the value in quotes", "write quotes around the value");
    }
    const std::size_t end = text_.find(quote, at_ + 1);
    if (end == std::string_view::npos) {
      return broken_off(at_, fmt::format("the value of {}", detail::shown(name)),
                        std::string(1, quote));
    }
    const std::size_t value_at = at_ + 1;
    const std::string_view value = text_.substr(value_at, end - value_at);
    if (const std::size_t less = value.find('<'); less != std::string_view::npos) {
      return fault(value_at + less, 1, "read-xml",
                   fmt::format("< in the value of {}", detail::shown(name)),
                   "&lt; or a closing quote before it",
                   "close the quotes, or write &lt; for the sign itself");
    }
    check_references(value, value_at);
    if (std::find(attributes_.begin(), attributes_.end(), name) != attributes_.end()) {
      fault(from, name.size(), "read-twice", fmt::format("{} a second time", detail::shown(name)),
            "each attribute once", "delete one of the two");
    }
    if (attributes_.size() >= most_attributes) {
      return fault(from, name.size(), "read-too-many", "more attributes than any element has",
                   fmt::format("at most {}", most_attributes), "delete those not needed");
    }
    attributes_.push_back(name);
    at_ = end + 1;
    return true;
  }

  bool characters() {
    std::size_t end = text_.find('<', at_);
    if (end == std::string_view::npos) end = text_.size();
    const std::string_view run = text_.substr(at_, end - at_);
    const std::size_t ink = run.find_first_not_of(blanks);
    if (open_.empty() && ink != std::string_view::npos) {
      return fault(at_ + ink, 1, "read-xml",
                   fmt::format("text outside the project: {}", detail::shown(run.substr(ink, 12))),
                   "nothing but comments there",
                   root_seen_ ? "delete what follows the last end tag"
                              : "begin the file with <?xml or <project");
    }
    check_references(run, at_);
    if (const std::size_t close = run.find("]]>"); close != std::string_view::npos) {
      fault(at_ + close, 3, "read-xml", "]]> in text", "]]&gt;", "write &gt; for the sign");
    }
    at_ = end;
    return true;
  }

  void check_references(std::string_view run, std::size_t run_at) {
    for (std::size_t i = run.find('&'); i != std::string_view::npos; i = run.find('&', i + 1)) {
      const Reference one = reference_at(run, i);
      if (!one.text.empty()) continue;
      const bool numbered = one.closed && one.name.starts_with('#');
      fault(run_at + i, one.length, "read-entity",
            one.closed ? fmt::format("&{};", detail::shown(one.name)) : "a bare &",
            "&amp; &lt; &gt; &quot; &apos; or a number such as &#189;",
            numbered     ? "delete it: XML has no character of this number"
            : one.closed ? "write the character itself"
                         : "write &amp; for the sign itself");
    }
  }

  static constexpr std::size_t most_attributes = 64;
  const SourceText& source_;
  std::string_view text_;
  std::int32_t file_;
  std::size_t most_depth_;
  Journal& journal_;
  std::size_t at_;
  bool root_seen_ = false;
  std::vector<Open> open_;
  std::vector<std::string_view> attributes_;
};

} // namespace

bool check_well_formed(const SourceText& source, std::int32_t file, std::size_t most_depth,
                       Journal& journal) {
  return Scanner(source, file, most_depth, journal).run();
}

} // namespace leafwright::reading
