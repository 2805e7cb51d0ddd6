#include "guide/business/internal/money_chart.h"

#include "guide/business/business.h"
#include "guide/figure/frame.h"
#include "guide/figure/paint.h"
#include "measure/index.h"
#include "plan/tier/value.h"
#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace leafwright::guide {
namespace {

constexpr Colour ink{38, 36, 33}, quiet{108, 102, 95}, hair{201, 195, 180};
constexpr Length chart_width = millimetres(160), chart_height = millimetres(58);
constexpr Length left_room = millimetres(20), foot_room = millimetres(11);
constexpr Length type = points(7.5);

// 1, 2 or 5 times a power of ten: about `lines` steps over `range`.
std::int64_t round_step(std::int64_t range, std::int64_t lines) {
  const std::int64_t wanted = std::max<std::int64_t>(1, range / std::max<std::int64_t>(lines, 1));
  std::int64_t power = 1;
  while (power * 10 <= wanted) power *= 10;
  for (const std::int64_t factor : {1, 2, 5})
    if (power * factor >= wanted) return power * factor;
  return power * 10;
}

std::int64_t floor_to(std::int64_t value, std::int64_t step) {
  const std::int64_t down = value / step * step;
  return down > value ? down - step : down;
}

class Chart {
 public:
  Chart(const Project& project, const std::vector<tiers::Scenario>& scenarios, int planned)
      : project_(project), scenarios_(scenarios), planned_(planned) {
    most_kits_ = std::max(1, scenarios.back().all);
    least_ = most_ = 0;
    for (const tiers::Scenario& one : scenarios) {
      least_ = std::min(least_, one.result.minor);
      most_ = std::max(most_, one.result.minor);
    }
    step_ = round_step(most_ - least_, 5);
    least_ = floor_to(least_, step_);
    most_ = floor_to(most_ + step_ - 1, step_);
    if (most_ == least_) most_ += step_;
  }

  figure::Scene draw() {
    scene_.box = {{}, {chart_width, chart_height}};
    scene_.fixed_scale = 1.0;
    money_lines();
    kit_marks();
    planned_mark();
    curve();
    words("kits", {chart_width - millimetres(5), chart_height - millimetres(2)}, quiet);
    return std::move(scene_);
  }

 private:
  Length plot_height() const { return chart_height - foot_room - millimetres(4); }
  Length x_of(int kits) const {
    const Length room = chart_width - left_room - millimetres(4);
    return left_room + room * kits / most_kits_;
  }
  Length y_of(std::int64_t minor) const {
    const double share = static_cast<double>(most_ - minor) / static_cast<double>(most_ - least_);
    return millimetres(4) +
           Length{static_cast<std::int64_t>(share * static_cast<double>(plot_height().nm))};
  }
  void line(Point from, Point to, Colour colour, Length width, std::vector<Length> dash = {}) {
    figure::drawn_stroke(scene_.items, figure::segment(from, to), colour, width, 1.0,
                         std::move(dash));
  }
  void words(std::string text, Point centre, Colour colour) {
    scene_.items.emplace_back(
        figure::SceneText{std::move(text), text::Role::Text, type, centre, {}, colour});
  }

  void money_lines() {
    for (std::int64_t at = least_; at <= most_; at += step_) {
      const Length y = y_of(at);
      line({left_room, y}, {chart_width - millimetres(4), y}, at == 0 ? ink : hair,
           at == 0 ? points(0.8) : points(0.4));
      words(money_text(Money{at, project_.currency}), {left_room - millimetres(9), y}, quiet);
    }
  }

  void kit_marks() {
    const std::int64_t step = round_step(most_kits_, 10);
    const Length foot = chart_height - foot_room;
    for (std::int64_t kits = 0; kits <= most_kits_; kits += step) {
      const Length x = x_of(static_cast<int>(kits));
      line({x, foot}, {x, foot + millimetres(1)}, quiet, points(0.4));
      words(std::to_string(kits), {x, foot + millimetres(3)}, quiet);
    }
  }

  void planned_mark() {
    const Length x = x_of(planned_);
    const Length foot = chart_height - foot_room;
    line({x, millimetres(4)}, {x, foot}, project_.accent, points(0.8),
         {millimetres(1), millimetres(1)});
    words("as planned: " + std::to_string(planned_), {x, foot + millimetres(6)}, ink);
  }

  void curve() {
    Path path = figure::polyline(points_of_steps(), false);
    figure::drawn_stroke(scene_.items, std::move(path), ink, points(1.1));
    for (const std::size_t i : setbacks(scenarios_)) {
      const Point at{x_of(scenarios_[i].all), y_of(scenarios_[i].result.minor)};
      const Length r = millimetres(1);
      const Rect ring{at - Point{r, r}, {r * 2, r * 2}};
      figure::fill(scene_.items, figure::oval(ring), Colour{255, 255, 255});
      figure::drawn_stroke(scene_.items, figure::oval(ring), project_.accent, points(0.9));
    }
  }

  std::vector<Point> points_of_steps() const {
    std::vector<Point> points;
    for (const tiers::Scenario& one : scenarios_) {
      const Point at{x_of(one.all), y_of(one.result.minor)};
      if (!points.empty()) points.push_back({at.x, points.back().y});
      points.push_back(at);
    }
    return points;
  }

