// How long slips for many orders take, from the roster to the PDF, and how much memory they need.
// Usage: orders_bench [orders]

#include "guide/parcels/parcel_documents.h"
#include "output/pdf.h"
#include "page/layout.h"
#include "read/read.h"
#include "read/roster/roster.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <string>
#include <string_view>
#include <variant>

#include <sys/resource.h>

using namespace leafwright;

namespace {

const std::string sources = LEAFWRIGHT_SOURCE_DIR;

double seconds_of(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

// What is in use at this moment, without what was given back.
double used_megabytes() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmRSS:")) return std::atof(line.c_str() + 6) / 1024.0;
  return 0.0;
}

std::string roster_of(int orders) {
  constexpr const char* tiers[] = {"full", "cut-parts", "cut-parts", "paper", "full", "booklet"};
  std::string csv = "number,name,tier,quantity,owned,swaps,region,date,address,note\n";
  for (int i = 0; i < orders; ++i)
    csv += fmt::format("{0},Buyer Númber {0} Quillfeather,{1},{2},orchard,{3},{4},2027-03-{5:02},"
                       "\"{0} Orchard Lane\nFenmoor {0}\",{6}\n",
                       i + 1, tiers[i % 6], 1 + i % 7 / 6,
                       i % 6 == 0 && i % 5 == 0 ? "windfall" : "", i % 3 == 0 ? "abroad" : "home",
                       3 + i % 13, i % 11 == 0 ? "Please leave it with the neighbour" : "");
  return csv;
}

} // namespace

int main(int count, char** words) {
  const int orders = count > 1 ? std::atoi(words[1]) : 5000;
  Reading reading = read_project_file(sources + "/samples/orchard-gate/project.xml");
  if (!reading.ok()) return 1;
  Project& project = reading.project;
  const std::string csv = roster_of(orders);
  const double before = peak_megabytes();

  Roster roster;
  const double read = seconds_of([&] { roster = read_roster(csv, project, 1); });
  project.run.orders = std::move(roster.orders);
  guide::PackingList list;
  const double packed =
      seconds_of([&] { list = guide::packing_list(project, orders::parcels_of(project)); });
  guide::Document document;
  const double told = seconds_of([&] { document = guide::packing_slips(project, list); });

  Parsed<text::Fonts> fonts = text::standard_fonts(sources + "/fonts");
  const FileBytes bytes = disk_access().read(sources + "/templates/slips.xml", 4'000'000);
  if (!fonts || !std::holds_alternative<std::string>(bytes)) return 1;
  const page::TemplateReading look = page::read_template(std::get<std::string>(bytes), "slips.xml");
  page::Laid laid;
  const double after_slips = used_megabytes();
  const double laid_out = seconds_of([&] {
    laid = page::lay_out(document, look.page_template, *fonts, page::layout_input(project));
  });
  document = {};
  const std::size_t page_count = laid.pages.size();
  const auto pages = static_cast<double>(page_count);
  const double after_layout = used_megabytes(), peak_layout = peak_megabytes();
  std::size_t size = 0;
  const double written = seconds_of([&] {
    const Parsed<std::string> pdf = pdf::write_pdf(std::move(laid), *fonts, project.pictures, {});
    if (pdf) size = (*pdf).size();
  });
  const double all = read + packed + told + laid_out + written;

  fmt::print("{} orders, {} parcels, {} kinds of kit, {} pages, {:.1f} MB of PDF\n", orders,
             list.parcels.parcels.size(), list.parcels.kinds.size(), page_count,
             static_cast<double>(size) / 1e6);
  fmt::print("roster {:.2f} s, parcels {:.2f} s, slips {:.2f} s, layout {:.2f} s, PDF {:.2f} s\n",
             read, packed, told, laid_out, written);
  fmt::print("memory in use: {:.0f} MB of content, {:.0f} MB with its pages (at most {:.0f} on the "
             "way)\n",
             after_slips, after_layout, peak_layout);
  fmt::print("together {:.2f} s, {:.2f} ms a page; {:.0f} MB at most, {:.0f} kB a page\n", all,
             all * 1000 / pages, peak_megabytes(), (peak_megabytes() - before) * 1024 / pages);
  return 0;
}
