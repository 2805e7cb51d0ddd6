#include "read/internal/elements.h"

#include "measure/index.h"
#include "measure/letters.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>

namespace leafwright::reading {
namespace {

constexpr std::string_view expected_path = "SVG path data such as M0 0 L10 0 L10 5 Z";
constexpr double largest_coordinate = 1e6; // of a coordinate, in units of the grid
constexpr std::size_t most_segments = 50'000;

struct Vec {
  double x = 0, y = 0;
};
Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
Vec operator*(Vec a, double f) { return {a.x * f, a.y * f}; }

class PathReader {
 public:
  PathReader(std::string_view text, double per_x, double per_y)
      : text_(text), per_x_(per_x), per_y_(per_y) {}

  Parsed<Path> run() {
    skip();
    if (at_ == text_.size()) return fault(at_, at_, "write at least one M and one line or curve");
    if (text_[at_] != 'M' && text_[at_] != 'm') {
      return fault(at_, at_ + 1, "path data begin with M and a point");
    }
    while (at_ < text_.size()) {
      const std::size_t command_at = at_;
      const char command = text_[at_];
      if (std::string_view("MmLlHhVvCcSsQqTtAaZz").find(command) == std::string_view::npos) {
        return fault(at_, detail::end_of_word(text_, at_), "the letters are M L H V C S Q T A Z");
      }
      ++at_;
      if (auto wrong = commands(command)) return *wrong;
      if (path_.size() > most_segments) {
        return fault(command_at, at_, "use a picture for a drawing of so many lines");
      }
      skip();
    }
    return path_;
  }

 private:
  ParseError fault(std::size_t from, std::size_t to, std::string fix) const {
    return detail::parse_error(text_, from, std::max(from, std::min(to, text_.size())),
                               expected_path, std::move(fix));
  }

  void skip() {
    while (at_ < text_.size() &&
           std::string_view(" \t\r\n,").find(text_[at_]) != std::string_view::npos)
      ++at_;
  }
  bool more_numbers() {
    skip();
    return at_ < text_.size() &&
           std::string_view("+-.0123456789").find(text_[at_]) != std::string_view::npos;
  }

  std::optional<double> number() {
    skip();
    std::size_t from = at_;
    if (from < text_.size() && text_[from] == '+') ++from;
    double value = 0;
    const auto [stop, error] = std::from_chars(text_.data() + from, text_.data() + text_.size(),
                                               value, std::chars_format::general);
    if (error != std::errc{} || !std::isfinite(value) || std::fabs(value) > largest_coordinate)
      return {};
    at_ = as_index(stop - text_.data());
    return value;
  }
  std::optional<double> flag() { // may touch the number that follows
    skip();
    if (at_ >= text_.size() || (text_[at_] != '0' && text_[at_] != '1')) return {};
    return text_[at_++] == '1' ? 1.0 : 0.0;
  }
  std::optional<Vec> pair(Vec origin) {
    const auto x = number();
    if (!x) return {};
    const auto y = number();
    if (!y) return {};
    return Vec{*x, *y} + origin;
  }

  ParseError number_missing() {
    skip();
    if (at_ >= text_.size()) return fault(at_, at_, "a number is missing at the end");
    return fault(
        at_, detail::end_of_word(text_, at_),
        fmt::format("write a number from -{0} to {0} here", static_cast<int>(largest_coordinate)));
  }

  // All repetitions of one letter.
  std::optional<ParseError> commands(char command) {
    if (command == 'Z' || command == 'z') {
      path_.push_back({Segment::Kind::Close, {}, {}, {}});
      here_ = start_;
      last_ = 'Z';
      return std::nullopt;
    }
    do {
      if (!one(command)) return number_missing();
      if (command == 'M') command = 'L'; // further points of a move are lines
      if (command == 'm') command = 'l';
    } while (more_numbers() && path_.size() <= most_segments);
    return std::nullopt;
  }

  bool one(char command) {
    const bool relative = command >= 'a';
    const char kind = relative ? static_cast<char>(command - 'a' + 'A') : command;
    const Vec origin = relative ? here_ : Vec{};
    if (kind == 'A') return arc_command(origin);
    if (kind == 'H' || kind == 'V') {
      const auto far = number();
      if (!far) return false;
      line(kind == 'H' ? Vec{*far + origin.x, here_.y} : Vec{here_.x, *far + origin.y});
      last_ = kind;
      return true;
    }
    // The others are pairs: C three, S and Q two, the rest one.
    const std::size_t count = kind == 'C' ? 3 : kind == 'S' || kind == 'Q' ? 2 : 1;
    if (std::string_view("MLCSQT").find(kind) == std::string_view::npos) return false;
    std::array<Vec, 3> at{};
    for (std::size_t i = 0; i < count; ++i) {
      const auto read = pair(origin);
      if (!read) return false;
      at.at(i) = *read;
    }
    const Vec mirrored = here_ * 2 - handle_;
    switch (kind) {
    case 'M':
      path_.push_back({Segment::Kind::Move, {}, {}, point(at[0])});
      start_ = here_ = at[0];
      break;
    case 'L': line(at[0]); break;
    case 'C': curve(at[0], at[1], at[2]); break;
    case 'S': curve(last_ == 'C' || last_ == 'S' ? mirrored : here_, at[0], at[1]); break;
    case 'Q': quadratic(at[0], at[1]); break;
    default: quadratic(last_ == 'Q' || last_ == 'T' ? mirrored : here_, at[0]);
    }
    last_ = kind;
    return true;
  }

