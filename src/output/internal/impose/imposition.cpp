#include "output/booklet.h"
#include "output/internal/impose/marks.h"

#include "measure/index.h"
#include "output/internal/pdf/qpdf.h"
#include "output/internal/pdf/syntax.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace leafwright::impose {
namespace {

using pdf::Qpdf;

// [left bottom right top]
using Box = std::array<double, 4>;

Box box_of(const Qpdf& document, qpdf_oh page) {
  qpdf_data q = document.get();
  qpdf_oh array = document.key(page, "/TrimBox");
  if (qpdf_oh_is_array(q, array) == QPDF_FALSE) array = document.key(page, "/MediaBox");
  Box box{0, 0, 0, 0};
  if (qpdf_oh_is_array(q, array) == QPDF_FALSE || qpdf_oh_get_array_n_items(q, array) != 4)
    return box;
  for (std::size_t i = 0; i < 4; ++i)
    box[i] = qpdf_oh_get_numeric_value(q, qpdf_oh_get_array_item(q, array, static_cast<int>(i)));
  return box;
}

struct FormXObject {
  qpdf_oh object = 0;
  Box box{};
};

// The page's content stream becomes the form: what is in it need not be unpacked. The form may show
// all of the media box, so that bleed is there where a clip lets it through.
FormXObject form_of(const Qpdf& from, const Qpdf& to, int number) {
  qpdf_data q = from.get();
  const qpdf_oh page = qpdf_get_page_n(q, as_index(number));
  qpdf_oh content = from.key(page, "/Contents");
  if (qpdf_oh_is_stream(q, content) == QPDF_FALSE) {
    unsigned char* bytes = nullptr;
    std::size_t length = 0;
    if (pdf::broke(qpdf_oh_get_page_content_data(q, page, &bytes, &length))) return {};
    content = from.add_stream({reinterpret_cast<const char*>(bytes), length});
    pdf::release(bytes);
  }
  const qpdf_oh dictionary = qpdf_oh_get_dict(q, content);
  from.set(dictionary, "/Type", qpdf_oh_new_name(q, "/XObject"));
  from.set(dictionary, "/Subtype", qpdf_oh_new_name(q, "/Form"));
  from.set(dictionary, "/BBox", from.key(page, "/MediaBox"));
  from.set(dictionary, "/Resources", from.key(page, "/Resources"));
  return {qpdf_oh_copy_foreign_object(to.get(), q, content), box_of(from, page)};
}

void append_numbers(std::string& out, std::initializer_list<double> numbers) {
  for (const double number : numbers) {
    pdf::append_real(out, number, 5);
    out.push_back(' ');
  }
}

std::string operators(const Sheet& sheet, const std::map<int, FormXObject>& forms) {
  std::string out;
  const double tall = in_points(sheet.size.height);
  for (const PlacedPage& placed : sheet.pages) {
    const FormXObject& form = forms.at(placed.page);
    out += "q ";
    append_numbers(out, {in_points(placed.clip.left()), tall - in_points(placed.clip.bottom()),
                         in_points(placed.clip.size.width), in_points(placed.clip.size.height)});
    out += "re W n ";
    append_numbers(out, {placed.scale, 0, 0, placed.scale,
                         in_points(placed.at.x) - form.box[0] * placed.scale,
                         tall - in_points(placed.at.y) - form.box[3] * placed.scale});
    out += fmt::format("cm /P{} Do Q\n", placed.page);
  }
  return out;
}

} // namespace

Parsed<std::string> composed(const std::string& under, const std::string& pages,
                             std::span<const Sheet> sheets, std::string_view duplex) {
  const auto failed = [](const std::string& why) {
    return ParseError{0, 0, fmt::format("the pages cannot be set on sheets: {}", why),
                      "a PDF that this program has written", "make it anew"};
  };
  Qpdf from, to;
  if (!from.read(pages)) return failed(from.why());
  if (!to.read(under)) return failed(to.why());
  qpdf_data q = to.get();
  const int count = qpdf_get_num_pages(from.get());
  if (qpdf_get_num_pages(q) != static_cast<int>(sheets.size()))
    return failed("another number of sheets than expected");

  std::map<int, FormXObject> forms;
  for (const Sheet& sheet : sheets)
    for (const PlacedPage& placed : sheet.pages) {
      if (placed.page < 0 || placed.page >= count) return failed("a page that is not there");
      if (!forms.contains(placed.page)) forms[placed.page] = form_of(from, to, placed.page);
    }
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const Sheet& sheet = sheets[i];
    const qpdf_oh page = qpdf_get_page_n(q, i);
    const qpdf_oh own = to.key(page, "/Contents");
    const qpdf_oh resources = to.key(page, "/Resources");
    const qpdf_oh objects = qpdf_oh_new_dictionary(q);
    for (const PlacedPage& placed : sheet.pages)
      to.set(objects, fmt::format("/P{}", placed.page).c_str(), forms.at(placed.page).object);
    to.set(resources, "/XObject", objects);
    std::string before, after;
    if (sheet.turned) {
      before = "q ";
      append_numbers(before,
                     {-1, 0, 0, -1, in_points(sheet.size.width), in_points(sheet.size.height)});
      before += "cm\n";
      after = "Q\n";
    }
    const qpdf_oh contents = qpdf_oh_new_array(q);
    qpdf_oh_append_item(q, contents, to.add_stream(before + operators(sheet, forms)));
    qpdf_oh_append_item(q, contents, own);
    if (!after.empty()) qpdf_oh_append_item(q, contents, to.add_stream(after));
    to.set(page, "/Contents", contents);
  }
  to.set(to.key(to.root(), "/ViewerPreferences"), "/Duplex",
         qpdf_oh_new_name(q, fmt::format("/{}", duplex).c_str()));
  if (const std::string why = from.why(); !why.empty()) return failed(why);
  return to.write();
}

