#include "cut_bench_data.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <random>
#include <sstream>
#include <string>

namespace leafwright::cut::bench {

namespace {

// The numbers of every line; header lines give none.
std::vector<std::vector<std::int64_t>> number_lines(const std::filesystem::path& file) {
  std::vector<std::vector<std::int64_t>> lines;
  std::ifstream in(file);
  for (std::string line; std::getline(in, line);) {
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream words(line);
    std::vector<std::int64_t> numbers;
    for (std::int64_t n = 0; words >> n;) numbers.push_back(n);
    if (!numbers.empty()) lines.push_back(std::move(numbers));
  }
  return lines;
}

PieceType piece(std::size_t id, Length width, Length height, std::int64_t copies, bool turned) {
  return {std::to_string(id), width, height, copies, turned};
}

SheetType sheet(Length width, Length height) { return {"sheet", width, height, 1, {}, true}; }

} // namespace

std::vector<Instance> read_gcut(const std::filesystem::path& folder, bool turned) {
  std::vector<Instance> result;
  for (int k = 1; k <= 13; ++k) {
    const auto lines = number_lines(folder / "gcut" / fmt::format("gcut{}.txt", k));
    if (lines.size() < 3) continue;
    Instance instance{fmt::format("gcut{}", k), {}};
    instance.job.sheets.push_back(sheet(lines[1][0], lines[1][1]));
    for (std::size_t i = 2; i < lines.size(); ++i) {
      instance.job.pieces.push_back(piece(i - 2, lines[i][0], lines[i][1], 1'000'000, turned));
    }
    result.push_back(std::move(instance));
  }
  return result;
}

std::vector<Instance> read_gcutd(const std::filesystem::path& folder, bool turned) {
  std::vector<Instance> result;
  for (int k = 1; k <= 13; ++k) {
    const std::string name = fmt::format("gcut{}d", k);
    const auto sheets = number_lines(folder / "gcutd" / (name + "_sheet.csv"));
    const auto items = number_lines(folder / "gcutd" / (name + "_items.csv"));
    if (sheets.empty() || items.empty()) continue;
    Instance instance{name, {}};
    instance.job.sheets.push_back(sheet(sheets[0][1], sheets[0][2]));
    for (const auto& row : items) {
      instance.job.pieces.push_back(
          piece(static_cast<std::size_t>(row[0]), row[1], row[2], row[3], turned));
    }
    result.push_back(std::move(instance));
  }
  return result;
}

std::vector<Instance> read_a(const std::filesystem::path& folder, bool turned) {
  std::vector<Instance> result;
  std::ifstream in(folder / "g2csp-a" / "a_instances.csv");
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream words(line);
    std::string name;
    std::int64_t sheet_w = 0;
    std::int64_t sheet_h = 0;
    std::size_t id = 0;
    std::int64_t w = 0;
    std::int64_t h = 0;
    std::int64_t copies = 0;
    if (!(words >> name >> sheet_w >> sheet_h >> id >> w >> h >> copies)) continue;
    if (result.empty() || result.back().name != name) {
      result.push_back({name, {}});
      result.back().job.sheets.push_back(sheet(sheet_w, sheet_h));
    }
    result.back().job.pieces.push_back(piece(id, w, h, copies, turned));
  }
  return result;
}

std::vector<Instance> read_bpp(const std::filesystem::path& folder, bool turned) {
  std::vector<Instance> result;
  for (int k = 1; k <= 10; ++k) {
    std::ifstream in(folder / "bpp" / fmt::format("class_{:02}.2bp", k));
    std::string line;
    const auto numbers = [&](std::size_t wanted) {
      std::vector<std::int64_t> found;
      while (std::getline(in, line)) {
        std::istringstream words(line);
        found.clear();
        for (std::int64_t n = 0; words >> n;) found.push_back(n);
        if (!found.empty()) break;
      }
      found.resize(std::max(found.size(), wanted));
      return found;
    };
    while (in) {
      const auto head = numbers(1);
      if (!in) break;
      const auto count = static_cast<std::size_t>(numbers(1)[0]);
      const auto which = numbers(2);
      const auto bin = numbers(2);
      Instance instance{fmt::format("class{}-{:03}", head[0], which[1]), {}};
      instance.job.sheets.push_back(sheet(bin[1], bin[0]));
      for (std::size_t i = 0; i < count; ++i) {
        const auto row = numbers(2);
        instance.job.pieces.push_back(piece(i, row[1], row[0], 1, turned));
      }
      result.push_back(std::move(instance));
    }
  }
  return result;
}

namespace {

Instance drawn_job(std::uint64_t number, int types, std::int64_t least, std::int64_t most,
                   bool turned, std::mt19937_64& random) {
  // std::uniform_int_distribution differs between libraries; this does not.
  const auto draw = [&](std::int64_t from, std::int64_t to) {
    return from + static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(to - from + 1));
  };
  Instance instance;
  const std::int64_t format = draw(0, 2);
  if (format == 0) {
    instance.job.sheets.push_back(sheet(136, 176)); // letter
  } else if (format == 1) {
    instance.job.sheets.push_back(sheet(192, 192)); // 12 x 12 in
  } else {
    instance.job.sheets.push_back(sheet(420, 594)); // A4
  }
  const SheetType& s = instance.job.sheets.front();
  for (int t = 0; t < types; ++t) {
    // From a label to an unfolded card base; most sizes lie on a coarser step, as people choose
    // them.
    const std::int64_t step = draw(0, 3) == 0 ? 1 : 2;
    const Length w = draw(s.width / 9, s.width * 2 / 3) / step * step;
    const Length h = draw(s.height / 9, s.height * 2 / 3) / step * step;
    instance.job.pieces.push_back(
        piece(static_cast<std::size_t>(t), w, h, draw(least, most), turned));
  }
  instance.name = fmt::format("job{}-{}-types{}", number, format, types);
  return instance;
}

} // namespace

Instance class_job(std::uint64_t number, bool turned) {
  std::mt19937_64 random(number * 7919 + 17);
  const int types = 3 + static_cast<int>(random() % 38);
  return drawn_job(number, types, 20, 400, turned, random);
}

Instance large_job(std::uint64_t number, int types, std::int64_t pieces, bool turned) {
  std::mt19937_64 random(number * 7919 + 17);
  const std::int64_t mean = pieces / types;
  Instance instance = drawn_job(number, types, mean / 2, mean * 3 / 2, turned, random);
  instance.name += fmt::format("-pieces{}", pieces);
  return instance;
}

} // namespace leafwright::cut::bench
