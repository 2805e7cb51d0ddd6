#pragma once

#include <cstddef>
#include <functional>
#include <string>

namespace leafwright::app {

// Does `count` pieces of work on all cores, each in one of several processes that share nothing: a
// fault in one piece of work ends that piece alone, its memory goes back when its worker does, and
// the libraries need not bear threads. `done` is called here, in the order in which work ends, with
// what `work` said; a worker that died says so in its place. `jobs` 0: as many as there are cores.
// The number of workers is answered.
int share_out(std::size_t count, int jobs, const std::function<std::string(std::size_t)>& work,
              const std::function<void(std::size_t, std::string)>& done);

} // namespace leafwright::app
