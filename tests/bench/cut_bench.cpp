// cut_bench <set> [data folder] [--turned] [--seconds S] [--only TEXT] [--count N] [--quiet]
// sets: gcut (the knapsack alone), gcutd, a, bpp, class, grow. The data folder may also be given as
// LEAFWRIGHT_CUT_DATA.

#include "checker.h"
#include "cut_bench_data.h"
#include "plan/cut/internal/inside.h"
#include "plan/cut/internal/normal.h"

#include <fmt/format.h>

#include <sys/resource.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <string>
#include <vector>

namespace {

using namespace leafwright::cut;

double processor_seconds() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
  };
  return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

struct Options {
  std::string set;
  std::string folder;
  bool turned = false;
  bool quiet = false;
  double seconds = 10;
  std::string only;
  int count = 200;
};

Options read_options(int argc, char** argv) {
  Options options;
  if (const char* folder = std::getenv("LEAFWRIGHT_CUT_DATA")) options.folder = folder;
  std::vector<std::string> words(argv + 1, argv + argc);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto next = [&] { return ++i < words.size() ? words[i] : std::string(); };
    if (words[i] == "--turned") {
      options.turned = true;
    } else if (words[i] == "--quiet") {
      options.quiet = true;
    } else if (words[i] == "--seconds") {
      options.seconds = std::strtod(next().c_str(), nullptr);
    } else if (words[i] == "--only") {
      options.only = next();
    } else if (words[i] == "--count") {
      options.count = static_cast<int>(std::strtol(next().c_str(), nullptr, 10));
    } else if (options.set.empty()) {
      options.set = words[i];
    } else {
      options.folder = words[i];
    }
  }
  return options;
}

std::vector<bench::Instance> instances_of(const Options& options) {
  if (options.set == "gcutd") return bench::read_gcutd(options.folder, options.turned);
  if (options.set == "a") return bench::read_a(options.folder, options.turned);
  if (options.set == "bpp") return bench::read_bpp(options.folder, options.turned);
  std::vector<bench::Instance> result;
  if (options.set == "class") {
    for (int k = 0; k < options.count; ++k) {
      result.push_back(bench::class_job(static_cast<std::uint64_t>(k), options.turned));
    }
  } else if (options.set == "grow") {
    const std::pair<int, std::int64_t> sizes[] = {
        {25, 1000}, {50, 2500}, {100, 10'000}, {150, 50'000}, {200, 100'000}};
    for (const auto& [types, pieces] : sizes) {
      for (std::uint64_t k = 0; k < 3; ++k) {
        result.push_back(bench::large_job(k, types, pieces, options.turned));
      }
    }
  }
  return result;
}

struct Total {
  std::int64_t sheets = 0, bound = 0;
  int instances = 0, proven = 0, within_one = 0, faulty = 0;
};

void print_total(const std::string& name, const Total& t) {
  fmt::print("{:10} instances {:4} sheets {:6} bound {:6} proven {:4} within one {:4} faulty {}\n",
             name, t.instances, t.sheets, t.bound, t.proven, t.within_one, t.faulty);
}

// The knapsack alone, exact, with areas as values: tables and one best pattern.
int price_gcut(const Options& options) {
  for (const bench::Instance& instance : bench::read_gcut(options.folder, options.turned)) {
    const SheetType& sheet = instance.job.sheets.front();
    const double before = processor_seconds();
    std::vector<OrientedType> shapes;
    std::vector<std::int64_t> wanted;
    std::vector<Value> value;
    for (std::size_t t = 0; t < instance.job.pieces.size(); ++t) {
      const PieceType& piece = instance.job.pieces[t];
      const int width = static_cast<int>(piece.width);
      const int height = static_cast<int>(piece.height);
      const int type = static_cast<int>(t);
      if (width <= sheet.width && height <= sheet.height) {
        shapes.push_back({width, height, type, false});
      }
      if (options.turned && width != height && height <= sheet.width && width <= sheet.height) {
        shapes.push_back({height, width, type, true});
      }
      wanted.push_back(piece.copies);
      value.push_back(width * height);
    }
    const Inside table(static_cast<int>(sheet.width), static_cast<int>(sheet.height), shapes,
                       wanted, value, 0);
    std::int64_t cut = 0;
    for (const SliceNode& node : table.pattern().nodes) {
      if (node.join == Join::Leaf) cut += std::int64_t{node.width} * node.height;
    }
    fmt::print("{:8} {:8} pattern {:8} grid {:5} x {:5} {:8.4f} s\n", instance.name, table.best(),
               cut, table.x().points.size(), table.y().points.size(), processor_seconds() - before);
  }
  return 0;
}

} // namespace

int main(int argc, char** argv) {
  const Options options = read_options(argc, argv);
  if (options.set == "gcut") return price_gcut(options);
  std::map<std::string, Total> totals;
  std::vector<double> times;
  Total all;
  for (const bench::Instance& instance : instances_of(options)) {
    if (!options.only.empty() &&
        (',' + options.only + ',').find(',' + instance.name + ',') == std::string::npos)
      continue;
    Effort effort;
    effort.seconds = options.seconds;
    effort.work = std::int64_t{1} << 60; // the processor's time ends it
    effort.clock = processor_seconds;
    const double before = processor_seconds();
    const Plan result = plan(instance.job, effort);
    const double seconds = processor_seconds() - before;
    times.push_back(seconds);
    const std::vector<std::string> faults = check::faults(instance.job, result);
    const Statistics& s = result.statistics;
    if (!options.quiet) {
      fmt::print("{:22} {:5} bound {:5} {} {:8.3f} s wall {:7.3f} lp {:10.4f} prc {:4}/{:3} col "
                 "{:5} dive {:3} ip {} enum {} moves {} pats {} work {}M\n",
                 instance.name, result.sheets, result.bound_cost,
                 result.proven ? "proven" : "  open", seconds, s.seconds, s.relaxation,
                 s.exact_pricings, s.pricings, s.columns, s.dives, s.programmes, s.enumerated,
                 s.moves, result.patterns.size(), s.work / 1'000'000);
      std::fflush(stdout);
    }
    for (const std::string& fault : faults) fmt::print("  FAULT {}: {}\n", instance.name, fault);
    for (Total* total : {&all, &totals[instance.name.substr(0, instance.name.find('-'))]}) {
      ++total->instances;
      total->sheets += result.sheets;
      total->bound += result.bound_cost;
      total->proven += result.proven ? 1 : 0;
      total->within_one += result.cost - result.bound_cost <= 1 ? 1 : 0;
      total->faulty += faults.empty() ? 0 : 1;
    }
  }
  if (options.set == "bpp") {
    for (const auto& [name, total] : totals) print_total(name, total);
  }
  print_total("all", all);
  if (times.empty()) return 1;
  std::sort(times.begin(), times.end());
  const auto at = [&](double share) {
    return times[static_cast<std::size_t>(share * static_cast<double>(times.size() - 1))];
  };
  fmt::print(
      "processor seconds: median {:.3f}, 90 % {:.3f}, 99 % {:.3f}, most {:.3f}; peak {:.0f} MB\n",
      at(0.5), at(0.9), at(0.99), times.back(), peak_megabytes());
  return all.faulty == 0 ? 0 : 1;
}