  Point point(Vec v) const {
    return {Length{std::llround(v.x * per_x_)}, Length{std::llround(v.y * per_y_)}};
  }
  void line(Vec to) {
    path_.push_back({Segment::Kind::Line, {}, {}, point(to)});
    here_ = to;
  }
  void curve(Vec a, Vec b, Vec to) {
    path_.push_back({Segment::Kind::Curve, point(a), point(b), point(to)});
    handle_ = b;
    here_ = to;
  }
  void quadratic(Vec via, Vec to) {
    curve(here_ + (via - here_) * (2.0 / 3), to + (via - to) * (2.0 / 3), to);
    handle_ = via;
  }

  bool arc_command(Vec origin) {
    const auto rx = number();
    if (!rx) return false;
    const auto ry = number();
    if (!ry) return false;
    const auto turn = number();
    if (!turn) return false;
    const auto large = flag();
    if (!large) return false;
    const auto sweep = flag();
    if (!sweep) return false;
    const auto to = pair(origin);
    if (!to) return false;
    arc(std::fabs(*rx), std::fabs(*ry), *turn, *large > 0, *sweep > 0, *to);
    last_ = 'A';
    return true;
  }

  // SVG 1.1, appendix F.6: from endpoints to centre, then quarters as cubic curves.
  void arc(double rx, double ry, double turn, bool large, bool sweep, Vec to) {
    if (rx == 0 || ry == 0 || (to.x == here_.x && to.y == here_.y)) return line(to);
    const double phi = turn * std::numbers::pi / 180;
    const double c = std::cos(phi), s = std::sin(phi);
    const Vec half = (here_ - to) * 0.5;
    const Vec p{c * half.x + s * half.y, -s * half.x + c * half.y};
    const double stretch = p.x * p.x / (rx * rx) + p.y * p.y / (ry * ry);
    if (stretch > 1) {
      rx *= std::sqrt(stretch);
      ry *= std::sqrt(stretch);
    }
    const double lower = rx * rx * p.y * p.y + ry * ry * p.x * p.x;
    if (lower <= 0) return line(to);
    double root = std::sqrt(std::max(0.0, (rx * rx * ry * ry - lower) / lower));
    if (large == sweep) root = -root;
    const Vec q{root * rx * p.y / ry, -root * ry * p.x / rx};
    const Vec centre = Vec{c * q.x - s * q.y, s * q.x + c * q.y} + (here_ + to) * 0.5;
    const double from = std::atan2((p.y - q.y) / ry, (p.x - q.x) / rx);
    double sweep_by = std::atan2((-p.y - q.y) / ry, (-p.x - q.x) / rx) - from;
    if (sweep && sweep_by < 0) sweep_by += 2 * std::numbers::pi;
    if (!sweep && sweep_by > 0) sweep_by -= 2 * std::numbers::pi;
    const int parts = std::max(
        1, static_cast<int>(std::ceil(std::fabs(sweep_by) / (std::numbers::pi / 2) - 1e-9)));
    const double step = sweep_by / parts;
    const double k = 4.0 / 3 * std::tan(step / 4);
    const auto on = [&](double x, double y) {
      return Vec{c * rx * x - s * ry * y, s * rx * x + c * ry * y} + centre;
    };
    for (int i = 0; i < parts; ++i) {
      const double a = from + step * i, b = a + step;
      const Vec end = i + 1 == parts ? to : on(std::cos(b), std::sin(b));
      curve(on(std::cos(a) - k * std::sin(a), std::sin(a) + k * std::cos(a)),
            on(std::cos(b) + k * std::sin(b), std::sin(b) - k * std::cos(b)), end);
    }
  }

  std::string_view text_;
  double per_x_, per_y_;
  std::size_t at_ = 0;
  Path path_;
  Vec start_, here_, handle_;
  char last_ = 'M';
};

} // namespace

Parsed<Path> parse_path(std::string_view text, double per_x, double per_y) {
  return PathReader(text, per_x, per_y).run();
}

} // namespace leafwright::reading
