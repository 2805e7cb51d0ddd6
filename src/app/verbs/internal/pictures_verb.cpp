#include "app/documents/rendering.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/verbs/internal/verb_table.h"
#include "guide/sections.h"
#include "output/html/html.h"
#include "output/pictures.h"
#include "page/poster/poster.h"
#include "records/records.h"

#include <fmt/format.h>

#include <charconv>
#include <optional>
#include <utility>

namespace leafwright::app {

namespace {

// The room that a view is drawn in: lettering keeps its printed size, so that it is as large beside
// the card as in the booklet.
constexpr Size view_room{millimetres(96), millimetres(96)};
constexpr int least_px = 64, most_px = 10'000;

// What is posted most: a square, a wide and an upright picture.
const std::vector<std::string>& usual_sizes() {
  static const std::vector<std::string> sizes{"1080x1080", "1200x630", "1000x1500"};
  return sizes;
}

struct Pixels {
  int width = 0, height = 0;
};

std::optional<Pixels> pixels_of(std::string_view words) {
  Pixels size;
  const char* const end = words.data() + words.size();
  const auto [after, fault] = std::from_chars(words.data(), end, size.width);
  if (fault != std::errc() || after == end || *after != 'x') return std::nullopt;
  const auto [last, second] = std::from_chars(after + 1, end, size.height);
  const auto sane = [](int side) { return side >= least_px && side <= most_px; };
  if (second != std::errc() || last != end || !sane(size.width) || !sane(size.height))
    return std::nullopt;
  return size;
}

// Gathers files, and a table of what they show for those who cannot see them.
class Album {
 public:
  Album(const Project& project, const text::Fonts& fonts) : project_(project), fonts_(fonts) {}

  void add(const std::string& name, const Drawing& drawing, int width_px, const std::string& title,
           const std::string& words) {
    preview::PngOptions options;
    options.width_px = width_px;
    const Parsed<std::string> png =
        preview::render_png(drawing, fonts_, project_.pictures, options);
    const Parsed<std::string> svg =
        svg::render_svg(drawing, fonts_, project_.pictures, {title, words});
    for (const Parsed<std::string>* one : {&png, &svg})
      if (!*one) {
        const ParseError& why = one->parse_error();
        made_.findings.push_back(fault(why.found, why.expected, why.fix));
        return;
      }
    made_.files.push_back({"pictures/" + name + ".png", *png});
    made_.files.push_back({"pictures/" + name + ".svg", *svg});
    rows_.push_back({name + ".png", title, words});
  }

  RenderedDocument take() {
    std::string table = records::csv_row({"file", "title", "description"});
    for (const std::vector<std::string>& row : rows_) table += records::csv_row(row);
    made_.files.push_back({"pictures/descriptions.csv", std::move(table)});
    return std::move(made_);
  }

 private:
  const Project& project_;
  const text::Fonts& fonts_;
  RenderedDocument made_;
  std::vector<std::vector<std::string>> rows_;
};

std::string all_of(const guide::Cover& cover) {
  std::string words = cover.title + ".";
  for (const figure::Scene& scene : cover.cards) words += " " + scene.alternative;
  return words;
}

} // namespace

int run_pictures(const Arguments& arguments, Environment& environment) {
  std::vector<std::pair<std::string, Pixels>> sizes;
  for (const std::string& words :
       arguments.pictures.sizes.empty() ? usual_sizes() : arguments.pictures.sizes) {
    const std::optional<Pixels> size = pixels_of(words);
    if (!size) {
      report(fmt::format("--size {}: two numbers of pixels from {} to {} are expected, such as "
                         "1080x1080",
                         words, least_px, most_px),
             environment);
      return WrongUse;
    }
    sizes.emplace_back(words, *size);
  }
  auto opened = open_session(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const Session& session = std::get<Session>(opened);
  const PlannedProject& planned = session.planned;
  const Project& project = planned.reading.project;
  const text::Fonts& fonts = session.settings.fonts;
  Findings findings = planned.findings;
  const std::optional<LoadedTemplate> loaded = load_template("booklet", session.settings, findings);

  std::vector<OutputFile> files;
  ProgressLine line(arguments, environment);
  if (loaded) {
    poster::Style style = poster::style_of(loaded->page_template, project.accent);
    style.accent_words = html::darkened_on(project.accent, style.look.ground);
    Album album(project, fonts);
    std::vector<poster::CardViews> cards;
    for (std::size_t i = 0; i < project.cards.size(); ++i) {
      const Card& card = project.cards[i];
      line.show(fmt::format("{} ({} of {})", card.title, i + 1, project.cards.size()));
      cards.push_back({fmt::format("{}\u2002{}", i + 1, card.title),
                       poster::views_of(project, static_cast<int>(i))});
      for (const poster::Shown& one : poster::shown(cards.back().views, view_room, style, fonts))
        album.add(card.id + "-" + one.name, one.drawing, arguments.pictures.width,
                  card.title + ": " + one.title, one.alternative);
    }
    line.show("Contact sheet and posters");
    album.add("contact-sheet", poster::contact_sheet(project.title, cards, style, fonts),
              arguments.pictures.width, project.title + ": all pictures",
              "Every picture of every card, small, with its name.");
    const guide::Section front = guide::cover_section(project, guide::edition_words(project));
    if (const auto* cover = std::get_if<guide::Cover>(&front.blocks.at(0).what))
      for (const auto& [words, size] : sizes)
        album.add("poster-" + words,
                  poster::poster(*cover, size.width, size.height, style, fonts,
                                 guide::offer_line(project)),
                  size.width, project.title, all_of(*cover));
    RenderedDocument made = album.take();
    append(findings, made.findings);
    files = std::move(made.files);
  }
  line.clear();
  if (const auto code = stopped_by(findings, planned.reading.sources, arguments, environment))
    return *code;
  return write_all(files, arguments, arguments.quiet, environment);
}

} // namespace leafwright::app
