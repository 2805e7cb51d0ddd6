#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>
#include <vector>

// Starting the program as a user does, and what the system says about it (Linux's /proc).

namespace leafwright::bench {

std::string whole_file(const std::filesystem::path& path);
void put(const std::filesystem::path& path, const std::string& bytes);

// Starts `words`, its output thrown away; -1 when it cannot be.
pid_t start(std::vector<std::string> words);
// Processor time of a process's first thread in milliseconds, by the scheduler's own clock: ticks
// are too coarse for a tenth of a second.
double cpu_ms(pid_t process);
// Memory of a process and of all below it now, in kB; memory that they share is counted once for
// each (PSS divides it, but costs the system too much to ask for often).
long tree_kb(pid_t process);
// The same with shared memory divided among those who share it.
long tree_own_kb(pid_t process);
double median(std::vector<double> values);
double share_of(std::vector<double> values, double share); // 0.9: nine of ten are no more

} // namespace leafwright::bench
