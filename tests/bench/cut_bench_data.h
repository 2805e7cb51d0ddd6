#pragma once

#include "plan/cut/cut.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

// The open instance sets, read from a folder that is not part of the project (its layout: gcut/,
// cgcut/, gcutd/, bpp/, g2csp-a/), and a generator of class-size jobs.
namespace leafwright::cut::bench {

struct Instance {
  std::string name;
  Job job;
};

// Beasley's unconstrained knapsacks: values are areas.
std::vector<Instance> read_gcut(const std::filesystem::path& folder, bool turned);
// Cutting stock with the same pieces.
std::vector<Instance> read_gcutd(const std::filesystem::path& folder, bool turned);
// Real furniture jobs.
std::vector<Instance> read_a(const std::filesystem::path& folder, bool turned);
// Bin packing, one copy each; the class is in the name.
std::vector<Instance> read_bpp(const std::filesystem::path& folder, bool turned);

// Card pieces in 1/16 in (A4: in half millimetres) for a whole class, drawn by `number`.
Instance class_job(std::uint64_t number, bool turned);
// The same with given numbers of types and of pieces in all.
Instance large_job(std::uint64_t number, int types, std::int64_t pieces, bool turned);

} // namespace leafwright::cut::bench