namespace {

constexpr Colour ink{0x26, 0x24, 0x21};
constexpr Colour paper{0xff, 0xff, 0xff};

Path line(Point from, Point to) {
  return {{Segment::Kind::Move, {}, {}, from}, {Segment::Kind::Line, {}, {}, to}};
}

} // namespace

Path outline(Rect box) {
  return {{Segment::Kind::Move, {}, {}, {box.left(), box.top()}},
          {Segment::Kind::Line, {}, {}, {box.right(), box.top()}},
          {Segment::Kind::Line, {}, {}, {box.right(), box.bottom()}},
          {Segment::Kind::Line, {}, {}, {box.left(), box.bottom()}},
          {Segment::Kind::Close, {}, {}, {}}};
}

void add_line(std::vector<DrawItem>& to, Point from, Point end, std::vector<Length> dash) {
  Stroke stroke;
  stroke.path = line(from, end);
  stroke.colour = paper;
  stroke.width = points(1.5);
  to.emplace_back(stroke);
  stroke.colour = ink;
  stroke.width = points(0.5);
  stroke.dash = std::move(dash);
  to.emplace_back(std::move(stroke));
}

void add_fold(std::vector<DrawItem>& to, Length x, Length top, Length bottom) {
  constexpr Length tick = millimetres(7);
  const std::vector<Length> dash{points(3), points(2)};
  add_line(to, {x, top}, {x, top + tick}, dash);
  add_line(to, {x, bottom - tick}, {x, bottom}, dash);
}

void add_staples(std::vector<DrawItem>& to, Length x, Length top, Length bottom) {
  constexpr Length crown = millimetres(12); // of a common office staple
  constexpr Length foot = micrometres(1200);
  const Length tall = bottom - top;
  for (const std::int64_t quarter : {1, 3}) {
    const Length middle = top + tall * quarter / 4;
    add_line(to, {x, middle - crown / 2}, {x, middle + crown / 2});
    for (const Length end : {middle - crown / 2, middle + crown / 2})
      add_line(to, {x - foot, end}, {x + foot, end});
  }
}

void add_crop_marks(std::vector<DrawItem>& to, Rect trimmed, Rect sheet) {
  constexpr Length away = millimetres(3), longest = millimetres(5), shortest = millimetres(1);
  const auto mark = [&](Point corner, Length dx, Length dy, Length room) {
    const Length length = std::min(longest, room - away);
    if (length < shortest) return;
    const auto step = [](Length direction, Length by) {
      return direction.nm < 0 ? -by : direction.nm > 0 ? by : Length{};
    };
    const Point begin{corner.x + step(dx, away), corner.y + step(dy, away)};
    add_line(to, begin, {begin.x + step(dx, length), begin.y + step(dy, length)});
  };
  const Length one = millimetres(1), none{};
  // An edge that is the sheet's own is not cut.
  for (const Length x : {trimmed.left(), trimmed.right()}) {
    if (x == sheet.left() || x == sheet.right()) continue;
    mark({x, trimmed.top()}, none, -one, trimmed.top() - sheet.top());
    mark({x, trimmed.bottom()}, none, one, sheet.bottom() - trimmed.bottom());
  }
  for (const Length y : {trimmed.top(), trimmed.bottom()}) {
    if (y == sheet.top() || y == sheet.bottom()) continue;
    mark({trimmed.left(), y}, -one, none, trimmed.left() - sheet.left());
    mark({trimmed.right(), y}, one, none, sheet.right() - trimmed.right());
  }
}

void add_gathering_mark(std::vector<DrawItem>& to, Length x, Length top, Length bottom,
                        int signature) {
  constexpr Length wide = millimetres(3), tall = millimetres(8);
  const std::int64_t steps = std::max<std::int64_t>((bottom - top).nm / tall.nm - 4, 1);
  const Length at = top + tall * (2 + signature % steps);
  to.emplace_back(Fill{outline({{x - wide / 2, at}, {wide, tall}}), ink, 1.0});
}

void add_words(std::vector<DrawItem>& to, const text::Fonts& fonts, std::string_view words,
               Length x, Length baseline) {
  TextRun run;
  run.shaped = fonts.shape(fonts.face(text::Role::Text), points(7), words);
  run.baseline = {x - run.shaped.width / 2, baseline};
  run.colour = ink;
  to.emplace_back(std::move(run));
}

} // namespace leafwright::impose