  const Project& project_;
  const std::vector<tiers::Scenario>& scenarios_;
  int planned_ = 0, most_kits_ = 1;
  std::int64_t least_ = 0, most_ = 0, step_ = 1;
  figure::Scene scene_;
};

} // namespace

std::vector<tiers::Scenario> charted(const tiers::Outlook& outlook) {
  constexpr int most_points = 80;
  std::vector<tiers::Scenario> scenarios;
  const int last = std::max(outlook.planned() * 2, 1);
  const int step = std::max(1, (last + most_points - 1) / most_points);
  for (int kits = 0; kits <= last; kits += step) scenarios.push_back(outlook.at(kits));
  return scenarios;
}

std::vector<std::size_t> setbacks(const std::vector<tiers::Scenario>& scenarios) {
  std::vector<std::size_t> found;
  for (std::size_t i = 1; i < scenarios.size(); ++i)
    if (scenarios[i].result.minor < scenarios[i - 1].result.minor) found.push_back(i);
  return found;
}

figure::Scene money_chart(const Project& project, const std::vector<tiers::Scenario>& scenarios,
                          int planned) {
  figure::Scene scene = Chart(project, scenarios, planned).draw();
  scene.alternative = "What is left, from " + money_text(scenarios.front().result) +
                      " with no kits to " + money_text(scenarios.back().result) + " with " +
                      std::to_string(scenarios.back().all) + "; the table below gives the numbers.";
  return scene;
}

namespace {

using records::amount_text;
using records::csv_row;
using records::Json;

using tiers::TierAccount;

std::string id_of(const Project& project, int tier) {
  return tier < 0 ? std::string("all") : project.tiers.at(as_index(tier)).id;
}

void write_account(Json& json, const Project& project, const TierAccount& one) {
  json.open_object();
  json.key("tier").text(id_of(project, one.tier));
  json.key("orders").number(one.orders);
  json.key("kits").number(one.kits);
  json.key("price").number(one.price.minor);
  json.key("charged").number(one.charged.minor);
  json.key("goods").number(one.goods.minor);
  json.key("fees").number(one.fees.minor);
  json.key("postage").number(one.postage.minor);
  json.key("packing").number(one.packing.minor);
  json.key("margin").number(one.margin.minor);
  json.close_object();
}

} // namespace

// A row for each tier, the total, what was paid once, and the scenarios, of which only the planned
// one is exact: all money as decimals.
std::string money_csv(const Project& project, const MoneyBook& book) {
  std::string csv = csv_row({"row", "tier", "orders", "kits", "price", "charged", "goods", "fees",
                             "postage", "packing", "outlays", "margin", "currency"});
  const auto row = [&](std::string_view kind, const TierAccount& one) {
    csv += csv_row({std::string(kind), id_of(project, one.tier), std::to_string(one.orders),
                    std::to_string(one.kits), amount_text(one.price), amount_text(one.charged),
                    amount_text(one.goods), amount_text(one.fees), amount_text(one.postage),
                    amount_text(one.packing), "", amount_text(one.margin), project.currency.code});
  };
  for (const TierAccount& one : book.account.tiers) row("tier", one);
  row("total", book.account.all);
  csv +=
      csv_row({"result", "all", "", "", "", "", "", "", "", "", amount_text(book.account.outlays),
               amount_text(book.account.result), project.currency.code});
  for (const tiers::Scenario& one : charted(book.outlook))
    csv += csv_row({one.all == book.outlook.planned() ? "planned" : "estimate", "all", "",
                    std::to_string(one.all), amount_text(one.brought), "", amount_text(one.goods),
                    amount_text(one.selling), "", "", amount_text(one.outlays),
                    amount_text(one.result), project.currency.code});
  return csv;
}

std::string money_json(const Project& project, const MoneyBook& book) {
  Json json;
  json.open_object();
  json.key("schema").text("money/1");
  json.key("project").text(project.id);
  json.key("edition").number(project.edition);
  json.key("currency").text(project.currency.code);
  json.key("minor_units").number(project.currency.exponent);
  json.key("tiers").open_array();
  for (const TierAccount& one : book.account.tiers) write_account(json, project, one);
  json.close_array();
  json.key("all");
  write_account(json, project, book.account.all);
  json.key("outlays").number(book.account.outlays.minor);
  json.key("result").number(book.account.result.minor);
  json.key("left_unused").number(book.account.stranded.minor);
  json.key("values").open_array();
  for (std::size_t i = 0; i < project.tiers.size(); ++i) {
    const tiers::TierValue& value = book.values.at(i);
    json.open_object();
    json.key("tier").text(project.tiers[i].id);
    json.key("shop_value").number(value.total.minor);
    json.key("gifts").number(value.gifts.minor);
    json.key("all_priced").truth(value.unpriced.empty());
    json.close_object();
  }
  json.close_array();
  json.key("scenarios").open_array();
  for (const tiers::Scenario& one : charted(book.outlook)) {
    json.open_object();
    json.key("kits").number(one.all);
    json.key("estimate").truth(one.all != book.outlook.planned());
    json.key("brought").number(one.brought.minor);
    json.key("goods").number(one.goods.minor);
    json.key("selling").number(one.selling.minor);
    json.key("result").number(one.result.minor);
    json.close_object();
  }
  json.close_array();
  json.close_object();
  return json.take();
}

} // namespace leafwright::guide
